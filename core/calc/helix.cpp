#include "core/calc/helix.hpp"

#include <fmt/ranges.h>

#include <algorithm>
#include <numbers>
#include <string>
#include <vector>

namespace soot::calc {
namespace {

constexpr double common_module_mm = 1;

class Figures {
 public:
  explicit Figures(const Family& family) : family_(family) {}

  double needed(const std::string& key, bool may_be_zero = false) {
    const std::optional<double> value = family_.nominal(key);
    const bool good = value && (*value > 0 || (may_be_zero && *value == 0));
    if (!good) missing_.push_back(key);
    return value.value_or(0);
  }
  const std::vector<std::string>& missing() const { return missing_; }

 private:
  const Family& family_;
  std::vector<std::string> missing_;
};

}  // namespace

Result<Helix> Helix::of(const Family& family) {
  Figures figures{family};
  Helix helix;
  helix.lead_mm = figures.needed("helix-lead");
  helix.pinion_radius_mm = figures.needed("pinion-radius");
  helix.no_delivery_mm = figures.needed("rack-no-delivery", true);
  helix.plunger_diameter_mm = figures.needed("plunger-diameter");
  if (!figures.missing().empty())
    return fail(Kind::data, "family {} does not give {} (expected figures above 0)", family.id,
                fmt::join(figures.missing(), ", "));
  const auto lift_mm = family.nominal("plunger-lift");
  const auto before_closing_mm = family.nominal("pre-stroke");
  if (lift_mm && before_closing_mm) helix.most_stroke_mm = *lift_mm - *before_closing_mm;
  return helix;
}

double Helix::stroke_per_rack() const {
  return lead_mm / (2 * std::numbers::pi * pinion_radius_mm);
}

double Helix::area_mm2() const {
  return std::numbers::pi / 4 * plunger_diameter_mm * plunger_diameter_mm;
}

double Helix::stroke_mm(double rack_mm) const {
  const double stroke = std::max(0.0, rack_mm - no_delivery_mm) * stroke_per_rack();
  return most_stroke_mm ? std::min(stroke, *most_stroke_mm) : stroke;
}

std::optional<double> Helix::rack_mm(double stroke_mm) const {
  if (!(stroke_mm >= 0) || (most_stroke_mm && stroke_mm > *most_stroke_mm)) return std::nullopt;
  return no_delivery_mm + stroke_mm / stroke_per_rack();
}

double Helix::fuel_mm3(double stroke_mm) const {
  return area_mm2() * stroke_mm;
}

double Helix::stroke_for_fuel_mm(double fuel_mm3) const {
  return fuel_mm3 / area_mm2();
}

double rack_tooth_mm(const Family& family) {
  if (const auto pitch_mm = family.nominal("rack-pitch")) return *pitch_mm;
  return std::numbers::pi * family.nominal("rack-module").value_or(common_module_mm);
}

}  // namespace soot::calc
