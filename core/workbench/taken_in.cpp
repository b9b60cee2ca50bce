#include "core/workbench/taken_in.hpp"

#include "core/base/append.hpp"
#include "core/calc/contradictions.hpp"
#include "core/calc/derived.hpp"
#include "core/workbench/engine.hpp"
#include "core/workbench/law_of.hpp"

#include <fmt/format.h>

#include <string_view>
#include <utility>

namespace soot {
namespace {

template <class Entry>
void expect_prefix(const Entries<Entry>& entries, std::string_view kind,
                   const host::ServedFamily& served, Problems& problems) {
  for (const Entry& entry : entries) {
    const std::string_view id = entry.id;
    if (id.empty() || id.starts_with(served.plugin_id + "-") || id.starts_with(served.id + "-"))
      continue;
    problems.push_back(make_problem(Kind::data, "{} {} (expected an id that begins with {}-)", kind,
                                    id, served.plugin_id));
    problems.back().place = entry.place;
  }
}

}  // namespace

Problems wrong_names(const ReadFamily& read, const host::ServedFamily& served) {
  Problems problems;
  if (read.family.id != served.id) {
    problems.push_back(make_problem(Kind::data, "its table calls it {} (expected {}, as its file)",
                                    read.family.id, served.id));
    problems.back().place = read.family.place;
  }
  expect_prefix(read.own.terms, "term", served, problems);
  expect_prefix(read.own.symptoms, "symptom", served, problems);
  expect_prefix(read.own.quantities, "quantity", served, problems);
  expect_prefix(read.own.causes, "cause", served, problems);
  expect_prefix(read.own.checks, "check", served, problems);
  expect_prefix(read.own.corrections, "correction", served, problems);
  expect_prefix(read.own.procedures, "procedure", served, problems);
  expect_prefix(read.own.cautions, "caution", served, problems);
  expect_prefix(read.own.covers, "cover", served, problems);
  expect_prefix(read.own.tools, "tool", served, problems);
  return problems;
}

Result<TakenIn> take_in(const host::ServedFamily& served, const Scale& scale) {
  const auto hide = [&](std::string_view why, const Problems& details) {
    Problem first = make_problem(Kind::trouble, "family {} is hidden: {}", served.id, why);
    first.place.file = served.tables_name;
    Problems problems{std::move(first)};
    append(problems, details);
    return tl::unexpected<Problems>(std::move(problems));
  };
  Result<ReadFamily> read = read_family(served.tables_name, served.tables, scale);
  if (!read) return hide("its tables have errors", read.error());
  if (const Problems names = wrong_names(*read, served); !names.empty())
    return hide("it goes by names that are not its own", names);
  Result<std::shared_ptr<const calc::LiftLaw>> law = law_of(read->family, served.own_law);
  if (!law) return hide("its lift law is refused", law.error());
  if (const auto danger = calc::plunger_meets_head(read->family, law->get()))
    return hide("nothing may be set by its depth", {*danger});
  read->family = calc::completed(read->family, law->get());
  read->family.plugin_id = served.plugin_id;
  read->family.plugin_version = served.plugin_version;
  return TakenIn{std::move(read->family), std::move(read->own), std::move(read->amendments),
                 std::move(*law)};
}

Result<Knowledge> join(const Knowledge& common, const std::vector<Amendment>& amendments,
                       const Knowledge& own, const Family& family) {
  if (amendments.empty()) return applicable(common, own, family);
  const Result<Knowledge> put_right = amended(common, amendments);
  if (!put_right) return put_right;
  return applicable(*put_right, own, family);
}

}  // namespace soot
