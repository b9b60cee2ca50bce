#include "core/ledger/payload.hpp"

#include "core/model/job_words.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace nlohmann {

template <class T>
struct adl_serializer<std::optional<T>> {
  static void to_json(json& out, const std::optional<T>& value) {
    out = value ? json(*value) : json(nullptr);
  }
  static void from_json(const json& in, std::optional<T>& value) {
    if (in.is_null())
      value.reset();
    else
      value = in.get<T>();
  }
};

template <>
struct adl_serializer<soot::Measure> {
  static void to_json(json& out, const soot::Measure& measure) { out = measure.as_written; }
  static void from_json(const json& in, soot::Measure& measure) {
    const soot::Result<soot::Measure> read = soot::read_measure(in.get<std::string>());
    if (!read) throw std::invalid_argument(soot::to_string(read.error()));
    measure = *read;
  }
};

template <>
struct adl_serializer<soot::CameUp> {
  static void to_json(json& out, soot::CameUp came_up) { out = soot::word_of(came_up); }
  static void from_json(const json& in, soot::CameUp& came_up) {
    came_up = soot::find_came_up(in.get<std::string>()).value();
  }
};

template <>
struct adl_serializer<soot::Proof> {
  static void to_json(json& out, soot::Proof proof) { out = soot::word_of(proof); }
  static void from_json(const json& in, soot::Proof& proof) {
    proof = soot::find_proof(in.get<std::string>()).value();
  }
};

}  // namespace nlohmann

namespace soot {
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Truth, cause, cylinder, grade)
}  // namespace soot

namespace soot::ledger {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Told, words, history)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Saw, symptom, cylinder, present, unsure, complaint)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Gauged, quantity, cylinder, value, uncertainty,
                                                came_up)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Skipped, check, why)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(RankedCause, cause, cylinder, probability)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Ranked, causes)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Move, kind, id, cylinders, minutes)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Proposed, verdict, moves)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Done, correction, cylinders, note, parts, minutes)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Proved, result, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Closed, causes, note)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Reopened, why)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Noted, words)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(Struck, reason)

namespace {

using nlohmann::json;

/// What a payload lacks, or nothing. One overload a kind.
struct Lack {
  using Answer = std::optional<std::string>;

  static Answer unless(bool said, std::string_view lack) {
    return said ? Answer{} : Answer{std::string{lack}};
  }
  /// A measure is kept as its text alone, so the text must give the same measure again.
  static Answer of_measure(const Measure& measure) {
    const Result<Measure> again = read_measure(measure.as_written);
    const bool same = again && again->value == measure.value && again->bound == measure.bound &&
                      again->unit.name == measure.unit.name &&
                      again->unit.dimension == measure.unit.dimension;
    if (same) return {};
    return fmt::format("'{}' is not what the value was read from (expected the text as typed)",
                       measure.as_written);
  }

  Answer operator()(const Told& told) const {
    return unless(!told.words.empty() || told.history,
                  "nothing is told (expected the complaint in words, or the history)");
  }
  Answer operator()(const Saw& saw) const {
    return unless(!saw.symptom.empty(), "no symptom is named (expected its id)");
  }
  Answer operator()(const Gauged& gauged) const {
    if (gauged.quantity.empty()) return "no quantity is named (expected its id)";
    const Answer value = of_measure(gauged.value);
    return value || !gauged.uncertainty ? value : of_measure(*gauged.uncertainty);
  }
  Answer operator()(const Skipped& skipped) const {
    return unless(!skipped.check.empty(), "no check is named (expected its id)");
  }
  Answer operator()(const Ranked& ranked) const {
    const bool finite = std::all_of(ranked.causes.begin(), ranked.causes.end(),
                                    [](const auto& c) { return std::isfinite(c.probability); });
    return unless(finite, "a probability is not a number (expected 0 to 1)");
  }
  Answer operator()(const Proposed& proposed) const {
    const bool finite = std::all_of(proposed.moves.begin(), proposed.moves.end(),
                                    [](const Move& move) { return std::isfinite(move.minutes); });
    return unless(finite, "a time is not a number (expected minutes)");
  }
  Answer operator()(const Done& done) const {
    if (done.correction.empty()) return "no correction is named (expected its id)";
    return unless(!done.minutes || std::isfinite(*done.minutes),
                  "a time is not a number (expected minutes)");
  }
  Answer operator()(const Proved&) const { return {}; }
  Answer operator()(const Closed&) const { return {}; }
  Answer operator()(const Reopened&) const { return {}; }
  Answer operator()(const Noted& noted) const {
    return unless(!noted.words.empty(), "nothing is noted (expected some words)");
  }
  Answer operator()(const Struck& struck) const {
    return unless(!struck.reason.empty(), "no reason is given (expected why the line is mistaken)");
  }
};

using Maker = Payload (*)(const json&);

template <std::size_t... Index>
constexpr std::array<Maker, sizeof...(Index)> makers_of(std::index_sequence<Index...>) {
  return {[](const json& in) -> Payload {
    return in.get<std::variant_alternative_t<Index, Payload>>();
  }...};
}

constexpr auto makers = makers_of(std::make_index_sequence<kinds.size()>{});

}  // namespace

bool is_utf8(std::string_view text) {
  try {
    return !json(text).dump().empty();
  } catch (const json::exception&) {
    return false;
  }
}

Result<std::string> write_payload(const Payload& payload) {
  if (const auto lack = std::visit(Lack{}, payload)) return fail(Kind::use, "{}", *lack);
  try {
    return std::visit([](const auto& what) { return json(what).dump(); }, payload);
  } catch (const json::exception&) {
    return fail(Kind::use, "the text of a line is not UTF-8 (expected UTF-8)");
  }
}

Result<Payload> read_payload(std::string_view kind, std::string_view text) {
  const auto found = std::find(kinds.begin(), kinds.end(), kind);
  if (found == kinds.end())
    return fail(Kind::trouble, "kind '{}' is not known (expected {})", kind,
                fmt::join(kinds, ", "));
  try {
    Payload payload = makers.at(static_cast<std::size_t>(found - kinds.begin()))(json::parse(text));
    if (!std::visit(Lack{}, payload)) return payload;
  } catch (const std::exception&) {
    // Whatever the library or the words complained of, the text is not ours.
  }
  return fail(Kind::trouble, "'{}' is not what a {} line says", text, kind);
}

}  // namespace soot::ledger
