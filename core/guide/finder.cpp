#include "core/guide/finder.hpp"

#include "core/base/text.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace soot {
namespace {

constexpr double least_score = 0.25;
constexpr double share_of_best = 0.45;  // less than that is noise beside it
constexpr double guessed = 0.85;        // trust in a word that had to be guessed
constexpr double share_of_about = 0.1;  // of the score: what the entry says of itself
constexpr double nearly_whole = 0.8;    // of a phrase's weight, to be heard in a complaint
constexpr std::string_view negation = "=not";

std::string spaced(std::string id) {
  std::replace(id.begin(), id.end(), '-', ' ');
  return id;
}

std::string joined(const std::vector<Saying>& sayings) {
  std::string out;
  for (const Saying& saying : sayings)
    out += saying.text + " ";
  return out;
}

std::vector<std::string> sentences_of(std::string_view text) {
  std::vector<std::string> out(1);
  for (const char c : text) {
    if (std::string_view{".,;:!?\n"}.find(c) != std::string_view::npos)
      out.emplace_back();
    else
      out.back() += c;
  }
  return out;
}

}  // namespace

Finder::Finder(const Knowledge& knowledge) : wording_(knowledge.synonyms) {
  for (const Symptom& s : knowledge.symptoms)
    add("symptom", s.id, s.name, s.words, s.ask, &s);
  for (const Quantity& q : knowledge.quantities)
    add("quantity", q.id, q.name, q.words, "");
  for (const Cause& c : knowledge.causes)
    add("cause", c.id, c.name, {}, c.about);
  for (const Check& c : knowledge.checks)
    add("check", c.id, c.name, {}, c.tells);
  for (const Correction& c : knowledge.corrections)
    add("correction", c.id, c.name, {}, "");
  for (const Procedure& p : knowledge.procedures)
    add("procedure", p.id, p.name, {}, joined(p.means));
  for (const Caution& c : knowledge.cautions)
    add("caution", c.id, spaced(c.id), {}, c.text);
  for (const Tool& t : knowledge.tools)
    add("tool", t.id, t.name, {}, "");
  for (const Cover& c : knowledge.covers)
    add("cover", c.id, c.name, {}, "");
  for (const Term& t : knowledge.terms)
    add("term", t.id, t.name, {}, "");
  for (const Feature& f : knowledge.features)
    add("feature", f.id, f.name, {}, "");
  for (const std::string& stem : wording_.stems())
    stems_.insert(stem);
  weigh();
}

void Finder::add(std::string_view kind, const std::string& id, const std::string& name,
                 const std::vector<std::string>& phrases, const std::string& about,
                 const Symptom* symptom) {
  Entry entry{kind, id, name, symptom, {}, {}};
  const auto tokens_of = [&](const std::string& text) {
    const std::vector<std::string> stems = stems_of(text);
    stems_.insert(stems.begin(), stems.end());
    std::vector<std::string> out;
    for (Token& token : wording_.tokens(stems))
      out.push_back(std::move(token.text));
    return out;
  };
  entry.about = tokens_of(about);
  std::vector<std::string> all = phrases;
  all.push_back(name);
  all.push_back(spaced(id));
  for (const std::string& phrase : all)
    entry.phrases.push_back({phrase, tokens_of(phrase), 0});
  entries_.push_back(std::move(entry));
}

void Finder::weigh() {
  std::map<std::string, std::size_t> entries_with;
  for (const Entry& entry : entries_) {
    std::set<std::string> own(entry.about.begin(), entry.about.end());
    for (const Phrase& phrase : entry.phrases)
      own.insert(phrase.tokens.begin(), phrase.tokens.end());
    for (const std::string& token : own)
      ++entries_with[token];
  }
  const auto all = static_cast<double>(entries_.size());
  for (const auto& [token, count] : entries_with)
    weights_[token] = std::log(1 + all / static_cast<double>(count));
  for (Entry& entry : entries_)
    for (Phrase& phrase : entry.phrases)
      for (const std::string& token : phrase.tokens)
        phrase.weight += weight_of(token);
}

double Finder::weight_of(const std::string& token) const {
  const auto found = weights_.find(token);
  // A word that no entry has is as telling as one that a single entry has: it speaks against all.
  return found != weights_.end() ? found->second
                                 : std::log(1 + static_cast<double>(entries_.size()));
}

std::vector<Finder::Word> Finder::understood(std::string_view words) const {
  std::vector<std::string> stems = stems_of(words);
  std::vector<bool> is_guess(stems.size(), false);
  const std::vector<std::string> known(stems_.begin(), stems_.end());
  for (std::size_t i = 0; i < stems.size(); ++i) {
    if (stems[i].size() < 4 || stems_.contains(stems[i])) continue;
    if (std::optional<std::string> near = nearest(stems[i], known)) {
      stems[i] = std::move(*near);
      is_guess[i] = true;
    }
  }
  std::vector<Word> out;
  for (Token& token : wording_.tokens(stems)) {
    const auto from = is_guess.begin() + static_cast<std::ptrdiff_t>(token.first);
    const auto to = from + static_cast<std::ptrdiff_t>(token.length);
    out.push_back({std::move(token.text), std::find(from, to, true) != to ? guessed : 1});
  }
  return out;
}

// Twice what is common to both, over the sum of both: 1 for the same words.
double Finder::score(const Entry& entry, const std::vector<Word>& words) const {
  double asked = 0;
  for (const Word& word : words)
    asked += weight_of(word.token);
  double best = 0;
  for (const Phrase& phrase : entry.phrases) {
    double common = 0;
    std::vector<std::string> left = phrase.tokens;
    for (const Word& word : words) {
      const auto at = std::find(left.begin(), left.end(), word.token);
      if (at == left.end()) continue;
      common += word.trust * weight_of(word.token);
      left.erase(at);
    }
    if (asked + phrase.weight > 0) best = std::max(best, 2 * common / (asked + phrase.weight));
  }
  double anywhere = 0;
  for (const Word& word : words) {
    const auto has = [&](const std::vector<std::string>& tokens) {
      return std::find(tokens.begin(), tokens.end(), word.token) != tokens.end();
    };
    const bool in_phrases = std::any_of(entry.phrases.begin(), entry.phrases.end(),
                                        [&](const Phrase& phrase) { return has(phrase.tokens); });
    if (in_phrases || has(entry.about)) anywhere += word.trust * weight_of(word.token);
  }
  return (1 - share_of_about) * best + (asked > 0 ? share_of_about * anywhere / asked : 0);
}

std::vector<Found> Finder::find(std::string_view words, std::size_t most,
                                std::string_view kind) const {
  const std::vector<Word> asked = understood(words);
  std::vector<Found> out;
  for (const Entry& entry : entries_) {
    if (!kind.empty() && entry.kind != kind) continue;
    const bool is_id = entry.id == trim(words);
    const double score_of = is_id ? 1 : score(entry, asked);
    if (score_of >= least_score)
      out.push_back({std::string{entry.kind}, entry.id, entry.name, score_of});
  }
  // Entries stand kind by kind, those a person means most often first: ties stay in that order.
  std::stable_sort(out.begin(), out.end(),
                   [](const Found& a, const Found& b) { return a.score > b.score; });
  if (!out.empty())
    std::erase_if(out, [worst = out.front().score * share_of_best](const Found& found) {
      return found.score < worst;
    });
  if (out.size() > most) out.resize(most);
  return out;
}

Finder::Match Finder::match(const Phrase& phrase, const std::vector<Word>& sentence) const {
  Match out;
  std::size_t first = sentence.size(), last = 0;
  std::vector<bool> used(sentence.size(), false);
  for (const std::string& token : phrase.tokens) {
    for (std::size_t i = 0; i < sentence.size(); ++i) {
      if (used[i] || sentence[i].token != token) continue;
      used[i] = true;
      out.covered += sentence[i].trust * weight_of(token);
      first = std::min(first, i);
      last = std::max(last, i);
      break;
    }
  }
  constexpr std::size_t strangers = 3;  // words between those of the phrase
  if (first < sentence.size() && last - first > phrase.tokens.size() + strangers) out.covered = 0;
  const bool says_not =
      std::find(phrase.tokens.begin(), phrase.tokens.end(), negation) != phrase.tokens.end();
  for (std::size_t i = first < 2 ? 0 : first - 2; !says_not && i < first; ++i)
    if (sentence[i].token == negation) out.absent = true;
  out.at = first;
  return out;
}

std::vector<Heard> Finder::heard(std::string_view complaint) const {
  struct Candidate {
    Heard heard;
    std::size_t sentence = 0, at = 0;
    double covered = 0;
  };
  std::vector<Candidate> candidates;
  const std::vector<std::string> sentences = sentences_of(complaint);
  for (std::size_t s = 0; s < sentences.size(); ++s) {
    const std::vector<Word> sentence = understood(sentences[s]);
    for (const Entry& entry : entries_) {
      if (entry.symptom == nullptr) continue;
      Candidate best;
      for (const Phrase& phrase : entry.phrases) {
        const Match found = match(phrase, sentence);
        if (found.covered < nearly_whole * phrase.weight || found.covered <= best.covered) continue;
        best = {{entry.symptom, found.absent, phrase.written}, s, found.at, found.covered};
      }
      if (best.covered > 0) candidates.push_back(best);
    }
  }
  const auto beaten = [&](const Candidate& one) {
    return std::any_of(candidates.begin(), candidates.end(), [&](const Candidate& other) {
      if (other.sentence != one.sentence || other.heard.symptom == one.heard.symptom) return false;
      const bool is_special = other.heard.symptom->special_of == one.heard.symptom->id;
      // Of two for the same words the one that took more of them.
      return is_special || (other.at == one.at && other.covered > one.covered + 1e-9);
    });
  };
  std::vector<Heard> out;
  for (const Candidate& candidate : candidates) {
    const bool told = std::any_of(out.begin(), out.end(), [&](const Heard& heard) {
      return heard.symptom == candidate.heard.symptom;
    });
    if (!told && !beaten(candidate)) out.push_back(candidate.heard);
  }
  return out;
}

}  // namespace soot
