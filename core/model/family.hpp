// An engine design: a table of figures, the order and sense it runs in, the way its parts are
// measured. Read from a family's TOML text by core/knowledge; the lift law itself is a function of
// core/calc or of a plugin.
#pragma once

#include "core/base/measure.hpp"
#include "core/base/problem.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace soot {

/// One figure of the spec table, all in the dimension's model unit. `value` is the nominal one; a
/// range gives `low` and `high`; limits are `least` and `most`. At least one of them is there.
struct Figure {
  std::string key;
  Unit unit = model_unit(Dimension::number);  ///< as the book prints it
  std::optional<double> value, tolerance, low, high, least, most;
  double step = 0;     ///< of the last place as written, model unit; 0: exact
  std::string source;  ///< "given", "derived" or a citation
  Place place;

  /// `value`, else the middle of the range.
  std::optional<double> nominal() const {
    if (value) return value;
    if (low && high) return (*low + *high) / 2;
    return std::nullopt;
  }
};

/// No pump port closes earlier, in crank degrees before top: static timings found lie between 5 and
/// 24.
inline constexpr double latest_closing_deg = 40;

/// A named lift law of core/calc with its coefficients, or `own`: the plugin's function.
struct LawSpec {
  std::string name;  ///< constant-rate, tangent-flank, eccentric, own; empty = none known
  struct Coefficient {
    double value = 0;  ///< model unit of its dimension
    Dimension dimension = Dimension::number;
    Place place;
  };
  std::map<std::string, Coefficient> coefficients;
  Place place;
};

struct Family {
  std::string id;
  std::string name;
  std::string version;
  std::string author;
  std::string about;
  int cylinders = 0;
  int strokes = 4;
  std::vector<int> firing_order;
  std::string rotation;               ///< "clockwise seen from the fan"
  std::string numbering;              ///< "No. 1 is next to the fan"
  std::vector<std::string> features;  ///< what it has: lifters, jam-nut, valves, lift-pump, ...
  std::map<std::string, Figure> figures;
  LawSpec law;
  std::vector<std::string> rules;  ///< sentences for the wall: rack mark rule, stroke, ...
  std::string plugin_id;
  std::string plugin_version;
  Place place;

  const Figure* figure(const std::string& key) const {
    const auto found = figures.find(key);
    return found == figures.end() ? nullptr : &found->second;
  }
  /// The nominal value of a figure in model units, if known.
  std::optional<double> nominal(const std::string& key) const {
    const Figure* found = figure(key);
    return found ? found->nominal() : std::nullopt;
  }
  bool has(std::string_view feature) const {
    for (const std::string& f : features)
      if (f == feature) return true;
    return false;
  }
};

}  // namespace soot
