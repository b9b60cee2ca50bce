#include "core/calc/compression.hpp"

#include "core/calc/air.hpp"
#include "core/calc/sums/forms.hpp"
#include "core/calc/worksheet.hpp"

#include <array>
#include <cmath>

namespace soot::calc {
namespace {

constexpr double mm_in_m = 1000;
constexpr double slowest_rpm = 20, fastest_cranking_rpm = 600;
constexpr double least_ratio = 6, most_ratio = 30;

enum At : std::size_t { figure, outside, ratio, book_rpm, rpm, rule, count };

/// Gauge pressure here and now, bar.
double expected_bar(std::span<const double> in) {
  const double book_rise = (in[figure] + air_pressure_bar(0)) / air_pressure_bar(0);
  if (in[ratio] == 0) return in[outside] * book_rise - in[outside];
  const double exponent = compression_exponent(book_rise, in[ratio]);
  const double moved = exponent_at_speed(exponent, in[book_rpm], in[rpm]) - exponent;
  return end_pressure(in[outside], in[ratio], exponent + moved * in[rule]) - in[outside];
}

class CompressionSum {
 public:
  CompressionSum(const SumForm& form, const Ask& ask)
      : ask_(ask),
        sheet_(
            form, ask,
            "absolute pressures: magazine letter and TM 5-3895-359-14&P, table 1; air by height: "
            "ICAO Doc 7488; p = p1 r^n: Heywood (1988); exponent by speed: judgement; "
            "uncertainty: JCGM 100:2008") {}

  Result<Sum> work() {
    in_[figure] = estimate(sheet_.needed("figure"));
    in_[rule] = estimate(sheet_.needed("rule"));
    if (!(in_[figure].value > 0))
      return fail(Kind::use, "a figure of {:g} bar (expected more than 0)", in_[figure].value);
    if (auto bad = read_air()) return tl::unexpected(Problems{*bad});
    if (auto bad = read_speed()) return tl::unexpected(Problems{*bad});
    const Estimate expected = propagate(in_, expected_bar);
    write(expected);
    for (const Given& reading : sheet_.all("reading"))
      judge(reading, expected);
    finish();
    return sheet_.sum;
  }

 private:
  std::optional<Problem> read_air() {
    if (const auto barometer = sheet_.take("barometer")) {
      in_[outside] = estimate(*barometer);
      if (in_[outside].value > 0.5 && in_[outside].value < 1.1) return std::nullopt;
      return make_problem(Kind::use,
                          "a barometer at {:.3f} bar (expected 0.5 to 1.1, as read here, "
                          "not brought to sea level)",
                          in_[outside].value);
    }
    const Given height = sheet_.needed("altitude");
    const double height_m = height.value / mm_in_m;
    if (!(height_m >= least_height_m && height_m <= most_height_m))
      return make_problem(Kind::use, "an altitude of {:.0f} m (expected {:.0f} to {:.0f})",
                          height_m, least_height_m, most_height_m);
    const std::array in{Estimate{height_m, estimate(height).standard / mm_in_m}};
    in_[outside] = propagate(in, [](auto at) { return air_pressure_bar(at[0]); });
    sheet_.sum.lines.push_back(
        fmt::format("air at {:.0f} m: {:.3f} bar", height_m, in_[outside].value));
    return std::nullopt;
  }

  std::optional<Problem> read_speed() {
    const auto book = sheet_.take("book-speed");
    const auto own = sheet_.take("ratio");
    const auto turned = sheet_.take("speed");
    for (const auto& given : {book, turned})
      if (given && !(given->value >= slowest_rpm && given->value <= fastest_cranking_rpm))
        return make_problem(Kind::use, "cranking at {:g} rpm (expected {:g} to {:g})", given->value,
                            slowest_rpm, fastest_cranking_rpm);
    if (own && !(own->value >= least_ratio && own->value <= most_ratio))
      return make_problem(Kind::use, "a compression ratio of {:g} (expected {:g} to {:g})",
                          own->value, least_ratio, most_ratio);
    if (!book || !own || !turned) return std::nullopt;
    in_[ratio] = {own->value, 0};
    in_[book_rpm] = {book->value, 0};
    in_[rpm] = estimate(*turned);
    return std::nullopt;
  }

  void write(const Estimate& expected) {
    const Unit unit = print_unit();
    if (in_[ratio].value > 0)
      sheet_.sum.lines.push_back(fmt::format("turned at {:.0f} rpm in place of {:.0f}",
                                             in_[rpm].value, in_[book_rpm].value));
    sheet_.sum.lines.push_back(
        fmt::format("{} of the book at sea level: {} here and now, on the gauge",
                    print_in(in_[figure].value, unit, decimals(unit)),
                    print_in(expected.value, unit, decimals(unit))));
    sheet_.result("expected on the gauge", expected, unit, decimals(unit));
    if (const auto least = least_bar(expected.value))
      sheet_.result("least on the gauge", *least, unit, decimals(unit));
    sheet_.answer(0, fmt::format("a sound cylinder should show about {} here and now",
                                 print_in(expected.value, unit, decimals(unit))));
  }

  /// The book's least, moved in the same proportion.
  std::optional<double> least_bar(double expected_here_bar) const {
    const Figure* own = ask_.family.figure("compression-cranking");
    if (own == nullptr || !own->least) return std::nullopt;
    const double sea_bar = air_pressure_bar(0);
    const double share = (*own->least + sea_bar) / (in_[figure].value + sea_bar);
    return share * (expected_here_bar + in_[outside].value) - in_[outside].value;
  }

  void judge(const Given& reading, const Estimate& expected) {
    const Unit unit = reading.unit;
    const double off_bar = reading.value - expected.value;
    const double u_bar = 2 * std::hypot(estimate(reading).standard, expected.standard);
    sheet_.result("against what is expected", off_bar, unit, decimals(unit), u_bar,
                  reading.cylinder);
    sheet_.answer(reading.cylinder, verdict(reading, off_bar, u_bar));
  }

  std::string verdict(const Given& reading, double off_bar, double u_bar) const {
    const auto least = least_bar(reading.value - off_bar);
    if (least && reading.value + u_bar < *least) return "below the least: low, whatever the gauge";
    if (least && reading.value < *least)
      return "reads below the least, by less than its uncertainty: it cannot be told";
    if (off_bar < -u_bar) return "less than expected";
    if (off_bar > u_bar) return "more than expected: oil or carbon in it, or the gauge";
    return "as expected, as far as this gauge can tell";
  }

  Unit print_unit() const {
    const Figure* own = ask_.family.figure("compression-cranking");
    const auto typed = ask_.given.find("figure");
    if (typed != ask_.given.end() && !typed->second.empty()) return typed->second.back().unit;
    return own != nullptr ? own->unit : model_unit(Dimension::pressure);
  }

  static int decimals(const Unit& unit) { return unit.factor < 0.1 ? 0 : 1; }

  void finish() {
    Sum& sum = sheet_.sum;
    sum.formula = {
        "absolute pressure goes with the air outside: (gauge + air here) = (book + air at "
        "sea level) x air here / air at sea level",
        "pressure = air outside x ratio^n; what n falls short of 1.38 goes with 1 / "
        "sqrt(cranking speed)"};
    sum.assumptions = {
        "engine as warm as the book asks, valves set, decompressor off, the gauge's own volume "
        "small against the cylinder's",
        "gauge pressure hardly shows a cold cylinder: a good reading does not prove that it is hot "
        "enough to light (sum ignition)"};
    if (in_[ratio].value == 0)
      sum.assumptions.emplace_back(
          "turned as fast as for the book's figure: ratio=, book-speed= and speed= move it");
  }

  const Ask& ask_;
  Worksheet sheet_;
  std::array<Estimate, At::count> in_;
};

Result<Sum> compression(const SumForm& form, const Ask& ask) {
  return CompressionSum{form, ask}.work();
}

}  // namespace

SumForm compression_form() {
  using enum Dimension;
  return SumForm{"compression",
                 "compression expected here and now",
                 {{.name = "figure",
                   .dimension = pressure,
                   .meaning = "the book's pressure at sea level",
                   .figure = "compression-cranking"},
                  {.name = "altitude",
                   .dimension = length,
                   .meaning = "height above the sea; the weather is worth 90 m",
                   .usual = 0,
                   .standard = 90 * mm_in_m,
                   .unit = "m"},
                  {.name = "barometer",
                   .dimension = pressure,
                   .meaning = "the air's pressure as read here, in place of the altitude",
                   .needed = false,
                   .standard = 0.002},
                  {.name = "ratio",
                   .dimension = number,
                   .meaning = "compression ratio from the moment the inlet shuts",
                   .figure = "effective-ratio",
                   .needed = false},
                  {.name = "book-speed",
                   .dimension = speed,
                   .meaning = "cranking speed that the book's pressure stands for",
                   .figure = "cranking-speed",
                   .needed = false},
                  {.name = "speed",
                   .dimension = speed,
                   .meaning = "cranking speed now",
                   .quantity = "cranking-speed",
                   .needed = false,
                   .standard_share = 2},
                  {.name = "rule",
                   .dimension = number,
                   .meaning = "factor on what slower or faster turning changes, by own experience",
                   .usual = 1,
                   .standard = 0.2},
                  {.name = "reading",
                   .dimension = pressure,
                   .meaning = "gauge readings, to be held against it",
                   .quantity = "compression",
                   .needed = false,
                   .standard = 1.3}},
                 compression};
}

}  // namespace soot::calc
