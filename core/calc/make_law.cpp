#include "core/calc/make_law.hpp"

#include "core/base/text.hpp"
#include "core/calc/constant_rate.hpp"
#include "core/calc/eccentric.hpp"
#include "core/calc/tangent_flank.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace soot::calc {
namespace {

constexpr std::array constant_rate_keys{
    LawKey{"rate", Dimension::lift_rate}, LawKey{"closing", Dimension::angle},
    LawKey{"closing-lift", Dimension::length}, LawKey{"total", Dimension::length}};
constexpr std::array tangent_flank_keys{
    LawKey{"base-radius", Dimension::length}, LawKey{"roller-radius", Dimension::length},
    LawKey{"closing", Dimension::angle}, LawKey{"closing-lift", Dimension::length},
    LawKey{"total", Dimension::length}};
constexpr std::array eccentric_keys{LawKey{"eccentricity", Dimension::length},
                                    LawKey{"closing", Dimension::angle},
                                    LawKey{"closing-lift", Dimension::length}};

constexpr std::array forms{LawForm{"constant-rate", constant_rate_keys},
                           LawForm{"tangent-flank", tangent_flank_keys},
                           LawForm{"eccentric", eccentric_keys}};

std::vector<std::string> form_names() {
  std::vector<std::string> names;
  for (const LawForm& form : forms)
    names.emplace_back(form.name);
  return names;
}

class Coefficients {
 public:
  Coefficients(const LawSpec& spec, const LawForm& form) : spec_(spec) {
    std::vector<std::string> keys;
    for (const LawKey& key : form.keys)
      keys.emplace_back(key.key);
    for (const auto& [key, value] : spec.coefficients)
      if (std::find(keys.begin(), keys.end(), key) == keys.end())
        complain(fmt::format("lift law {} has no coefficient '{}' (expected {}{})", spec.name, key,
                             fmt::join(keys, ", "), did_you_mean(key, keys)),
                 value.place);
    for (const LawKey& key : form.keys)
      check(key);
  }

  double operator[](const std::string& key) const { return spec_.coefficients.at(key).value; }

  void closing_below(double total_mm) {
    const double lift_mm = spec_.coefficients.at("closing-lift").value;
    if (lift_mm >= total_mm)
      complain(
          fmt::format("closing-lift {} mm of lift law {} (expected less than the whole lift of "
                      "{} mm)",
                      lift_mm, spec_.name, total_mm));
  }

  const Problems& problems() const { return problems_; }

 private:
  void check(const LawKey& key) {
    const auto found = spec_.coefficients.find(std::string{key.key});
    if (found == spec_.coefficients.end())
      return complain(fmt::format("lift law {} has no {} (expected one, {})", spec_.name, key.key,
                                  name_of(key.dimension)));
    const auto& [value, dimension, place] = found->second;
    if (dimension != key.dimension)
      return complain(
          fmt::format("{} of lift law {} is {} (expected {} in {})", key.key, spec_.name,
                      name_of(dimension), name_of(key.dimension), units_of(key.dimension)),
          place);
    if (!std::isfinite(value) || value <= 0)
      return complain(
          fmt::format("{} of lift law {} is {} (expected more than 0)", key.key, spec_.name, value),
          place);
    if (key.key == "closing" && value > latest_closing_deg)
      complain(fmt::format("closing of lift law {} is {} deg before top (expected at most {})",
                           spec_.name, value, latest_closing_deg),
               place);
  }

  void complain(std::string text) { complain(std::move(text), spec_.place); }
  void complain(std::string text, const Place& place) {
    Problem problem;
    problem.place = place.line > 0 ? place : spec_.place;
    problem.text = std::move(text);
    problems_.push_back(std::move(problem));
  }

  const LawSpec& spec_;
  Problems problems_;
};

std::unique_ptr<LiftLaw> build(const Coefficients& at, std::string_view name,
                               double cam_per_crank) {
  if (name == "constant-rate")
    return std::make_unique<ConstantRate>(
        ConstantRate::Shape{.rate_mm_per_deg = at["rate"],
                            .closing_before_top_deg = at["closing"],
                            .closing_lift_mm = at["closing-lift"],
                            .total_mm = at["total"]});
  if (name == "tangent-flank")
    return std::make_unique<TangentFlank>(
        TangentFlank::Shape{.base_radius_mm = at["base-radius"],
                            .roller_radius_mm = at["roller-radius"],
                            .closing_before_top_deg = at["closing"],
                            .closing_lift_mm = at["closing-lift"],
                            .total_mm = at["total"],
                            .cam_per_crank = cam_per_crank});
  return std::make_unique<Eccentric>(Eccentric::Shape{.eccentricity_mm = at["eccentricity"],
                                                      .closing_before_top_deg = at["closing"],
                                                      .closing_lift_mm = at["closing-lift"],
                                                      .cam_per_crank = cam_per_crank});
}

}  // namespace

std::span<const LawForm> law_forms() {
  return forms;
}

const LawForm* find_law_form(std::string_view name) {
  const auto* const found =
      std::find_if(forms.begin(), forms.end(), [&](const LawForm& f) { return f.name == name; });
  return found == forms.end() ? nullptr : found;
}

Result<std::unique_ptr<LiftLaw>> make_law(const LawSpec& spec, const Family& family) {
  const LawForm* form = find_law_form(spec.name);
  if (!form) {
    const std::vector<std::string> names = form_names();
    Problem problem = make_problem(Kind::data, "'{}' is no lift law (expected {}{})", spec.name,
                                   fmt::join(names, ", "), did_you_mean(spec.name, names));
    problem.place = spec.place;
    return tl::unexpected(Problems{problem});
  }
  Coefficients coefficients{spec, *form};
  if (coefficients.problems().empty())
    coefficients.closing_below(form->name == "eccentric" ? 2 * coefficients["eccentricity"]
                                                         : coefficients["total"]);
  if (!coefficients.problems().empty()) return tl::unexpected(coefficients.problems());
  return build(coefficients, form->name, family.strokes == 2 ? 1.0 : 0.5);
}

}  // namespace soot::calc
