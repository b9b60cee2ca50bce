#include "core/knowledge/references.hpp"

#include <algorithm>

namespace soot {

References::References(const Knowledge& common, const Knowledge& own) {
  const auto once = [&](auto& index, const auto& known, const auto& more, std::string_view kind) {
    index.add(known);
    for (const auto& [entry, first] : index.add(more))
      add(entry->place, fmt::format("{} {} is there twice (first at {}:{})", kind, id_of(*entry),
                                    first->place.file.text(), first->place.line));
  };
  once(terms, common.terms, own.terms, "term");
  once(symptoms, common.symptoms, own.symptoms, "symptom");
  once(quantities, common.quantities, own.quantities, "quantity");
  once(causes, common.causes, own.causes, "cause");
  once(checks, common.checks, own.checks, "check");
  once(corrections, common.corrections, own.corrections, "correction");
  once(procedures, common.procedures, own.procedures, "procedure");
  once(cautions, common.cautions, own.cautions, "caution");
  once(covers, common.covers, own.covers, "cover");
  once(tools, common.tools, own.tools, "tool");
  once(features, common.features, own.features, "feature");
  once(sources, common.sources, own.sources, "source");
}

void References::add(const Place& place, std::string words, std::string_view name) {
  Problem problem = make_problem(Kind::data, "{}", words);
  problem.place = place;
  problems_.push_back(name.empty() ? std::move(problem) : pinpoint_.at(std::move(problem), name));
}

void References::cited(const Place& place, std::string_view source, std::string_view who) {
  for (std::size_t begin = 0; begin <= source.size();) {
    const std::size_t end = std::min(source.find(';', begin), source.size());
    const std::string_view part = source.substr(begin, end - begin);
    begin = end + 1;
    const std::string_view key = trim(part.substr(0, part.find(':')));
    const bool is_word = key.empty() || key == "practice" || key == "judgement" || key == "derived";
    if (is_word || sources.find(key) != nullptr) continue;
    const std::string near = did_you_mean(key, sources.ids());
    add(place,
        fmt::format("{} cites '{}', which is no source key{}", who, key,
                    near.empty() ? " (expected one of sources.toml, practice, judgement or derived)"
                                 : near),
        source);
  }
}

}  // namespace soot
