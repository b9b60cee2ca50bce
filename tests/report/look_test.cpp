// Figures as a person reads them.
#include "core/report/look.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

using soot::duration;
using soot::factor;
using soot::Look;
using soot::percent;
using soot::plain;

TEST_CASE("a probability is never called nothing or certain unless it is") {
  CHECK(percent(0) == "0 %");
  CHECK(percent(1) == "> 99.99 %");  // a chance rounded to one is no certainty
  CHECK(percent(1e-12) == "< 0.01 %");
  CHECK(percent(0.000099) == "< 0.01 %");
  CHECK(percent(1 - 1e-12) == "> 99.99 %");
}

TEST_CASE("a probability has the digits it needs") {
  CHECK(percent(0.873) == "87 %");
  CHECK(percent(0.5) == "50 %");
  CHECK(percent(0.012) == "1 %");
  CHECK(percent(0.0042) == "0.4 %");
  CHECK(percent(0.00042) == "0.04 %");
  CHECK(percent(0.992) == "99.2 %");
  CHECK(percent(0.9994) == "99.94 %");
}

TEST_CASE("a factor on the odds says which way and how far") {
  CHECK(factor(std::log(12.0)) == "x 12");
  CHECK(factor(-std::log(3.5)) == "/ 3.5");
  CHECK(factor(0) == "x 1");
  CHECK(factor(-0.01) == "x 1");
  CHECK(factor(std::log(1200.0)) == "x 1200");
  CHECK(factor(std::log(2e6)) == "x over a million");
  CHECK(factor(std::numeric_limits<double>::infinity()) == "settles it");
  CHECK(factor(-std::numeric_limits<double>::infinity()) == "rules it out");
}

TEST_CASE("minutes as they are said") {
  CHECK(duration(0) == "0 min");
  CHECK(duration(24.6) == "25 min");
  CHECK(duration(119) == "119 min");
  CHECK(duration(120) == "2 h");
  CHECK(duration(130) == "2 h 10");
  CHECK(duration(125) == "2 h 05");
  CHECK(duration(1500) == "25 h");
}

TEST_CASE("a plain terminal gets ASCII and nothing else") {
  const std::string marked =
      "15\xC2\xB0 \xC2\xB1 0.5 \xC3\x97 2 \xE2\x80\x93 the engine\xE2\x80\x99s \xE2\x82\xAC";
  CHECK(plain(Look{80, false, true}, marked) == marked);
  CHECK(plain(Look{80, false, false}, marked) == "15deg +/- 0.5 x 2 - the engine's ???");
}

TEST_CASE("colour is off unless it is asked for") {
  const Look dull{80, false, true}, bright{80, true, true};
  CHECK(strong(dull, "a") == "a");
  CHECK(faint(dull, "a") == "a");
  CHECK(struck(dull, "a") == "a");
  CHECK(strong(bright, "a") == "\x1b[1ma\x1b[0m");
}
