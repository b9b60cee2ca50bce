#include "core/workbench/outcomes.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace soot {
namespace {

constexpr std::size_t most_answers = 3;
// Bands of a reading in standard deviations of the sound engine's: far below ... far above.
constexpr double near_band = 2.0;
constexpr double far_band = 6.0;

using RowMaker = std::function<std::vector<double>(const std::vector<infer::Graded>&)>;

// A hypothesis shows what its variants show, by their shares.
Rows rows_by(const std::vector<Active>& sets, const RowMaker& make) {
  Rows rows;
  for (const Active& set : sets) {
    std::vector<double> row;
    double total = 0;
    for (const Variant& variant : set.variants) {
      const std::vector<double> part = make(variant.present);
      if (row.empty()) row.assign(part.size(), 0);
      for (std::size_t i = 0; i < part.size(); ++i)
        row[i] += variant.weight * part[i];
      total += variant.weight;
    }
    for (double& p : row)
      p /= total;
    rows.push_back(std::move(row));
  }
  rows.push_back(make({}));
  return rows;
}

// How far a symptom's chance moves over the hypotheses, by their weights.
double variance_of(const Inquiry& inquiry, const std::vector<Active>& sets, std::size_t symptom) {
  double weight = 0, mean = 0, square = 0;
  for (const Active& set : sets)
    for (const Variant& variant : set.variants) {
      const double p = infer::chance_of_symptom(inquiry.built.network, symptom, 0, variant.present);
      weight += variant.weight;
      mean += variant.weight * p;
      square += variant.weight * p * p;
    }
  return weight > 0 ? square / weight - (mean / weight) * (mean / weight) : 0;
}

// P(below the cut) of a standard normal.
double below(double x) {
  return std::erfc(-x / std::sqrt(2.0)) / 2;
}

struct Sound {
  double mean = 0;
  double sd = 0;
};

double instrument_of(const Inquiry& inquiry, std::size_t quantity, double value) {
  const Quantity& q = *inquiry.built.quantities[quantity];
  return std::hypot(q.instrument, q.instrument_share / 100 * std::abs(value));
}

Sound sound_reading(const Inquiry& inquiry, std::size_t quantity, int cylinder) {
  const infer::Normal normal =
      infer::expected_reading(inquiry.built.network, quantity, cylinder, {});
  return {normal.mean, std::hypot(normal.sd, instrument_of(inquiry, quantity, normal.mean))};
}

// Chances of the bands cut at these multiples of the sound engine's deviation.
std::vector<double> bands(const Inquiry& inquiry, std::size_t quantity, int cylinder,
                          const std::vector<infer::Graded>& present,
                          const std::vector<double>& cuts) {
  const Sound sound = sound_reading(inquiry, quantity, cylinder);
  const infer::Normal normal =
      infer::expected_reading(inquiry.built.network, quantity, cylinder, present);
  const double sd = std::hypot(normal.sd, instrument_of(inquiry, quantity, normal.mean));
  std::vector<double> out;
  double before = 0;
  for (const double cut : cuts) {
    const double now = below((sound.mean + cut * sound.sd - normal.mean) / sd);
    out.push_back(std::max(0.0, now - before));
    before = now;
  }
  out.push_back(1 - before);
  return out;
}

// What a row over cylinders says, each of them being low, right or high: all right; all low; all
// high; only this one low; only this one high; anything else.
std::vector<double> pattern_row(const std::vector<std::vector<double>>& cylinder) {
  const std::size_t n = cylinder.size();
  std::vector<double> row(3 + 2 * n + 1, 0);
  const auto all = [&](std::size_t level, std::size_t but = static_cast<std::size_t>(-1)) {
    double p = 1;
    for (std::size_t c = 0; c < n; ++c)
      if (c != but) p *= cylinder[c][level];
    return p;
  };
  row[0] = all(1);
  row[1] = all(0);
  row[2] = all(2);
  for (std::size_t c = 0; c < n; ++c) {
    row[3 + 2 * c] = cylinder[c][0] * all(1, c);
    row[4 + 2 * c] = cylinder[c][2] * all(1, c);
  }
  row.back() = std::max(0.0, 1 - std::accumulate(row.begin(), row.end() - 1, 0.0));
  return row;
}

}  // namespace

Rows rows_of_look(const Inquiry& inquiry, const std::vector<Active>& sets,
                  const std::vector<std::size_t>& symptoms) {
  std::vector<std::pair<double, std::size_t>> best;
  for (const std::size_t symptom : symptoms)
    best.emplace_back(-variance_of(inquiry, sets, symptom), symptom);
  std::sort(best.begin(), best.end());
  if (best.size() > most_answers) best.resize(most_answers);
  return rows_by(sets, [&](const std::vector<infer::Graded>& present) {
    std::vector<double> row{1.0};
    for (const auto& [rank, symptom] : best) {
      const double p = infer::chance_of_symptom(inquiry.built.network, symptom, 0, present);
      std::vector<double> next;
      for (const double q : row) {
        next.push_back(q * (1 - p));
        next.push_back(q * p);
      }
      row = std::move(next);
    }
    return row;
  });
}

Rows rows_of_look(const Inquiry& inquiry, const std::vector<Active>& sets, std::size_t symptom,
                  const std::vector<int>& cylinders) {
  return rows_by(sets, [&](const std::vector<infer::Graded>& present) {
    if (cylinders.size() == 1) {
      const double p =
          infer::chance_of_symptom(inquiry.built.network, symptom, cylinders.front(), present);
      return std::vector<double>{1 - p, p};
    }
    std::vector<std::vector<double>> levels;
    for (const int cylinder : cylinders) {
      const double p = infer::chance_of_symptom(inquiry.built.network, symptom, cylinder, present);
      levels.push_back({0, 1 - p, p});
    }
    return pattern_row(levels);
  });
}

Rows rows_of_reading(const Inquiry& inquiry, const std::vector<Active>& sets, std::size_t quantity,
                     const std::vector<int>& cylinders) {
  return rows_by(sets, [&](const std::vector<infer::Graded>& present) {
    if (cylinders.size() == 1)
      return bands(inquiry, quantity, cylinders.front(), present,
                   {-far_band, -near_band, near_band, far_band});
    std::vector<std::vector<double>> levels;
    for (const int cylinder : cylinders)
      levels.push_back(bands(inquiry, quantity, cylinder, present, {-near_band, near_band}));
    return pattern_row(levels);
  });
}

}  // namespace soot
