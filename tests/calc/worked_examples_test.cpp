// Worked examples and tables, each computed anew by the formulas. Where no publication prints the
// number, the comment says how it was made.
#include "core/calc/air.hpp"
#include "core/calc/compression.hpp"
#include "core/calc/crank.hpp"
#include "core/calc/fuel.hpp"
#include "core/calc/ignition.hpp"
#include "core/calc/leakage.hpp"
#include "core/calc/smoke.hpp"
#include "core/calc/tangent_flank.hpp"
#include "core/calc/train.hpp"
#include "tests/calc/engines.hpp"
#include "tests/near.hpp"

#include <doctest/doctest.h>

#include <cmath>

namespace calc = soot::calc;
using soot::Family;
using soot::test::given;
using soot::test::in_mm;
using soot::test::near;
using soot::test::result;
using soot::test::work;

namespace {

constexpr double psi_bar = 0.0689475729;

bool within(double got, double expected, double tolerance) {
  return std::fabs(got - expected) <= tolerance;
}

}  // namespace

TEST_CASE("piston drop of two engines") {
  // Worked by Heywood's formula to 0.0001 in.
  const calc::CrankGear large{12 * in_mm, 24 * in_mm};
  for (const auto& [deg, drop_in] :
       {std::pair{5, 0.0285}, std::pair{10, 0.1138}, std::pair{15, 0.2547}, std::pair{20, 0.4497}})
    CHECK(within(calc::piston_drop_mm(large, deg) / in_mm, drop_in, 0.0001));
  CHECK(within(calc::piston_drop_mm({5.5 * in_mm, 9.84 * in_mm}, 20) / in_mm, 0.2109, 0.0001));
}

TEST_CASE("what the dial cannot see at the top") {
  struct Row {
    double stroke, rod, half, one, two;  // inches; degrees for 0.0005, 0.001 and 0.002 in
  };
  for (const Row& row : {Row{5.5, 9.84, 0.97, 1.37, 1.93}, Row{6, 12, 0.94, 1.32, 1.87},
                         Row{12, 24, 0.66, 0.94, 1.32}, Row{16, 34, 0.58, 0.82, 1.15}}) {
    const calc::CrankGear gear{row.stroke * in_mm, row.rod * in_mm};
    CHECK(within(calc::dwell_deg(gear, 0.0005 * in_mm), row.half, 0.006));
    CHECK(within(calc::dwell_deg(gear, 0.001 * in_mm), row.one, 0.006));
    CHECK(within(calc::dwell_deg(gear, 0.002 * in_mm), row.two, 0.006));
  }
}

TEST_CASE("degrees on the rim") {
  for (const auto& [diameter_in, per_deg_in] :
       {std::pair{16, 0.1396}, std::pair{24, 0.2094}, std::pair{36, 0.3142}, std::pair{48, 0.4189}})
    CHECK(within(calc::rim_arc_mm(diameter_in * in_mm, 1) / in_mm, per_deg_in, 0.00005));
  CHECK(within(calc::angle_of_arc_deg(16 * in_mm, in_mm / 32), 0.22, 0.005));
}

TEST_CASE("one tooth of a cam gear") {
  for (const auto& [teeth, deg] : {std::pair{24, 30}, std::pair{30, 24}, std::pair{36, 20},
                                   std::pair{40, 18}, std::pair{60, 12}, std::pair{72, 10}}) {
    Family family;
    soot::test::put(family, "pump-teeth", fmt::format("{}", teeth));
    family.strokes = 4;
    CHECK(calc::tooth_deg(family).value() == near(deg));
    family.strokes = 2;
    CHECK(calc::tooth_deg(family).value() == near(deg / 2.0));
  }
}

TEST_CASE("lash in crank degrees") {
  // Pitch radius of the cam's gear 6 and 4 in, one mesh; a four-stroke's crank gear has half of it.
  for (const auto& [lash_in, radius_in, deg] :
       {std::tuple{0.004, 6.0, 0.08}, std::tuple{0.010, 6.0, 0.19}, std::tuple{0.020, 6.0, 0.38},
        std::tuple{0.010, 4.0, 0.29}}) {
    Family family;
    soot::test::put(family, "crank-teeth", "30");
    soot::test::put(family, "gear-module", fmt::format("{} in", radius_in / 2 / 15));
    soot::test::put(family, "meshes", "1");
    CHECK(within(calc::lash_deg(family, lash_in * in_mm).value(), deg, 0.006));
  }
}

TEST_CASE("lift rates of assumed cams") {
  // Tangent flank, base and roller 15 and 8, lift 2.2; 30 and 15, lift 5.0: 0.0985 and 0.2113 mm.
  Family family = soot::test::tangent_engine();
  CHECK(within(soot::test::law_of(family)->rate_mm_per_deg(-15), 0.2113, 0.0001));
  soot::test::put_law(family, "tangent-flank",
                      {{"base-radius", "15 mm"},
                       {"roller-radius", "8 mm"},
                       {"closing", "15 deg"},
                       {"closing-lift", "2.2 mm"},
                       {"total", "7 mm"}});
  CHECK(within(soot::test::law_of(family)->rate_mm_per_deg(-15), 0.0985, 0.0001));
}

TEST_CASE("a linear six degrees is another angle on a tangent cam") {
  // Base and roller 45 mm together, 5 mm of lift: -6.0 is really -5.6, +6.0 is +6.5.
  const Family family = soot::test::tangent_engine();
  const auto law = soot::test::law_of(family);
  const auto of = [&](double mm) {
    soot::calc::Given thickness = given("1 mm");
    thickness.value = mm;
    return result(work("timing-shim", family, {{"thickness", thickness}}, law.get()).value(),
                  "late");
  };
  const double linear_mm = 6 * law->rate_mm_per_deg(-15);
  CHECK(within(of(linear_mm), 5.6, 0.05));
  CHECK(within(of(-linear_mm), -6.5, 0.05));
}

TEST_CASE("flats of a screw") {
  // 16, 20 and 24 threads an inch at 0.003 in a degree; 16 at 0.0083.
  for (const auto& [tpi, rate, deg] :
       {std::tuple{16, "0.003 in/deg", 3.5}, std::tuple{20, "0.003 in/deg", 2.8},
        std::tuple{24, "0.003 in/deg", 2.3}, std::tuple{16, "0.0083 in/deg", 1.26}}) {
    const Family none;
    soot::calc::Given pitch = given("1 in");
    pitch.value = in_mm / tpi;
    const auto sum =
        work("turned", none, {{"flats", given("1")}, {"pitch", pitch}, {"rate", given(rate)}})
            .value();
    CHECK(within(result(sum, "earlier"), deg, 0.05));
    CHECK(sum.answer.front().find("1 flat out: ") == 0);
  }
}

TEST_CASE("fuel thins as it warms") {
  // ASTM D341 through 3.0 mm2/s at 40 C and 1.2 at 100 C.
  for (const auto& [c, nu, mu] :
       {std::tuple{-10, 13.5, 11.6}, std::tuple{0, 9.1, 7.8}, std::tuple{10, 6.5, 5.5},
        std::tuple{20, 4.8, 4.1}, std::tuple{30, 3.7, 3.1}, std::tuple{60, 2.1, 1.7}}) {
    CHECK(within(calc::fuel_viscosity_mm2_s(c), nu, 0.06));
    CHECK(within(calc::fuel_viscosity_mpa_s(c), mu, 0.06));
  }
}

TEST_CASE("a worn plunger loses more hot and slow") {
  // 14 mm, 20 mm of seal, 200 bar, wholly to one side, 0.2113 mm a degree; percent of what it
  // moves.
  struct Row {
    double radial_um;
    double cold, mild, hot, hot_fast;  // 0, 20, 60 C at 100 rpm; 60 C at 400
  };
  const auto lost = [](double radial_um, const char* fuel, const char* rpm) {
    Family family;
    soot::test::put(family, "plunger-diameter", "14 mm");
    soot::test::put(family, "nozzle-opening", "200 bar");
    soot::calc::Given clearance = given("1 mm");
    clearance.value = 2 * radial_um / 1000;
    return result(work("leak", family,
                       {{"clearance", clearance},
                        {"fuel", given(fuel)},
                        {"speed", given(rpm)},
                        {"rate", given("0.2113 mm/deg")}})
                      .value(),
                  "lost at speed");
  };
  for (const Row& row : {Row{5, 0.8, 1.4, 3.5, 0.9}, Row{10, 6.1, 12, 28, 7.0},
                         Row{15, 20, 39, 94, 24}, Row{20, 48, 92, 223, 56}}) {
    CHECK(lost(row.radial_um, "0 C", "100 rpm") == near(row.cold, 0.06));
    CHECK(lost(row.radial_um, "20 C", "100 rpm") == near(row.mild, 0.06));
    CHECK(lost(row.radial_um, "60 C", "100 rpm") == near(row.hot, 0.06));
    CHECK(lost(row.radial_um, "60 C", "400 rpm") == near(row.hot_fast, 0.06));
  }
}

TEST_CASE("the pipe delays") {
  // 1300 m/s for the table; the sum's own speed of sound lies in the published 1220 to 1330.
  const double sound = calc::fuel_sound_m_s(calc::fuel_density_kg_l(20), 75e-6);
  CHECK(sound > 1220);
  CHECK(sound < 1330);
  const auto sum = work("line-delay", Family{},
                        {{"length", given("700 mm")},
                         {"speed", given("1000 rpm")},
                         {"trapped", given("7 mL")},
                         {"opening", given("250 bar")},
                         {"compressibility", given("74.07")},
                         {"air", given("100 mm3")},
                         {"diameter", given("14 mm")},
                         {"rate", given("0.2113 mm/deg")}})
                       .value();
  CHECK(within(result(sum, "wave at 1000 rpm"), 3.2, 0.15));
  // 7 cc from empty to 25 MPa, K 1.35 GPa: 130 mm3, 4.0 deg; 100 mm3 of air: 3.1 deg.
  CHECK(within(result(sum, "lag of the volume"), 4.0, 0.05));
  CHECK(within(result(sum, "lag of the air"), 3.1, 0.05));
}

TEST_CASE("end of compression") {
  struct Row {
    double ratio, exponent, start_k, end_k, psi;
  };
  for (const Row& row :
       {Row{14, 1.25, 273, 528, 378}, Row{14, 1.30, 273, 603, 434}, Row{14, 1.30, 293, 647, 434},
        Row{14, 1.35, 330, 831, 497}, Row{16, 1.30, 293, 673, 519}, Row{16, 1.36, 340, 922, 615},
        Row{12, 1.30, 293, 617, 352}}) {
    const double bar = calc::end_pressure(1, row.ratio, row.exponent);
    CHECK(within((bar - 1) / psi_bar, row.psi, 1));
    CHECK(within(calc::end_temperature_k(row.start_k, bar, row.ratio), row.end_k, 1));
    CHECK(calc::compression_exponent(bar, row.ratio) == near(row.exponent));
  }
}

TEST_CASE("the exponent by cranking speed follows a cycle calculation") {
  // Own cycle calculation, not published: ratio 14.5, 1.000 bar; 47, 68, 83, 95 and 103 rpm gave
  // 382, 407, 417, 422 and 424 psi. From the fastest of them the rule meets the others within 4 %.
  const double fast = calc::compression_exponent(1 + 424 * psi_bar, 14.5);
  for (const auto& [rpm, psi] :
       {std::pair{47, 382}, std::pair{68, 407}, std::pair{83, 417}, std::pair{95, 422}}) {
    const double exponent = calc::exponent_at_speed(fast, 103, rpm);
    CHECK((calc::end_pressure(1, 14.5, exponent) - 1) / psi_bar == near(psi, 0.04));
  }
}

TEST_CASE("delay by Wolfer") {
  // From memory: the formula; values worked from it.
  for (const auto& [k, at_20, at_30] :
       {std::tuple{560, 51.0, 32.0}, std::tuple{600, 29.0, 18.0}, std::tuple{640, 18.0, 11.0},
        std::tuple{680, 12.0, 7.3}, std::tuple{720, 8.1, 5.0}, std::tuple{760, 5.7, 3.6}}) {
    CHECK(calc::wolfer_ms(20, k) == near(at_20, 0.03));
    CHECK(calc::wolfer_ms(30, k) == near(at_30, 0.03));
  }
  CHECK(calc::deg_of_ms(calc::wolfer_ms(30, 720), 100) == near(3.0, 0.02));
}

TEST_CASE("delay by Hardenberg and Hase in both forms") {
  using calc::HardenbergForm;
  struct Row {
    calc::Charge charge;
    double product_deg, sum_deg;
  };
  for (const Row& row :
       {Row{{900, 50, 50, 8.0}, 3.27, 7.93}, Row{{800, 40, 40, 5.0}, 3.07, 8.19},
        Row{{700, 30, 50, 4.06}, 3.60, 9.85}, Row{{650, 30, 50, 1.02}, 1.90, 5.12}}) {
    CHECK(calc::hardenberg_deg(row.charge, HardenbergForm::product) ==
          near(row.product_deg, 0.003));
    CHECK(calc::hardenberg_deg(row.charge, HardenbergForm::sum) == near(row.sum_deg, 0.003));
  }
}

TEST_CASE("opacity to k and over another path") {
  for (const auto& [percent, k] :
       {std::pair{10, 0.245}, std::pair{20, 0.519}, std::pair{30, 0.829}, std::pair{40, 1.188},
        std::pair{50, 1.612}, std::pair{60, 2.13}, std::pair{70, 2.80}})
    CHECK(within(calc::smoke_k_per_m(percent, 0.43), k, 0.005));
  // 30 % through a pipe of 100 mm is 78 % over 430.
  const auto sum =
      work("smoke", Family{},
           {{"opacity", given("30 %")}, {"path", given("100 mm")}, {"other", given("430 mm")}})
          .value();
  CHECK(within(result(sum, "opacity over 430 mm"), 78, 0.5));
}
