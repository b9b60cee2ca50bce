#include "core/guide/parting.hpp"
#include "core/guide/review_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace soot {
namespace {

constexpr std::size_t signs_enough = 2;

/// The best that any family does.
struct Record {
  const Cause* cause = nullptr;
  const Cause* rival = nullptr;
  std::size_t signs = 0;
};
struct Pair {
  const Cause* one = nullptr;
  const Cause* other = nullptr;
  bool is_parted = false;
};

class PartingReview {
 public:
  void look(const Parting& parting) {
    for (std::size_t c = 0; c < parting.causes().size(); ++c)
      look_at_rival(parting, c);
    for (std::size_t a = 0; a < parting.causes().size(); ++a)
      for (std::size_t b = a + 1; b < parting.causes().size(); ++b)
        look_at_pair(parting, a, b);
  }

  void tell(KnowledgeReview& review) const {
    for (const auto& [ids, pair] : pairs_)
      if (!pair.is_parted)
        review.notes.push_back({"Pairs of causes that no check can part", pair.one->place,
                                fmt::format("{} and {}", pair.one->id, pair.other->id)});
    tell_short(review, false);
    tell_short(review, true);
  }

 private:
  void tell_short(KnowledgeReview& review, bool explained) const {
    for (const auto& [id, record] : records_) {
      const std::string& why = record.cause->unparted;
      if (record.signs >= signs_enough || why.empty() == explained) continue;
      review.notes.push_back(
          {explained ? "Causes that little parts from their likeliest rival, and why"
                     : "Causes without two signs that part them from their likeliest rival",
           record.cause->place,
           fmt::format("{}: {} {} times likelier than under {}{}{}", id,
                       record.signs == 0 ? "nothing is" : "only one sign is", telling_ratio,
                       record.rival->id, explained ? "; " : "", why)});
    }
  }

  // A sign counts once, whichever cylinder tells more.
  void look_at_rival(const Parting& parting, std::size_t c) {
    const std::optional<std::size_t> rival = parting.rival_of(c);
    if (!rival) return;
    std::vector<std::string> telling_signs;
    for (std::size_t s = 0; s < parting.signs().size(); ++s)
      if (parting.ratio(s, c, *rival) >= telling_ratio)
        telling_signs.push_back(parting.signs()[s].id);
    telling_signs.erase(std::unique(telling_signs.begin(), telling_signs.end()),
                        telling_signs.end());
    Record& record = records_[parting.causes()[c]->id];
    if (record.cause != nullptr && record.signs >= telling_signs.size()) return;
    record = {find_common(parting.causes()[c]), find_common(parting.causes()[*rival]),
              telling_signs.size()};
  }

  void look_at_pair(const Parting& parting, std::size_t a, std::size_t b) {
    if (!parting.share_a_complaint(a, b)) return;
    const Cause* one = parting.causes()[a];
    const Cause* other = parting.causes()[b];
    Pair& pair = pairs_[std::minmax(one->id, other->id)];
    if (pair.one == nullptr) pair = {find_common(one), find_common(other), false};
    for (std::size_t s = 0; s < parting.signs().size() && !pair.is_parted; ++s)
      pair.is_parted =
          parting.signs()[s].check != nullptr &&
          (parting.ratio(s, a, b) >= telling_ratio || parting.ratio(s, b, a) >= telling_ratio);
  }

  // An engine's causes are copies that go with the engine: what is told must stay.
  const Cause* find_common(const Cause* cause) {
    return &kept_.try_emplace(cause->id, *cause).first->second;
  }

  std::map<std::string, Cause> kept_;
  std::map<std::string, Record> records_;
  std::map<std::pair<std::string, std::string>, Pair> pairs_;
};

}  // namespace

Result<void> review_parting(const Bench& bench, KnowledgeReview& review) {
  PartingReview parting_review;
  for (const Bench::Served& served : bench.families()) {
    const Result<Engine> engine = bench.engine(served.family.id);
    if (!engine) return pass_on(engine);
    const Result<Parting> parting = Parting::on(*engine);
    if (!parting) return pass_on(parting);
    parting_review.look(*parting);
  }
  parting_review.tell(review);
  return {};
}

}  // namespace soot
