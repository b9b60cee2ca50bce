#include "core/knowledge/family_reader.hpp"

#include "core/base/text.hpp"
#include "core/knowledge/fields.hpp"
#include "core/knowledge/figure_keys.hpp"
#include "core/knowledge/loader.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace soot {
namespace {

constexpr int most_cylinders = 16;

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
  family.rotation = entry.needed_text("rotation");
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
    wanted_ = dimension_of_figure(key);
    figure_.key = std::move(key);
  }

  std::optional<double> part(Reader& reader, std::string_view key, bool is_difference = false) {
    if (!reader.has(key)) return std::nullopt;
    if (reader.is_number(key))
      return in_unit(reader, key, model_unit(Dimension::number), reader.number(key));
    const std::optional<Measure> measure = reader.measure(key);
    if (!measure) return std::nullopt;
    if (measure->bound != Bound::none) complain_of_bound(reader, key, *measure);
    return in_unit(reader, key, measure->unit,
                   is_difference ? model_difference(*measure) : measure->model());
  }

  Figure read() {
    figure_.place = table_.place_of(figure_.key);
    check_key();
    figure_.source = "given";
    if (!table_.is_table(figure_.key)) {
      figure_.value = part(table_, figure_.key);
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

  static bool any_part_written(const Reader& entry) {
    constexpr std::string_view parts[] = {"value", "low", "high", "least", "most"};
    return std::any_of(std::begin(parts), std::end(parts),
                       [&](std::string_view part) { return entry.has(part); });
  }

  Reader& table_;
  Figure figure_;
  std::optional<Dimension> wanted_;
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
    family.law.coefficients[key] = measure->model();
  }
}

}  // namespace

Result<ReadFamily> read_family(std::string name, std::string text, const Scale& scale) {
  Result<Document> document = Document::parse(std::move(name), std::move(text));
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
  root.done();
  Problems problems = document->problems();
  if (has_errors(problems)) return tl::unexpected<Problems>(std::move(problems));
  return read;
}

}  // namespace soot
