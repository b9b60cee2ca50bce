#include "tests/judges/best_cover.hpp"

#include <algorithm>
#include <functional>
#include <map>

namespace soot::judges {
namespace {

class Search {
 public:
  explicit Search(const std::vector<std::set<std::string>>& wanted) {
    std::map<std::string, std::vector<std::size_t>> by_id;
    for (std::size_t w = 0; w < wanted.size(); ++w)
      for (const std::string& id : wanted[w])
        by_id[id].push_back(w);
    for (auto& entry : by_id)
      answers_.push_back(std::move(entry.second));
    hits_.assign(wanted.size(), 0);
  }

  std::size_t run(std::size_t places) {
    descend(0, places, 0);
    return best_;
  }

 private:
  std::size_t gain(std::size_t answer) const {
    return static_cast<std::size_t>(std::count_if(answers_[answer].begin(), answers_[answer].end(),
                                                  [&](std::size_t w) { return hits_[w] == 0; }));
  }

  // Answers before `from` are decided. Gains only shrink as others are taken, so the largest ones
  // now bound what is still to be had.
  void descend(std::size_t from, std::size_t places, std::size_t have) {
    best_ = std::max(best_, have);
    if (places == 0 || from == answers_.size()) return;
    std::vector<std::size_t> gains;
    for (std::size_t a = from; a < answers_.size(); ++a)
      gains.push_back(gain(a));
    // The most useful of the rest is tried first; what stands at `from` is exchanged with it.
    const std::size_t at = from + static_cast<std::size_t>(
                                      std::max_element(gains.begin(), gains.end()) - gains.begin());
    std::sort(gains.begin(), gains.end(), std::greater<>{});
    std::size_t bound = have;
    for (std::size_t i = 0; i < std::min(places, gains.size()); ++i)
      bound += gains[i];
    if (bound <= best_) return;
    std::swap(answers_[from], answers_[at]);
    const std::size_t more = gain(from);
    for (const std::size_t w : answers_[from])
      ++hits_[w];
    descend(from + 1, places - 1, have + more);
    for (const std::size_t w : answers_[from])
      --hits_[w];
    descend(from + 1, places, have);
    std::swap(answers_[from], answers_[at]);
  }

  std::vector<std::vector<std::size_t>> answers_;
  std::vector<int> hits_;
  std::size_t best_ = 0;
};

}  // namespace

std::size_t best_cover(const std::vector<std::set<std::string>>& wanted, std::size_t places) {
  return Search{wanted}.run(places);
}

}  // namespace soot::judges
