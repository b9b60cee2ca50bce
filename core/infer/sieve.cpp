#include "core/infer/sieve.hpp"

#include <algorithm>

namespace soot::infer {

namespace {

struct Box {
  Place first, last;

  Place middle() const {
    Place place = first;
    for (std::size_t a = 0; a < place.size(); ++a)
      place[a] += (last[a] - first[a]) / 2;
    return place;
  }
};

PerAxis<double> half_widths(const std::vector<Axis>& axes, const Box& box, const Place& middle) {
  PerAxis<double> half;
  for (std::size_t a = 0; a < axes.size(); ++a)
    half.push_back(std::max(axes[a].at[box.last[a]] - axes[a].at[middle[a]],
                            axes[a].at[middle[a]] - axes[a].at[box.first[a]]));
  return half;
}

/// Every combination of one smooth piece an axis.
std::vector<Box> whole_pieces(const std::vector<Axis>& axes) {
  std::vector<Box> boxes{Box{}};
  for (const Axis& axis : axes) {
    std::vector<Box> grown;
    for (const Box& box : boxes)
      for (std::size_t p = 0; p < axis.pieces.size(); ++p) {
        grown.push_back(box);
        grown.back().first.push_back(axis.pieces[p]);
        grown.back().last.push_back(
            (p + 1 < axis.pieces.size() ? axis.pieces[p + 1] : axis.at.size()) - 1);
      }
    boxes = std::move(grown);
  }
  return boxes;
}

void split(const std::vector<Axis>& axes, const Box& box, std::vector<Box>& next) {
  std::size_t widest = 0;
  double width = -1;
  for (std::size_t a = 0; a < axes.size(); ++a) {
    const double here = (axes[a].at[box.last[a]] - axes[a].at[box.first[a]]) / axes[a].tau;
    if (box.last[a] > box.first[a] && here > width) {
      widest = a;
      width = here;
    }
  }
  const std::size_t middle = box.middle()[widest];
  next.push_back(box);
  next.back().last[widest] = middle;
  next.push_back(box);
  next.back().first[widest] = middle + 1;
}

}  // namespace

Sieved sieve(const std::vector<Axis>& axes, const Precision& precision, double best,
             const LogBound& log_bound, const double& budget) {
  Sieved result;
  result.best = best;
  const auto cut = [&] { return std::max(result.best - precision.depth, precision.floor); };
  const auto bound_of = [&](const Box& box) {
    const Place middle = box.middle();
    const double bound = log_bound(middle, half_widths(axes, box, middle), cut());
    if (box.first == box.last) result.best = std::max(result.best, bound);
    return bound;
  };
  std::vector<Box> level = whole_pieces(axes);
  // Straight down to one good node first, to have something to prune against; unless even the best
  // there can be prunes no more than the floor does.
  Box good = level.front();
  double good_bound = bound_of(good);
  for (const Box& piece : level)
    if (const double bound = bound_of(piece); bound > good_bound) {
      good = piece;
      good_bound = bound;
    }
  while (good.first != good.last && good_bound - precision.depth > precision.floor) {
    std::vector<Box> halves;
    split(axes, good, halves);
    good = bound_of(halves[0]) >= bound_of(halves[1]) ? halves[0] : halves[1];
  }
  while (!level.empty()) {
    std::vector<Box> next;
    for (const Box& box : level) {
      const double bound = bound_of(box);
      if (bound < cut()) continue;
      if (box.first == box.last)
        result.kept.emplace_back(box.first, bound);
      else
        split(axes, box, next);
      if (budget < 0) {
        result.exhausted = true;
        return result;
      }
    }
    level = std::move(next);
  }
  const auto dropped = [&](const auto& node) { return node.second < cut(); };
  result.kept.erase(std::remove_if(result.kept.begin(), result.kept.end(), dropped),
                    result.kept.end());
  std::sort(result.kept.begin(), result.kept.end());
  return result;
}

}  // namespace soot::infer
