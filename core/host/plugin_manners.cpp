#include "core/base/append.hpp"
#include "core/host/plugin.hpp"
#include "core/host/sampled_law.hpp"

#include <cmath>

namespace soot::host {

namespace {
constexpr const char* nobodys_factory = "soot.family-factory/1 of nobody";
constexpr const char* nobodys_extension = "soot.cam-law/1 of nobody";

/// An angle for a lift that the cam does not have.
Problems ask_beyond(const soot_cam_law_t& law, const soot_family_t& family, const std::string& id,
                    double total_mm, Guard& guard) {
  Problems problems;
  for (const double lift_mm : {total_mm + 1, -1.0, std::nan("")}) {
    double crank_deg = 0;
    const int status = guard("angle_at of " + id + " past its cam",
                             [&] { return law.angle_at(&family, lift_mm, &crank_deg); });
    if (status == SOOT_OK)
      problems.push_back(make_problem(Kind::trouble,
                                      "family {}: gives an angle for a lift of {:.3f} mm (better: "
                                      "refuse it, for the cam lifts {:.3f} mm)",
                                      id, lift_mm, total_mm));
  }
  for (Problem& problem : problems)
    problem.severity = Severity::note;  // the program never asks for it
  return problems;
}
}  // namespace

Problems Plugin::manners(const std::vector<ServedFamily>& families) {
  Problems problems;
  const auto wrong = [&](const std::string& what) {
    problems.push_back(make_problem(Kind::trouble, "{} is not answered NULL", what));
  };
  try {
    if (guard_("get_factory of nobody", [&] { return entry_->get_factory(nobodys_factory); }))
      wrong("a factory id that nobody has");
    const soot_family_factory_t& make_from = factory();
    for (const ServedFamily& served : families) {
      const Result<FamilyPtr> made = make(make_from, served.id);
      if (!made) {
        problems.push_back(make_problem(Kind::trouble, "family {}: made once and not again: {}",
                                        served.id, to_string(made.error())));
        continue;
      }
      const soot_family_t& family = **made;
      const auto extension = [&](const char* id) {
        return guard_("get_extension of " + served.id,
                      [&] { return family.get_extension(&family, id); });
      };
      if (extension(nobodys_extension)) wrong("an extension id that nobody has");
      const auto* law = static_cast<const soot_cam_law_t*>(extension(SOOT_CAM_LAW));
      if (!law || !served.own_law) continue;
      const double total_mm = served.own_law->lift_mm(SampledLaw::last_deg);
      const Problems beyond = ask_beyond(*law, family, served.id, total_mm, guard_);
      append(problems, beyond);
    }
  } catch (const Fault& fault) {
    problems.push_back(make_problem(Kind::trouble, "{}", fault.what()));
  }
  for (Problem& problem : problems)
    problem.place.file = manifest_.main_file().string();
  return problems;
}

}  // namespace soot::host
