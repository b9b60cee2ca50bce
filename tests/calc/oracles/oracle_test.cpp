// Which of the trade's 76 published reference values the formulas answer, and which are left out.
#include "tests/calc/oracles/rows.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdio>
#include <set>

namespace {

using soot::test::OracleRow;

std::vector<OracleRow> all_rows() {
  std::vector<OracleRow> out;
  for (const auto& part :
       {soot::test::kinematics_rows(), soot::test::pump_rows(), soot::test::fuel_rows(),
        soot::test::air_rows(), soot::test::smoke_and_measure_rows()})
    out.insert(out.end(), part.begin(), part.end());
  return out;
}

struct LeftOut {
  std::string_view id;
  std::string_view why;
};

constexpr LeftOut left_out[] = {
    {"K9", "a family's figure: no formula makes it"},
    {"K10", "a rule without a number: it stands in the sums lash and flank"},
    {"P14", "the rim's diameter is not given"},
    {"P18", "a notch's angle, by design of that pump"},
    {"L3", "the formula itself: L1 and L2 try it"},
    {"L5", "a proportion of design"},
    {"L6", "the program's fuel is defined at 40 C: a constant against itself"},
    {"L9", "a limit of use"},
    {"N5", "the sum takes 0.7 from this very page: a constant against itself"},
    {"N6", "a bound of that coefficient"},
    {"C1", "a table of least pressures that follows density; pressure goes with the barometer"},
    {"C2", "densities of one manual, two per cent off the standard atmosphere"},
    {"C4", "a guideline of one engine"},
    {"C5", "a limit of one engine"},
    {"C6", "a limit of one engine"},
    {"C12", "sizes of a test set: the program has no leak-down formula"},
    {"C17", "a limit of one engine"},
    {"C18", "a range of design"},
    {"C19", "a range of design"},
    {"C20", "a range of design"},
    {"S2", "a filter step of an instrument: the program has no use for it"},
    {"S4", "an instrument's accuracy"},
    {"S6", "a time of practice"},
    {"U4", "an instrument's error: the program has no use for it"},
    {"U5", "growth of steel by warmth: no sum corrects for it"},
};

constexpr std::size_t rows_published = 76;
constexpr std::size_t rows_wanted = 45;

}  // namespace

TEST_CASE("published reference values come out of the formulas") {
  std::set<std::string_view> ids;
  for (const OracleRow& row : all_rows()) {
    CAPTURE(row.id);
    CAPTURE(row.source);
    CAPTURE(row.got);
    CAPTURE(row.expected);
    CHECK(std::fabs(row.got - row.expected) <= row.tolerance);
    ids.insert(row.id);
  }
  std::printf("figure oracle-rows %zu\n", ids.size());
  CHECK(ids.size() >= rows_wanted);
}

TEST_CASE("every published reference value is tried or left out for a reason") {
  std::set<std::string_view> ids;
  for (const OracleRow& row : all_rows())
    ids.insert(row.id);
  for (const LeftOut& row : left_out) {
    CAPTURE(row.id);
    CHECK(ids.insert(row.id).second);
    CHECK_FALSE(row.why.empty());
  }
  CHECK(ids.size() == rows_published);
}
