#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <cmath>
#include <numbers>

namespace soot::calc {
namespace {

constexpr double most_teeth = 5;

// What a millimetre of rack does to the plunger's effective stroke, if helix and pinion are known.
std::optional<double> stroke_per_rack(Worksheet& sheet) {
  const auto lead = sheet.take("helix-lead");
  const auto radius = sheet.take("pinion-radius");
  if (!lead || !radius || !(radius->value > 0)) return std::nullopt;
  return lead->value / (2 * std::numbers::pi * radius->value);
}

void write_delivery(Worksheet& sheet, double tooth_mm) {
  const auto per_mm = stroke_per_rack(sheet);
  if (!per_mm) return;
  const Unit mm = model_unit(Dimension::length);
  Sum& sum = sheet.sum;
  sum.formula.emplace_back("stroke per mm of rack = helix lead / (2 pi x pinion radius)");
  sum.lines.push_back(fmt::format("one tooth = {:.2f} mm x {:.3f} = {:.2f} mm of effective stroke",
                                  tooth_mm, *per_mm, tooth_mm * *per_mm));
  sheet.result("effective stroke, one tooth", tooth_mm * *per_mm, mm, 2);
  if (const auto diameter = sheet.take("plunger-diameter")) {
    const double area_mm2 = std::numbers::pi * diameter->value * diameter->value / 4;
    constexpr double mm3_per_ml = 1000;
    sheet.result("fuel, one mm of rack", area_mm2 * *per_mm / mm3_per_ml, *find_unit("mm3"), 1);
    sheet.result("fuel, one tooth", area_mm2 * *per_mm * tooth_mm / mm3_per_ml, *find_unit("mm3"),
                 0);
  }
  if (const auto full = sheet.take("effective-stroke"); full && full->value > 0) {
    const double share = 100 * tooth_mm * *per_mm / full->value;
    sheet.result("of full delivery, one tooth", share, model_unit(Dimension::share), 0);
    sum.lines.push_back(fmt::format("= {:.0f} % of the {:.2f} mm at rating", share, full->value));
  }
}

double tolerance_mm(Worksheet& sheet, const Family& family) {
  const Figure* own = family.figure("rack-mark-tolerance");
  if (own != nullptr && own->most) {
    sheet.put_in("tolerance", Given{*own->most, own->unit, 0, std::nullopt, "family"});
    return *own->most;
  }
  return sheet.needed("tolerance").value;
}

std::string verdict(const Given& offset, double teeth, double right_mm) {
  constexpr double off_a_tooth = 0.2;
  const double whole = std::round(teeth);
  const int places = length_decimals(offset.unit);
  if (std::fabs(offset.value) <= right_mm)
    return fmt::format("on its mark within {}: right", print_in(right_mm, offset.unit, places));
  const std::string found =
      fmt::format("{} = {:+.2f} teeth: ", print_in(offset.value, offset.unit, places), teeth);
  if (whole == 0 || std::fabs(teeth - whole) >= off_a_tooth)
    return found + "no whole tooth: link, clamp or wear";
  return found + fmt::format("pinion meshed {:.0f} out, towards {} fuel", std::fabs(whole),
                             whole > 0 ? "more" : "less");
}

Result<Sum> rack(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask, "pitch = pi x module; helix geometry, elementary"};
  Sum& sum = sheet.sum;
  double tooth_mm = 0;
  if (const auto pitch = sheet.take("pitch")) {
    tooth_mm = pitch->value;
  } else {
    tooth_mm = std::numbers::pi * sheet.needed("module").value;
    sum.formula.emplace_back("one tooth of the rack = pi x module");
  }
  if (!(tooth_mm > 0)) return fail(Kind::use, "a rack of pitch 0 (expected more)");
  sum.lines.push_back(fmt::format("one tooth = {:.2f} mm of rack", tooth_mm));
  sheet.result("one tooth", tooth_mm, model_unit(Dimension::length), 2);
  write_delivery(sheet, tooth_mm);
  sum.answer.push_back(
      fmt::format("a pinion meshed one tooth out shows as {:.2f} mm of rack", tooth_mm));
  const double right_mm = tolerance_mm(sheet, ask.family);
  for (const Given& offset : sheet.all("offset")) {
    const double teeth = offset.value / tooth_mm;
    if (std::fabs(teeth) > most_teeth)
      return fail(Kind::use, "{}a rack {} off its mark (expected within {:.0f} teeth)",
                  of_cylinder(offset.cylinder), print_in(offset.value, offset.unit, 1), most_teeth);
    const Estimate found{teeth, estimate(offset).standard / tooth_mm};
    sheet.result("teeth", found, model_unit(Dimension::number), 2, offset.cylinder);
    sheet.answer(offset.cylinder, verdict(offset, teeth, right_mm));
  }
  sum.assumptions = {
      "leakage and compression of the fuel left out: real racks stand somewhat "
      "further out"};
  return sum;
}

}  // namespace

SumForm rack_form() {
  return SumForm{
      "rack",
      "teeth of the rack to millimetres and to delivery",
      {{"offset", Dimension::length, "rack from its mark, towards more fuel positive",
        "rack-offset", "", std::nullopt, false, 0.1},
       {"tolerance", Dimension::length, "what a rack may stand off its mark", "", "", 0.15},
       {"pitch", Dimension::length, "pitch of the rack's teeth", "", "rack-pitch", std::nullopt,
        false},
       {"module", Dimension::length, "module of the rack's teeth, where the pitch is not known", "",
        "", 1.0},
       {"helix-lead", Dimension::length, "lead of the plunger's helix a turn", "", "helix-lead",
        std::nullopt, false},
       {"pinion-radius", Dimension::length, "pitch radius of the plunger's pinion", "",
        "pinion-radius", std::nullopt, false},
       {"plunger-diameter", Dimension::length, "plunger diameter", "", "plunger-diameter",
        std::nullopt, false},
       {"effective-stroke", Dimension::length, "effective stroke at rating", "", "effective-stroke",
        std::nullopt, false}},
      rack};
}

}  // namespace soot::calc
