#include "core/calc/smoke.hpp"

#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <array>

namespace soot::calc {
namespace {

constexpr double mm_in_m = 1000;
constexpr double most_cards = 5;

// A card is told from the next at best to half of one; a rectangle of that half width.
constexpr double card_standard = 0.29;

Result<Estimate> opacity_of(Worksheet& sheet) {
  if (const auto card = sheet.take("card")) {
    if (!(card->value >= 0 && card->value < most_cards))
      return fail(Kind::use, "card {:g} (expected 0 and below {:g}: 5 lets no light through)",
                  card->value, most_cards);
    return Estimate{ringelmann_percent(card->value), ringelmann_percent(card_standard)};
  }
  if (const auto opacity = sheet.take("opacity")) {
    if (!(opacity->value >= 0 && opacity->value < 100))
      return fail(Kind::use, "an opacity of {:g} % (expected 0 and below 100)", opacity->value);
    return estimate(*opacity);
  }
  return fail(Kind::use, "no smoke is given (expected opacity=MEASURE, k=NUMBER or card=NUMBER)");
}

Result<Sum> smoke(const SumForm& form, const Ask& ask) {
  Worksheet sheet{form, ask,
                  "k = -ln(1 - N) / L: UN Regulation No. 49 (OJ L 103, 12.4.2008, p. 300); "
                  "Ringelmann's cards: 20 % each; uncertainty: JCGM 100:2008"};
  const double path_m = sheet.needed("path").value / mm_in_m;
  const auto other = sheet.take("other");
  if (!(path_m > 0) || (other && !(other->value > 0)))
    return fail(Kind::use, "a path of light of 0 (expected more)");
  Sum& sum = sheet.sum;
  sum.formula = {"k = -ln(1 - opacity) / path of light",
                 "opacity over another path = 1 - e^(-k x that path)"};
  std::array<Estimate, 1> in;
  Estimate k;
  if (const auto given = sheet.take("k")) {
    if (!(given->value >= 0)) return fail(Kind::use, "k below 0 (expected 0 or more)");
    k = estimate(*given);
  } else {
    const Result<Estimate> opacity = opacity_of(sheet);
    if (!opacity) return pass_on(opacity);
    in = {*opacity};
    k = propagate(in, [&](auto at) { return smoke_k_per_m(at[0], path_m); });
    sum.lines.push_back(fmt::format("-ln(1 - {:.1f} %) / {:.3f} m = {:.3f} a metre", opacity->value,
                                    path_m, k.value));
  }
  sheet.result("k, a metre", k, model_unit(Dimension::number), 3);
  in = {k};
  const double shown_m = other ? other->value / mm_in_m : path_m;
  const Estimate seen =
      propagate(in, [&](auto at) { return smoke_opacity_percent(at[0], shown_m); });
  sum.lines.push_back(
      fmt::format("1 - e^(-{:.3f} x {:.3f} m) = {:.1f} %", k.value, shown_m, seen.value));
  sheet.result(fmt::format("opacity over {:.0f} mm", shown_m * mm_in_m), seen,
               model_unit(Dimension::share), 1);
  sheet.answer(0, fmt::format("{:.0f} % of the light is lost over {:.0f} mm of this smoke",
                              seen.value, shown_m * mm_in_m));
  sum.assumptions = {"the same smoke, warm, without steam; by eye the pipe is the path of light"};
  return sum;
}

}  // namespace

SumForm smoke_form() {
  using enum Dimension;
  return SumForm{"smoke",
                 "smoke opacity over one path of light and another",
                 {{.name = "opacity",
                   .dimension = share,
                   .meaning = "light lost",
                   .needed = false,
                   .standard = 1.2},
                  {.name = "card",
                   .dimension = number,
                   .meaning = "Ringelmann card, 0 to 5, in place of the opacity",
                   .needed = false},
                  {.name = "k",
                   .dimension = number,
                   .meaning = "light taken away a metre, in place of the opacity",
                   .needed = false,
                   .standard_share = 2},
                  {.name = "path", .dimension = length, .meaning = "path of light", .usual = 430},
                  {.name = "other",
                   .dimension = length,
                   .meaning = "another path, to be told the opacity over it",
                   .needed = false}},
                 smoke};
}

}  // namespace soot::calc
