#include "core/cli/understanding.hpp"

#include "core/base/text.hpp"
#include "core/guide/finder.hpp"
#include "core/workbench/left_out.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>

namespace soot::cli {
namespace {

constexpr double certain = 0.85;    // of the words, to be taken without asking
constexpr double clear_lead = 0.1;  // before the next best
constexpr std::size_t most_offered = 5;

bool is_certain(const std::vector<Found>& found) {
  return found.front().score >= certain &&
         (found.size() == 1 || found[1].score <= found.front().score - clear_lead);
}

std::string id_and_name(const Found& found) {
  return fmt::format("{} ({})", found.id, found.name);
}

void say_understood(Session& session, const std::string& words, const Found& found) {
  session.terminal().talk(fold(fmt::format("understood '{}' as {}", words, id_and_name(found)),
                               session.look().width, "", "  ") +
                          "\n");
}

Result<std::string> ask_which(Session& session, const std::string& words,
                              const std::vector<Found>& found) {
  std::string question = fmt::format("'{}' may be\n", words);
  std::vector<std::string> offers;
  for (std::size_t i = 0; i < found.size(); ++i) {
    question +=
        fold(id_and_name(found[i]), session.look().width, fmt::format("  {}  ", i + 1), "     ") +
        "\n";
    offers.push_back(id_and_name(found[i]));
  }
  const std::optional<std::string> said =
      session.terminal().ask(question + "Which? (its number, or nothing) ");
  if (!said)
    return fail(Kind::use, "'{}' is not certain (expected one of {})", words,
                fmt::join(offers, ", "));
  const std::string_view typed = trim(*said);
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), number);
  const bool is_number = error == std::errc{} && end == typed.data() + typed.size();
  if (!is_number || number < 1 || number > found.size())
    return fail(Kind::use, "nothing is entered (expected a number, 1 to {})", found.size());
  return found[number - 1].id;
}

}  // namespace

Result<std::string> understood_symptom(Session& session, const Engine& engine,
                                       const std::string& words) {
  const Entries<Symptom>& symptoms = engine.knowledge.symptoms;
  const bool is_one_word = words.find(' ') == std::string::npos;
  if (find_id(symptoms, words) != nullptr) return words;
  if (is_one_word && nearest(words, ids_of(symptoms))) return words;
  if (is_one_word && !what_else(engine.knowledge, words).empty()) return words;
  const std::vector<Found> found = Finder{engine.knowledge}.find(words, most_offered, "symptom");
  if (found.empty()) {
    if (is_one_word) return words;
    return fail(Kind::use,
                "'{}' sounds like no symptom of {} (list them: sootsayer knowledge list symptom)",
                words, engine.family.id);
  }
  if (!is_certain(found)) return ask_which(session, words, found);
  say_understood(session, words, found.front());
  return found.front().id;
}

void offer_heard(Session& session, const Engine& engine, const std::string& complaint) {
  const std::vector<Heard> heard = Finder{engine.knowledge}.heard(complaint);
  if (heard.empty()) {
    session.terminal().answer(
        "It names no sign that is known here. Look for one: sootsayer knowledge find\n"
        "WORDS, or see them all: sootsayer knowledge list symptom\n");
    return;
  }
  std::vector<std::string> commands;
  std::size_t width = 0;
  for (const Heard& one : heard) {
    const std::string where = one.symptom->scope == Scope::cylinder ? " CYLINDER" : "";
    commands.push_back(fmt::format("sootsayer saw {}{} {}", one.symptom->id, where,
                                   one.absent ? "--absent" : "--complaint"));
    width = std::max(width, commands.back().size());
  }
  std::string out = "It speaks of these; enter what is so:\n";
  for (std::size_t i = 0; i < heard.size(); ++i)
    out += fold(heard[i].symptom->name, session.look().width,
                fmt::format("  {:<{}}  ", commands[i], width), std::string(width + 4, ' ')) +
           "\n";
  session.terminal().answer(plain(session.look(), out));
}

}  // namespace soot::cli
