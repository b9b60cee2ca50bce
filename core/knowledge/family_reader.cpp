#include "core/knowledge/family_reader.hpp"

#include "core/base/text.hpp"
#include "core/knowledge/fields.hpp"
#include "core/knowledge/figure_keys.hpp"
#include "core/knowledge/loader.hpp"
#include "core/model/rotation.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

namespace soot {
namespace {

constexpr int most_cylinders = 16;

/// One unit in the last place of a written number, as a share of its unit: "29.20 mm" 0.01.
double last_place(std::string_view written) {
  const std::size_t point = written.find('.');
  if (point == std::string_view::npos) return 1;
  const std::size_t end = written.find_first_not_of("0123456789", point + 1);
  const std::size_t places = std::min(end, written.size()) - point - 1;
  return std::pow(10.0, -static_cast<double>(places));
}

void read_rotation(Reader& entry, Family& family) {
  family.rotation = entry.needed_text("rotation");
  if (family.rotation.empty() || rotation_of(family.rotation)) return;
  entry.complain("rotation",
                 fmt::format("rotation '{}' does not say sense and end (expected clockwise or "
                             "anticlockwise seen from ..., as \"clockwise seen from the fan\")",
                             family.rotation));
}

void read_order(Reader& entry, Family& family) {
  const std::vector<long> order = entry.integers("firing-order");
  std::vector<long> sorted = order;
  std::sort(sorted.begin(), sorted.end());
  bool permutation = static_cast<int>(sorted.size()) == family.cylinders;
  for (std::size_t i = 0; i < sorted.size(); ++i)
    permutation = permutation && sorted[i] == static_cast<long>(i) + 1;
  if (family.cylinders == 0) return;  // told already
  if (!permutation) {
    entry.complain("firing-order",
                   fmt::format("firing order {} does not name each of the {} cylinders once",
                               fmt::join(order, "-"), family.cylinders));
    return;
  }
  for (const long number : order)
    family.firing_order.push_back(static_cast<int>(number));
}

void read_head(Reader& entry, Family& family) {
  family.place = entry.place();
  family.id = read_id(entry);
  family.name = entry.needed_text("name");
  family.version = entry.needed_text("version");
  family.author = entry.needed_text("author");
  family.about = entry.text("about").value_or("");
  if (!entry.has("cylinders"))
    entry.complain("cylinders",
                   fmt::format("cylinders is missing (expected 1 to {})", most_cylinders));
  family.cylinders = read_whole(entry, "cylinders", 1, most_cylinders, 0);
  family.strokes = read_whole(entry, "strokes", 2, 4, 4);
  if (family.strokes == 3)
    entry.complain("strokes", fmt::format("strokes is {} (expected 2 or 4)", family.strokes));
  read_order(entry, family);
  read_rotation(entry, family);
  family.numbering = entry.needed_text("numbering");
  family.features = entry.texts("features");
  family.rules = entry.texts("rules");
  entry.done();
}

// All measures of one figure share a dimension: that of its key, or for a family's own key that of
// the first measure read.
class FigureReader {
 public:
  FigureReader(Reader& table, std::string key) : table_(table) {
    if (const FigureKey* known = find_figure_key(key)) {
      wanted_ = known->dimension;
      least_ = known->least;
    }
    figure_.key = std::move(key);
  }

  std::optional<double> part(Reader& reader, std::string_view key, bool is_difference = false) {
    if (!reader.has(key)) return std::nullopt;
    if (reader.is_number(key))
      return in_unit(reader, key, model_unit(Dimension::number), reader.number(key));
    const std::optional<Measure> measure = reader.measure(key);
    if (!measure) return std::nullopt;
    if (measure->bound != Bound::none) complain_of_bound(reader, key, *measure);
    const double step = last_place(measure->as_written) * measure->unit.factor;
    figure_.step = figure_.step == 0 ? step : std::min(figure_.step, step);
    return in_unit(reader, key, measure->unit,
                   is_difference ? model_difference(*measure) : measure->model());
  }

  Figure read() {
    figure_.place = table_.place_of(figure_.key);
    check_key();
    figure_.source = "given";
    if (!table_.is_table(figure_.key)) {
      figure_.value = part(table_, figure_.key);
      check_size();
      return figure_;
    }
    Reader entry = *table_.table(figure_.key);
    figure_.value = part(entry, "value");
    figure_.low = part(entry, "low");
    figure_.high = part(entry, "high");
    figure_.least = part(entry, "least");
    figure_.most = part(entry, "most");
    figure_.tolerance = part(entry, "tolerance", true);
    figure_.source = entry.text("source").value_or("given");
    check_order(entry);
    entry.done();
    check_size();
    return figure_;
  }

 private:
  // "bore", or "lifter-depth: tolerance".
  std::string name_of_part(std::string_view key) const {
    return key == figure_.key ? figure_.key : fmt::format("{}: {}", figure_.key, key);
  }

  void check_key() {
    if (wanted_) return;
    const std::string near = did_you_mean(figure_.key, figure_keys());
    if (!near.empty())
      table_.complain(figure_.key, fmt::format("{} is no figure known here{}", figure_.key, near));
  }

  std::optional<double> in_unit(Reader& reader, std::string_view key, const Unit& unit,
                                std::optional<double> value) {
    if (wanted_ && unit.dimension != *wanted_) {
      const bool is_bare = unit.dimension == Dimension::number;
      const std::string is =
          is_bare ? "has no unit" : fmt::format("is {}", name_of(unit.dimension));
      const std::string units =
          *wanted_ == Dimension::number ? "" : fmt::format(" in {}", units_of(*wanted_));
      reader.complain(key, fmt::format("{} {} (expected {}{})", name_of_part(key), is,
                                       name_of(*wanted_), units));
      return std::nullopt;
    }
    if (first_) {
      figure_.unit = unit;
      first_ = false;
    } else if (unit.dimension != figure_.unit.dimension) {
      reader.complain(key,
                      fmt::format("{} is {} (expected {} like the rest of it)", name_of_part(key),
                                  name_of(unit.dimension), name_of(figure_.unit.dimension)));
      return std::nullopt;
    }
    return value;
  }

  // least <= low <= value <= high <= most, as far as they are given.
  void check_order(Reader& entry) {
    const std::pair<std::string_view, std::optional<double>> rising[] = {
        {"least", figure_.least}, {"low", figure_.low},   {"value", figure_.value},
        {"high", figure_.high},   {"most", figure_.most},
    };
    std::string_view below;
    double below_value = 0;
    for (const auto& [name, value] : rising) {
      if (!value) continue;
      if (!below.empty() && below_value > *value)
        entry.complain(below, fmt::format("{}: {} is above {}", figure_.key, below, name));
      below = name;
      below_value = *value;
    }
    if (below.empty() && !any_part_written(entry))
      entry.complain("value", figure_.key +
                                  " has no figure (expected value, low and high, least or "
                                  "most)");
    if (figure_.tolerance && *figure_.tolerance <= 0)
      entry.complain("tolerance", figure_.key + ": the tolerance is not above 0");
  }

  // Nothing an engine is made of measures less than nothing; a gear has whole teeth.
  void check_size() {
    for (const std::optional<double>& part :
         {figure_.value, figure_.low, figure_.high, figure_.least, figure_.most}) {
      if (!part || !wanted_) continue;
      const bool too_small = least_ == Least::zero ? *part < 0 : *part <= 0;
      if (least_ != Least::any && too_small)
        return table_.complain(figure_.key,
                               fmt::format("{} is {} (expected {})", figure_.key, in_words(*part),
                                           least_ == Least::zero ? "0 or more" : "more than 0"));
    }
    if (!figure_.value) return;
    if (figure_.key == "static-timing" && *figure_.value > latest_closing_deg)
      table_.complain(figure_.key, fmt::format("static-timing is {} (expected 0 to {} deg before "
                                               "top)",
                                               in_words(*figure_.value), latest_closing_deg));
    const bool counts = figure_.key.ends_with("-teeth") || figure_.key == "meshes";
    if (counts && *figure_.value != std::round(*figure_.value))
      table_.complain(figure_.key, fmt::format("{} is {} (expected a whole number)", figure_.key,
                                               in_words(*figure_.value)));
  }

  std::string in_words(double model_value) const {
    const double value = (model_value - figure_.unit.offset) / figure_.unit.factor;
    return figure_.unit.name.empty() ? fmt::format("{:.6g}", value)
                                     : fmt::format("{:.6g} {}", value, figure_.unit.name);
  }

  static bool any_part_written(const Reader& entry) {
    constexpr std::string_view parts[] = {"value", "low", "high", "least", "most"};
    return std::any_of(std::begin(parts), std::end(parts),
                       [&](std::string_view part) { return entry.has(part); });
  }

  Reader& table_;
  Figure figure_;
  std::optional<Dimension> wanted_;
  Least least_ = Least::any;
  bool first_ = true;
};

void read_law(Reader& entry, Family& family) {
  family.law.place = entry.place();
  family.law.name = entry.needed_text("law");
  for (const std::string& key : entry.keys()) {
    if (key == "law") continue;
    const std::optional<Measure> measure = entry.is_number(key) ? std::nullopt : entry.measure(key);
    if (entry.is_number(key) || (measure && measure->unit.dimension == Dimension::number))
      entry.complain(key,
                     fmt::format("{} has no unit (expected a measure, as \"0.12 mm/deg\")", key));
    if (!measure) continue;
    if (measure->bound != Bound::none) complain_of_bound(entry, key, *measure);
    family.law.coefficients[key] = {measure->model(), measure->unit.dimension, entry.place_of(key)};
  }
}

Result<ReadFamily> read(Result<Document> document, const Scale& scale) {
  if (!document) return pass_on(document);
  ReadFamily read;
  Reader root = document->root();
  if (std::optional<Reader> head = root.table("family")) {
    read_head(*head, read.family);
  } else {
    root.complain("family", "[family] is missing");
  }
  if (std::optional<Reader> figures = root.table("figures"))
    for (const std::string& key : figures->keys())
      read.family.figures.emplace(key, FigureReader{*figures, key}.read());
  if (std::optional<Reader> lift = root.table("lift")) read_law(*lift, read.family);
  read_entries(root, scale, read.own);
  read.amendments = read_amendments(root, scale);
  root.done();
  Problems problems = document->problems();
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  return read;
}

}  // namespace

Result<ReadFamily> read_family(std::string name, std::string text, const Scale& scale) {
  return read(Document::parse(std::move(name), std::move(text)), scale);
}

Result<ReadFamily> load_family(const std::filesystem::path& file, const Scale& scale) {
  return read(Document::load(file), scale);
}

}  // namespace soot
