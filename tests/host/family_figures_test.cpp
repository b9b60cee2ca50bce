// The figures of the families in the tree hang together: what is marked derived follows from the
// rest by plain geometry, worked out here once more. Invented engines; the arithmetic is the
// outside.
#include "core/host/registry.hpp"
#include "core/table/reader.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>
#include <map>
#include <numbers>

namespace soot::host {

namespace {

constexpr double rad_per_deg = std::numbers::pi / 180;

/// Every measure of the [figures] table in model units: "bore", and "backlash.most" for the parts.
std::map<std::string, double> figures_of(const std::string& plugin, const std::string& family) {
  const std::filesystem::path file =
      std::filesystem::path(source_dir()) / "plugins" / plugin / "families" / (family + ".toml");
  soot::Document document = soot::Document::load(file).value();
  soot::Reader root = document.root();
  soot::Reader figures = root.table("figures").value();
  std::map<std::string, double> out;
  for (const std::string& key : figures.keys()) {
    if (figures.is_text(key)) {
      if (const auto measure = figures.measure(key)) out[key] = measure->model();
      continue;
    }
    soot::Reader parts = figures.table(key).value();
    for (const char* part : {"value", "tolerance", "low", "high", "least", "most"})
      if (const auto measure = parts.measure(part))
        out[part == std::string("value") ? key : key + "." + part] = measure->model();
    parts.text("source");
    parts.done();
  }
  CHECK(soot::to_string(document.problems()) == "");
  return out;
}

/// The relations that both families keep; `at` throws for a figure that is missing.
void check_relations(const std::map<std::string, double>& f, int cylinders) {
  const auto close_to = [](double expected, double within) {
    return doctest::Approx(expected).epsilon(within / std::abs(expected));
  };
  const double bore = f.at("bore"), stroke = f.at("stroke"), rod = f.at("rod-length");
  const double closing_rad = f.at("static-timing") * rad_per_deg;
  const double crank = stroke / 2;
  const double area = std::numbers::pi / 4 * f.at("plunger-diameter") * f.at("plunger-diameter");
  const double tooth_deg = 360 / f.at("crank-teeth");
  const double deg_per_backlash = f.at("meshes") / f.at("crank-gear-radius") / rad_per_deg;

  CHECK(f.at("swept-volume") == close_to(std::numbers::pi / 4 * bore * bore * stroke / 1000, 1));
  CHECK(f.at("firing-interval") == close_to(720.0 / cylinders, 0.01));
  CHECK(f.at("piston-at-closing") ==
        close_to(crank * (1 - std::cos(closing_rad)) + rod -
                     std::sqrt(rod * rod - std::pow(crank * std::sin(closing_rad), 2)),
                 0.006));
  CHECK(f.at("rim-per-degree") ==
        close_to(std::numbers::pi * f.at("flywheel-diameter") / 360, 0.006));
  CHECK(f.at("timing-tolerance") ==
        close_to(f.at("lifter-depth.tolerance") / f.at("lift-rate"), 0.006));
  CHECK(f.at("lifter-depth-base") == close_to(f.at("foot-at-closing") + f.at("pre-stroke"), 0.001));
  CHECK(f.at("degrees-per-tenth") == close_to(0.1 / f.at("lift-rate"), 0.006));
  CHECK(f.at("lifter-per-flat") == close_to(f.at("lifter-thread-pitch") / 6, 0.001));
  CHECK(f.at("delivery-end-lift") ==
        close_to(f.at("pre-stroke") + f.at("effective-stroke"), 0.006));
  CHECK(f.at("effective-stroke") == close_to(f.at("fuel-per-injection") * 1000 / area, 0.016));
  CHECK(f.at("stroke-per-rack") ==
        close_to(f.at("helix-lead") / (2 * std::numbers::pi * f.at("pinion-radius")), 0.0006));
  CHECK(f.at("rack-full") ==
        close_to(f.at("rack-no-delivery") + f.at("effective-stroke") / f.at("stroke-per-rack"),
                 0.06));
  CHECK(f.at("rack-pitch") == close_to(std::numbers::pi, 0.006));
  CHECK(f.at("crank-gear-radius") == close_to(f.at("gear-module") * f.at("crank-teeth") / 2, 0.01));
  CHECK(f.at("pump-teeth") == 2 * f.at("crank-teeth"));
  CHECK(f.at("tooth-angle") == close_to(tooth_deg, 0.006));
  for (const char* part : {".low", ".high", ".most"})
    CHECK(f.at(std::string("train-lash") + part) ==
          close_to(f.at(std::string("backlash") + part) * deg_per_backlash, 0.006));
  CHECK(f.at("rated-power") ==
        close_to(f.at("mean-effective-pressure") * 1e5 * f.at("swept-volume") * 1e-6 * cylinders *
                     f.at("rated-speed") / 120 / 1000,
                 0.06));
  CHECK(f.at("plunger-length.least") < f.at("plunger-length"));
  CHECK(f.at("compression-cranking.least") < f.at("compression-cranking"));
  CHECK(f.at("nozzle-opening.least") < f.at("nozzle-opening.low"));
}

}  // namespace

TEST_CASE("the figures of hagmoss-4 hang together") {
  const auto f = figures_of("tabular", "hagmoss-4");
  check_relations(f, 4);
  const double rate = f.at("lift-rate");
  CHECK(f.at("lifter-depth") ==
        doctest::Approx(f.at("foot-at-closing") - rate * f.at("static-timing")));
  CHECK(std::abs(f.at("delivery-angle") - f.at("effective-stroke") / rate) < 0.06);
  const double worn_mm = f.at("plunger-length") - f.at("plunger-length.least");
  CHECK(std::abs(f.at("plunger-length-late") - worn_mm / rate) < 0.06);
  for (const char* part : {".low", ".high", ".most"})
    CHECK(std::abs(f.at(std::string("train-lash-depth") + part) -
                   f.at(std::string("train-lash") + part) * rate) < 0.001);
}

TEST_CASE("the figures of lodefoot-1 hang together and follow its own law") {
  const auto f = figures_of("lodefoot", "lodefoot-1");
  check_relations(f, 1);
  const std::filesystem::path folder = binary_dir() + "/plugins/lodefoot";
  const auto law = Registry({read_manifest(folder).value()}).families().at(0).own_law;
  CHECK(std::abs(f.at("lifter-depth") - (f.at("lifter-depth-base") - law->lift_mm(0))) < 0.0006);
  CHECK(std::abs(law->lift_mm(-f.at("static-timing")) - f.at("pre-stroke")) < 1e-4);
  CHECK(std::abs(law->rate_mm_per_deg(-f.at("static-timing")) - f.at("lift-rate")) < 1e-4);
  CHECK(std::abs(law->lift_mm(60) - f.at("plunger-lift")) < 1e-6);
  CHECK(std::abs(f.at("delivery-angle") - (law->angle_deg(f.at("delivery-end-lift")).value() +
                                           f.at("static-timing"))) < 0.06);
  const double worn_mm = f.at("plunger-length") - f.at("plunger-length.least");
  CHECK(std::abs(f.at("plunger-length-late") -
                 (law->angle_deg(f.at("pre-stroke") + worn_mm).value() + f.at("static-timing"))) <
        0.06);
  for (const char* part : {".low", ".high", ".most"})
    CHECK(std::abs(f.at(std::string("train-lash-depth") + part) -
                   f.at(std::string("train-lash") + part) * law->rate_mm_per_deg(0)) < 0.001);
}

}  // namespace soot::host
