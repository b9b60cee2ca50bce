#include "core/guide/page_words.hpp"

#include "core/base/text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace soot {
namespace {

std::string citation_of(const Knowledge& knowledge, const std::string& key) {
  if (key == "practice") return "custom of the trade, no published source";
  if (key == "judgement") return "our own guess";
  for (const Source& source : knowledge.sources)
    if (source.key == key) return source.citation;
  return "worked out from other figures";
}

}  // namespace

bool names(const std::vector<std::string>& ids, std::string_view id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

double most_of(const std::vector<double>& values) {
  return values.empty() ? 0 : *std::max_element(values.begin(), values.end());
}

std::string word_of(const std::map<std::string, double>& words, double value) {
  for (const auto& [word, number] : words)
    if (std::abs(number - value) < 1e-9) return word;
  const double hundredths = value * 100;
  return hundredths >= 1 ? fmt::format("{:.0f} in 100", hundredths)
                         : fmt::format("{:.2g} in 100", hundredths);
}

std::string feature_name(const Knowledge& knowledge, const std::string& id) {
  const Feature* feature = find_id(knowledge.features, id);
  return feature == nullptr ? id : feature->name;
}

std::string minutes_words(const Minutes& minutes, bool each_cylinder) {
  if (!each_cylinder) return duration(minutes.set_up + minutes.each);
  if (minutes.set_up == 0) return duration(minutes.each) + " a cylinder";
  if (minutes.each == 0) return duration(minutes.set_up);
  return fmt::format("{}, and {} a cylinder", duration(minutes.set_up), duration(minutes.each));
}

std::string state_words(const Knowledge& knowledge, Running running,
                        const std::vector<std::string>& covers, bool hot, bool cold) {
  constexpr std::array<std::string_view, 3> states{"stopped", "turned by the starter", "running"};
  std::string out{states.at(static_cast<std::size_t>(running))};
  if (hot) out += ", hot";
  if (cold) out += ", cold";
  for (const std::string& id : covers) {
    const Cover& cover = get_id(knowledge.covers, id);
    out += fmt::format("; {} ({} to open and close)", cover.name,
                       duration(cover.open_minutes + cover.close_minutes));
  }
  return out;
}

std::string_view parts_words(int parts_class) {
  constexpr std::array<std::string_view, 5> words{"nothing", "consumables", "minor parts",
                                                  "a matched set", "machining"};
  return words.at(static_cast<std::size_t>(parts_class));
}

std::string scope_words(Scope scope) {
  return scope == Scope::cylinder ? "each cylinder by itself" : "the engine as a whole";
}

PageMaker::PageMaker(std::string kind, std::string id, std::string name, std::string about)
    : page_{std::move(kind), std::move(id), std::move(name), std::move(about), {}} {}

PageMaker& PageMaker::section(std::string title) {
  page_.sections.push_back({std::move(title), {}});
  return *this;
}

void PageMaker::line(std::string mark, std::string text) {
  page_.sections.back().lines.push_back({std::move(mark), std::move(text)});
}

void PageMaker::cautions(const Knowledge& knowledge, const std::vector<std::string>& ids) {
  section("Cautions");
  for (const std::string& id : ids)
    line("", get_id(knowledge.cautions, id).text);
}

void PageMaker::features(const Knowledge& knowledge, const std::vector<std::string>& needs,
                         const std::vector<std::string>& without) {
  section("Which engines");
  for (const std::string& id : needs)
    line("only with", feature_name(knowledge, id));
  for (const std::string& id : without)
    line("never with", feature_name(knowledge, id));
}

void PageMaker::sources(const Knowledge& knowledge, const std::vector<std::string>& texts) {
  section("Sources");
  std::vector<std::pair<std::string, std::vector<std::string>>> cited;  // key, what for
  for (const std::string& text : texts)
    for (const std::string& part : split(text, ';')) {
      const std::size_t colon = std::min(part.find(':'), part.size());
      const std::string key{trim(std::string_view{part}.substr(0, colon))};
      if (key.empty()) continue;
      auto at = std::find_if(cited.begin(), cited.end(),
                             [&](const auto& known) { return known.first == key; });
      if (at == cited.end()) at = cited.insert(cited.end(), {key, {}});
      const std::string what{trim(std::string_view{part}.substr(std::min(colon + 1, part.size())))};
      if (!what.empty() &&
          std::find(at->second.begin(), at->second.end(), what) == at->second.end())
        at->second.push_back(what);
    }
  for (const auto& [key, purposes] : cited)
    line(key, citation_of(knowledge, key) +
                  (purposes.empty() ? "" : fmt::format(" ({})", fmt::join(purposes, "; "))));
}

EntryPage PageMaker::take() {
  std::erase_if(page_.sections,
                [](const EntryPage::Section& section) { return section.lines.empty(); });
  return std::move(page_);
}

}  // namespace soot
