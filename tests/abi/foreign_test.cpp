// What was released stays in use: the frozen header has not been touched, the plugin built against
// it loads, and one source built by other compilers and flags answers the same to the last digit.
#include "core/host/registry.hpp"
#include "core/host/seal.hpp"
#include "tests/places.hpp"

#include <doctest/doctest.h>

#include <sstream>

namespace soot::host {
namespace {

Registry load(const std::string& name) {
  return Registry({read_manifest(binary_dir() + "/tests/abi/" + name).value()});
}

}  // namespace

TEST_CASE("the header of version 1 is as it was released") {
  const std::filesystem::path v1 = source_dir() + "/tests/abi/v1";
  const Result<Seal> released = read_seal(v1 / "released.txt");
  REQUIRE(released);
  CHECK(released->size() == 2);
  const Seal now = take_seal(v1).value();
  for (const auto& [name, sum] : *released)
    CHECK_MESSAGE(now.at(name) == sum, name,
                  " was changed: a new version needs a folder of its own");
}

TEST_CASE("the plugin of version 1 still serves its family") {
  const Registry registry = load("old");
  CHECK(soot::to_string(registry.problems()) ==
        binary_dir() + "/tests/abi/old/old.so: plugin old: built against version 1.0");
  REQUIRE(registry.families().size() == 1);
  const ServedFamily& family = registry.families()[0];
  CHECK(family.id == "old-1");
  CHECK(family.tables.find("bore = \"110 mm\"\n") != std::string::npos);
  REQUIRE(family.own_law != nullptr);
  CHECK(family.own_law->lift_mm(-20) == doctest::Approx(4));
  CHECK(family.own_law->angle_deg(2.5).value() == doctest::Approx(-35));
}

TEST_CASE("other compilers and flags change no answer") {
  std::istringstream names(SOOT_FOREIGN_NAMES);
  std::vector<double> first;
  std::size_t built = 0;
  for (std::string name; names >> name;) {
    if (name == "old") continue;
    CAPTURE(name);
    ++built;
    const Registry registry = load(name);
    const std::string so = binary_dir() + "/tests/abi/" + name + "/" + name + ".so: plugin " + name;
    CHECK(soot::to_string(registry.problems()) ==
          so + ": one family of a folder\n" + so + ": and what is thrown inside is caught inside");
    REQUIRE(registry.families().size() == 1);
    CHECK(registry.families()[0].tables == "# " + std::string(100, 'w') + "\n");
    REQUIRE(registry.families()[0].own_law != nullptr);
    std::vector<double> lifts;
    for (double deg = -70; deg < 30; deg += 0.25)
      lifts.push_back(registry.families()[0].own_law->lift_mm(deg));
    if (first.empty()) first = lifts;
    CHECK(lifts == first);
    CHECK(registry.families()[0].own_law->lift_mm(-30) == doctest::Approx(3.5));
  }
  CHECK(built >= 5);
}

}  // namespace soot::host
