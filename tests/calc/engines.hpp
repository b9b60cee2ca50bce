// Two invented engines of the Grebe Levels as the calculations see them, and small helpers to ask a
// sum. Figures are design values made for sample cases.
#pragma once

#include "core/calc/constant_rate.hpp"
#include "core/calc/make_law.hpp"
#include "core/calc/sum.hpp"
#include "core/calc/tangent_flank.hpp"

#include <algorithm>
#include <limits>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace soot::test {

inline constexpr double in_mm = 25.4;

inline void put(Family& family, const std::string& key, const std::string& text) {
  const Measure measure = read_measure(text).value();
  Figure figure;
  figure.key = key;
  figure.unit = measure.unit;
  figure.value = measure.model();
  figure.source = "given";
  family.figures[key] = figure;
}

inline void put_law(Family& family, const std::string& name,
                    const std::vector<std::pair<std::string, std::string>>& coefficients) {
  family.law.name = name;
  for (const auto& [key, text] : coefficients) {
    const Measure measure = read_measure(text).value();
    family.law.coefficients[key] = {measure.model(), measure.unit.dimension, {}};
  }
}

inline Family hagmoss() {
  Family family;
  family.id = "hagmoss-4";
  family.cylinders = 4;
  family.firing_order = {1, 2, 4, 3};
  family.rotation = "clockwise seen from the fan";
  family.features = {"four-stroke", "lifters", "jam-nut"};
  const std::vector<std::pair<std::string, std::string>> figures{{"bore", "140 mm"},
                                                                 {"stroke", "190 mm"},
                                                                 {"rod-length", "399 mm"},
                                                                 {"static-timing", "15 deg"},
                                                                 {"flywheel-diameter", "560 mm"},
                                                                 {"plunger-diameter", "9.5 mm"},
                                                                 {"plunger-lift", "10 mm"},
                                                                 {"pre-stroke", "2.8 mm"},
                                                                 {"lift-rate", "0.12 mm/deg"},
                                                                 {"foot-at-closing", "31 mm"},
                                                                 {"lifter-depth", "29.20 mm"},
                                                                 {"lifter-depth-base", "33.80 mm"},
                                                                 {"lifter-thread-pitch", "1.0 mm"},
                                                                 {"jam-rise", "0.04 mm"},
                                                                 {"head-clearance", "0.6 mm"},
                                                                 {"effective-stroke", "1.81 mm"},
                                                                 {"helix-lead", "24 mm"},
                                                                 {"pinion-radius", "10 mm"},
                                                                 {"plunger-length", "74.50 mm"},
                                                                 {"crank-teeth", "30"},
                                                                 {"pump-teeth", "60"},
                                                                 {"gear-module", "4 mm"},
                                                                 {"meshes", "2"}};
  for (const auto& [key, text] : figures)
    put(family, key, text);
  family.figures["lifter-depth"].tolerance = 0.05;
  family.figures["plunger-length"].least = 74.35;
  Figure lash;
  lash.key = "backlash";
  lash.unit = model_unit(Dimension::length);
  lash.low = 0.08;
  lash.high = 0.20;
  lash.most = 0.45;
  family.figures["backlash"] = lash;
  Figure opening;
  opening.key = "nozzle-opening";
  opening.unit = model_unit(Dimension::pressure);
  opening.low = 125;
  opening.high = 140;
  family.figures["nozzle-opening"] = opening;
  put_law(family, "constant-rate",
          {{"rate", "0.12 mm/deg"},
           {"closing", "15 deg"},
           {"closing-lift", "2.8 mm"},
           {"total", "10 mm"}});
  return family;
}

/// The tangent cam of physics textbooks' size: 5 mm of lift at closing over 30 + 15 mm.
inline Family tangent_engine() {
  Family family;
  family.id = "tangent";
  family.cylinders = 1;
  family.firing_order = {1};
  put(family, "static-timing", "15 deg");
  put(family, "lifter-depth", "31 mm");
  put_law(family, "tangent-flank",
          {{"base-radius", "30 mm"},
           {"roller-radius", "15 mm"},
           {"closing", "15 deg"},
           {"closing-lift", "5 mm"},
           {"total", "16 mm"}});
  return family;
}

inline std::unique_ptr<calc::LiftLaw> law_of(const Family& family) {
  return std::move(calc::make_law(family.law, family).value());
}

inline calc::Given given(const std::string& text, int cylinder = 0) {
  const Measure measure = read_measure(text).value();
  return calc::Given{measure.model(), measure.unit, cylinder, std::nullopt, "by hand"};
}

using Inputs = std::vector<std::pair<std::string, calc::Given>>;

inline Result<calc::Sum> work(std::string_view id, const Family& family, const Inputs& inputs,
                              const calc::LiftLaw* law = nullptr) {
  calc::Ask ask{family, law, {}};
  for (const auto& [name, value] : inputs)
    ask.given[name].push_back(value);
  return calc::work_out(*calc::find_sum(id), ask);
}

inline Result<calc::Sum> ask_hagmoss(std::string_view id, const Inputs& inputs = {}) {
  const Family family = hagmoss();
  const auto law = law_of(family);
  return work(id, family, inputs, law.get());
}

inline calc::Sum hagmoss_sum(std::string_view id, const Inputs& inputs = {}) {
  return ask_hagmoss(id, inputs).value();
}

inline std::string refusal(const Result<calc::Sum>& sum) {
  return sum ? "done" : to_string(sum.error());
}

inline bool says(const std::vector<std::string>& lines, std::string_view words) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& line) { return line.find(words) != line.npos; });
}

/// A result by name and cylinder; not a number if it is not there.
inline double result(const calc::Sum& sum, std::string_view name, int cylinder = 0) {
  for (const calc::Amount& amount : sum.results)
    if (amount.name == name && amount.cylinder == cylinder) return amount.value;
  return std::numeric_limits<double>::quiet_NaN();
}

/// As printed, in the amount's own unit.
inline std::string printed(const calc::Sum& sum, std::string_view name, int cylinder = 0) {
  for (const calc::Amount& amount : sum.results)
    if (amount.name == name && amount.cylinder == cylinder)
      return print_in(amount.value, amount.unit, amount.decimals);
  return "none";
}

inline double uncertainty(const calc::Sum& sum, std::string_view name, int cylinder = 0) {
  for (const calc::Amount& amount : sum.results)
    if (amount.name == name && amount.cylinder == cylinder) return amount.expanded.value_or(-1);
  return -1;
}

}  // namespace soot::test
