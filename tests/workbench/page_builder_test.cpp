// What the record names as the cause.
#include "core/workbench/page_builder.hpp"

#include "tests/workbench/real_bench.hpp"

#include <doctest/doctest.h>

using soot::Page;
using soot::ledger::Done;
using soot::ledger::Entry;
using soot::ledger::Payload;
using soot::ledger::Proved;
using soot::ledger::Ranked;
using soot::test::hagmoss;

namespace {

std::vector<Entry> record(std::vector<Payload> payloads) {
  std::vector<Entry> out;
  for (Payload& payload : payloads)
    out.push_back({static_cast<long>(out.size()) + 1, "2031-04-02T09:10:00Z", std::move(payload),
                   std::nullopt});
  return out;
}

std::vector<std::string> causes_of(const std::vector<Entry>& entries) {
  soot::RankAnswer left;  // what is still likely now
  soot::CauseLine line;
  line.id = "lifter-nut-loose";
  line.name = "jam nut loose";
  line.cylinder = 3;
  line.probability = 0.04;
  left.by_cause.push_back(line);
  return build_page({}, entries, &hagmoss(), &left).causes;
}

const Ranked before{{{"air-ingress", 0, 0.5}, {"lifter-one", 3, 0.4}}};
const Done set_lifter{"set-lifter", {3}, "", "", std::nullopt};
const Proved cured{soot::Proof::cured, ""};

}  // namespace

TEST_CASE("once cured the cause is what was mended and not what is left over") {
  CHECK(causes_of(record({before, set_lifter, cured})) ==
        std::vector<std::string>{"lifter-one 3, 40 % before the work of line 2: lifter set wrong "
                                 "on one cylinder"});
}

TEST_CASE("not cured yet the cause is what stands first now") {
  CHECK(causes_of(record({before, set_lifter})) ==
        std::vector<std::string>{
            "lifter-nut-loose 3, 4 %: jam nut loose, lifter screwing itself down"});
  CHECK(causes_of(record({before, set_lifter, Proved{soot::Proof::improved, ""}}))
            .front()
            .find("lifter-nut-loose") == 0);
}

TEST_CASE("work that no ranking came before or that was crossed out names no cause") {
  const std::vector<std::string> unnamed{"not named (sootsayer close --cause CAUSE says it)"};
  CHECK(causes_of(record({set_lifter, cured})) == unnamed);
  std::vector<Entry> entries = record({before, set_lifter, cured});
  entries[1].crossed_out = soot::ledger::CrossedOut{9, "2031-04-02T09:12:00Z", "not done"};
  CHECK(causes_of(entries) == unnamed);
}

TEST_CASE("what the job was closed with goes before all") {
  soot::ledger::Closed closed;
  closed.causes.push_back({"plunger-worn", 2, "", 1});
  CHECK(causes_of(record({before, set_lifter, cured, closed})).front() ==
        "plunger-worn 2, as the job was closed: plunger worn at port and helix");
}
