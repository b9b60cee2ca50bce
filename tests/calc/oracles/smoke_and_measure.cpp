#include "core/calc/smoke.hpp"
#include "core/calc/uncertainty.hpp"
#include "tests/calc/engines.hpp"
#include "tests/calc/oracles/rows.hpp"

namespace soot::test {
namespace {

double k_of_opacity() {
  const Family none;
  return result(work("smoke", none, {{"opacity", given("16.783 %")}}).value(), "k, a metre");
}

double opacity_of_k(const char* k) {
  const Family none;
  return result(work("smoke", none, {{"k", given(k)}}).value(), "opacity over 430 mm");
}

double opacity_of_card(const char* card) {
  const Family none;
  return result(work("smoke", none, {{"card", given(card)}}).value(), "opacity over 430 mm");
}

calc::Repeats temperatures() {
  const std::vector<double> taken{96.90,  98.18,  98.25,  98.61,  99.03,  99.49,  99.56,
                                  99.74,  99.89,  100.07, 100.33, 100.42, 100.68, 100.95,
                                  101.11, 101.20, 101.57, 101.84, 102.36, 102.72};
  return calc::repeats(taken);
}

double end_gauge_nm() {
  // 5.8, 3.9 and 6.7 are the parts of a 9.7 that stands in the sum.
  const std::vector<calc::Component> comparator{{"", 5.8}, {"", 3.9}, {"", 6.7}};
  const std::vector<calc::Component> gauge{
      {"", 25}, {"", calc::combined(comparator)}, {"", 2.9}, {"", 16.6}};
  return calc::combined(gauge);
}

}  // namespace

std::vector<OracleRow> smoke_and_measure_rows() {
  const char* const r49 = "UN Regulation No. 49, OJ L 103, 12.4.2008, p. 300, worked example";
  const char* const back = "k = -ln(1-N/100)/L (formula found, values computed)";
  const char* const mean = "JCGM 100:2008, 4.4.3 and table 1 (data from memory)";
  const char* const half = "JCGM 100:2008, 4.4.5 and 4.4.6 (from memory), 96 to 104 C";
  return {
      {"S1", r49, k_of_opacity(), 0.427252, 0.000001},
      {"S3", back, opacity_of_k("1.0"), 34.9, 0.05},
      {"S3", back, opacity_of_k("1.5"), 47.5, 0.05},
      {"S3", back, opacity_of_k("2.5"), 65.9, 0.05},
      {"S3", back, opacity_of_k("3.0"), 72.5, 0.05},
      {"S5", "Ringelmann scale", opacity_of_card("1"), 20, 1e-9},
      {"S5", "Ringelmann scale", opacity_of_card("4"), 80, 1e-9},
      {"U1", mean, temperatures().mean, 100.145, 0.001},
      {"U1", mean, temperatures().deviation, 1.489, 0.001},
      {"U1", mean, temperatures().of_mean, 0.333, 0.001},
      {"U2", half, calc::rectangular(4), 2.3, 0.05},
      {"U2", half, calc::triangular(4), 1.6, 0.05},
      {"U3", "JCGM 100:2008, H.1 (result from memory)", end_gauge_nm(), 32, 0.5},
  };
}

}  // namespace soot::test
