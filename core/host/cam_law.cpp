#include "core/host/cam_law.hpp"

#include "core/host/sampled_law.hpp"

#include <cmath>
#include <limits>
#include <utility>
#include <vector>

namespace soot::host {

namespace {
Result<std::vector<double>> ask_lifts(const soot_cam_law_t& law, const soot_family_t& family,
                                      const std::string& id, Services& services, Guard& guard) {
  const std::string doing = "lift_at of " + id;
  std::vector<double> lifts_mm(SampledLaw::count);
  for (std::size_t i = 0; i < lifts_mm.size(); ++i) {
    const double crank_deg = SampledLaw::sample_deg(i);
    double lift_mm = std::numeric_limits<double>::quiet_NaN();
    const int status = guard(doing, [&] { return law.lift_at(&family, crank_deg, &lift_mm); });
    if (status != SOOT_OK)
      return fail(Kind::trouble, "no lift at {:.1f} deg ({})", crank_deg, services.take_reason());
    lifts_mm[i] = lift_mm;
  }
  return lifts_mm;
}

/// Its own way back from lift to angle, against the samples.
Problems ask_way_back(const soot_cam_law_t& law, const soot_family_t& family, const std::string& id,
                      const SampledLaw& sampled, Services& services, Guard& guard) {
  const std::string doing = "angle_at of " + id;
  constexpr double allowed_deg = 0.01;
  for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
    const double lift_mm = share * sampled.total_mm();
    const double expected_deg = sampled.angle_deg(lift_mm).value();
    double crank_deg = std::numeric_limits<double>::quiet_NaN();
    const int status = guard(doing, [&] { return law.angle_at(&family, lift_mm, &crank_deg); });
    if (status != SOOT_OK)
      return {make_problem(Kind::trouble, "no angle at a lift of {:.3f} mm ({})", lift_mm,
                           services.take_reason())};
    if (!(std::abs(crank_deg - expected_deg) <= allowed_deg))
      return {make_problem(Kind::trouble,
                           "angle at a lift of {:.3f} mm is {:.3f} deg (expected {:.3f} from its "
                           "own lifts)",
                           lift_mm, crank_deg, expected_deg)};
  }
  return {};
}
}  // namespace

Result<std::shared_ptr<const calc::LiftLaw>> ask_cam_law(const soot_cam_law_t& law,
                                                         const soot_family_t& family,
                                                         const std::string& id, Services& services,
                                                         Guard& guard) {
  if (!law.lift_at || !law.angle_at)
    return fail(Kind::trouble, "its cam law has gaps (expected two functions)");
  Result<std::vector<double>> lifts_mm = ask_lifts(law, family, id, services, guard);
  if (!lifts_mm) return pass_on(lifts_mm);
  Result<SampledLaw> sampled = SampledLaw::from_samples(std::move(*lifts_mm));
  if (!sampled) return pass_on(sampled);
  Problems problems = ask_way_back(law, family, id, *sampled, services, guard);
  if (!problems.empty()) return tl::unexpected(std::move(problems));
  return std::make_shared<const SampledLaw>(std::move(*sampled));
}

}  // namespace soot::host
