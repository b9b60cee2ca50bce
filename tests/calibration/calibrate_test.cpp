// Whether percentages are meant, on a small run of the families that ship; the program
// `calibration` makes the long one.
#include "tests/calibration/calibrate.hpp"

#include "tests/near.hpp"
#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

namespace soot::judges {

TEST_CASE("entries fall into their bands") {
  Calibration out;
  for (int i = 0; i < 500; ++i)
    out.add_job({{0.3, i % 10 < 3}});
  out.add_job({{1.0, true}});
  CHECK(out.bands[1].entries == 500);
  CHECK(out.bands[1].gap() == doctest::Approx(0).epsilon(1e-12));
  CHECK(out.bands[4].entries == 1);
  CHECK_FALSE(out.bands[4].judged());
  for (int i = 0; i < 500; ++i)
    out.add_job({{0.3, true}});
  CHECK(out.worst_gap() == test::near(0.35, 1e-9));
}

TEST_CASE("the percentages fit the engines drawn from the model") {
  Calibration all;
  for (const Bench::Served& served : test::real_bench().families()) {
    const Result<Engine> engine = test::real_bench().engine(served.family.id);
    REQUIRE(engine);
    const Result<Calibration> one = calibrate(*engine, 60, 17);
    REQUIRE_MESSAGE(one, to_string(one ? Problems{} : one.error()));
    CHECK(one->jobs == 60);
    all.add(*one);
  }
  // The lowest band holds nearly all entries and is judged even in a short run.
  REQUIRE(all.bands[0].judged());
  CHECK(all.bands[0].gap() < 0.005);
}

}  // namespace soot::judges
