#include "core/knowledge/entry_readers.hpp"
#include "core/knowledge/fields.hpp"

#include <fmt/format.h>

namespace soot {
namespace {

constexpr int most_decimals = 6;

double chance(Reader& entry, std::string_view key, const Scale& scale, double if_left_out) {
  return entry.has(key) ? read_graded(entry, key, scale.strength, 0.999).value_or(if_left_out)
                        : if_left_out;
}

Hearing read_hearing(Reader& entry, const Quantity& quantity) {
  Hearing hearing;
  hearing.term = entry.needed_text("term");
  const std::optional<Measure> by = entry.measure("by");
  if (!by) {
    if (!entry.has("by")) entry.complain("by", "by is missing (expected so much per unit)");
  } else if (by->unit.dimension == Dimension::share && quantity.dimension != Dimension::share) {
    hearing.share_of_nominal = true;
    hearing.per_unit = by->value;
  } else if (by->unit.dimension == quantity.dimension) {
    hearing.per_unit = model_difference(*by);
  } else {
    entry.complain("by", fmt::format("'{}' is {} (expected {}, or a percentage of the nominal)",
                                     by->as_written, name_of(by->unit.dimension),
                                     name_of(quantity.dimension)));
  }
  entry.done();
  return hearing;
}

Showing read_showing(Reader& entry, const Quantity& quantity) {
  Showing showing;
  showing.symptom = entry.needed_text("symptom");
  const bool above = entry.has("above");
  if (above == entry.has("below"))
    entry.complain("above", "a showing needs above or below, and not both");
  showing.above = above;
  if (const std::optional<Measure> by = entry.measure(above ? "above" : "below")) {
    showing.share_of_reference =
        by->unit.dimension == Dimension::share && quantity.dimension != Dimension::share;
    showing.margin = showing.share_of_reference ? by->value : model_difference(*by);
    if (!showing.share_of_reference && by->unit.dimension != quantity.dimension)
      entry.complain(
          above ? "above" : "below",
          fmt::format("'{}' is {} (expected {}, or a percentage of the reference)", by->as_written,
                      name_of(by->unit.dimension), name_of(quantity.dimension)));
    if (!(showing.margin > 0))
      entry.complain(above ? "above" : "below", "the margin is not above 0");
  }
  const std::string of = entry.needed_text("of");
  showing.of_others = of == "others";
  if (of != "others" && of != "figure")
    entry.complain("of", fmt::format("of is '{}' (expected others or figure)", of));
  if (showing.of_others && quantity.scope == Scope::engine)
    entry.complain("of", "of = others belongs to quantities of scope cylinder");
  entry.done();
  return showing;
}

void read_range(Reader& entry, Quantity& quantity) {
  const std::vector<std::string> ends = entry.texts("range");
  if (ends.size() != 2) {
    entry.complain("range",
                   "range is not two measures (expected the least and the most that can be)");
    return;
  }
  double* const into[] = {&quantity.least, &quantity.most};
  for (std::size_t i = 0; i < 2; ++i) {
    const Result<Measure> end = read_measure(ends[i], quantity.dimension);
    if (end) {
      if (end->bound != Bound::none) complain_of_bound(entry, "range", *end);
      *into[i] = end->model();
    } else {
      entry.complain("range", "range: " + end.error().front().text);
    }
  }
  if (quantity.least >= quantity.most) entry.complain("range", "range is empty or turned round");
}

}  // namespace

Symptom read_symptom(Reader entry, const Scale& scale) {
  Symptom symptom;
  symptom.place = entry.place();
  symptom.id = read_id(entry);
  symptom.name = entry.needed_text("name");
  symptom.scope = read_scope(entry);
  symptom.ask = entry.needed_text("ask");
  symptom.special_of = entry.text("special-of");
  symptom.measured_by = entry.texts("measured-by");
  if (!entry.has("leak"))
    entry.complain("leak",
                   "leak is missing (expected how often it is seen "
                   "for reasons nobody lists)");
  symptom.leak = chance(entry, "leak", scale, 0.01);
  symptom.missed = chance(entry, "missed", scale, 0);
  symptom.imagined = chance(entry, "imagined", scale, 0);
  if (symptom.missed + symptom.imagined >= 1)
    entry.complain("missed",
                   "missed and imagined together reach 1: the report would speak against "
                   "the symptom");
  symptom.only_cold = entry.boolean("only-cold").value_or(false);
  symptom.will_not_run = entry.boolean("will-not-run").value_or(false);
  symptom.words = entry.texts("words");
  symptom.needs = entry.texts("needs");
  symptom.source = read_source(entry);
  entry.done();
  return symptom;
}

Quantity read_quantity(Reader entry) {
  Quantity quantity;
  quantity.place = entry.place();
  quantity.id = read_id(entry);
  quantity.name = entry.needed_text("name");
  quantity.scope = read_scope(entry);
  quantity.unit = read_unit(entry, "unit");
  quantity.dimension = quantity.unit.dimension;
  quantity.decimals = read_whole(entry, "decimals", 0, most_decimals, 2);
  quantity.figure = entry.text("figure").value_or("");
  if (entry.has("usual")) quantity.usual = read_value(entry, "usual", quantity.dimension, 0);
  quantity.geometry = entry.text("geometry").value_or("");
  for (Reader& hearing : entry.tables("hears"))
    quantity.hears.push_back(read_hearing(hearing, quantity));
  quantity.instrument = read_value(entry, "instrument", quantity.dimension, 0, true);
  quantity.instrument_share = read_share(entry, "instrument-share");
  for (Reader& showing : entry.tables("shows"))
    quantity.shows.push_back(read_showing(showing, quantity));
  if (!quantity.is_coarse() && !(quantity.instrument > 0) && !(quantity.instrument_share > 0))
    entry.complain("instrument",
                   "the instrument's uncertainty is missing (expected a measure above 0)");
  quantity.spread = read_value(entry, "spread", quantity.dimension, 0, true);
  quantity.spread_share = read_share(entry, "spread-share");
  read_range(entry, quantity);
  quantity.wrong_offset = read_value(entry, "wrong-offset", quantity.dimension, 0, true);
  quantity.words = entry.texts("words");
  quantity.source = read_source(entry);
  entry.done();
  return quantity;
}

Term read_term(Reader entry) {
  Term term;
  term.place = entry.place();
  term.id = read_id(entry);
  term.name = entry.needed_text("name");
  term.dimension = read_unit(entry, "unit").dimension;
  (void)read_source(entry);
  entry.done();
  return term;
}

}  // namespace soot
