#include "core/infer/quadratics.hpp"

#include <cmath>

namespace soot::infer {

void run_values(const Quadratics& q, const double* u, const double* half, std::size_t first,
                std::size_t last, double* __restrict out);
void run_rows(const Quadratics& q, const double* u, double* out);

SOOT_VECTOR_CLONES
void run_values(const Quadratics& q, const double* u, const double* half, std::size_t first,
                std::size_t last, double* __restrict out) {
  const std::size_t count = last - first;
  const double* c = q.constant.data() + first;
  if (q.active == 1) {
    const double at = u[0];
    const double reach = half != nullptr ? half[0] : 0;
    const double* a = q.along[0].data() + first;
    const double* r = q.rate[0].data() + first;
    for (std::size_t x = 0; x < count; ++x) {
      const double off = std::abs(a[x] - r[x] * at) - reach * r[x];
      const double kept = off > 0 ? off : 0;
      out[x] = c[x] - 0.5 * kept * kept;
    }
    return;
  }
  for (std::size_t x = 0; x < count; ++x)
    out[x] = 0;
  std::size_t row = 0;
  for (std::size_t k = 0; k < q.active; ++k) {
    const double* a = q.along[k].data() + first;
    double off[Quadratics::chunk];
    for (std::size_t x = 0; x < count; ++x)
      off[x] = a[x];
    for (std::size_t j = k; j < q.active; ++j, ++row) {
      const double* rate = q.rate[row].data() + first;
      for (std::size_t x = 0; x < count; ++x)
        off[x] -= rate[x] * u[j];
    }
    for (std::size_t x = 0; x < count; ++x)
      out[x] += off[x] * off[x];
  }
  if (half != nullptr) {
    double within[Quadratics::chunk] = {};
    for (std::size_t j = 0; j < q.active; ++j) {
      const double* reach = q.reach[j].data() + first;
      for (std::size_t x = 0; x < count; ++x)
        within[x] += reach[x] * half[j];
    }
    for (std::size_t x = 0; x < count; ++x) {
      const double root = std::sqrt(out[x]) - within[x];
      const double kept = root > 0 ? root : 0;
      out[x] = kept * kept;
    }
  }
  for (std::size_t x = 0; x < count; ++x)
    out[x] = c[x] - 0.5 * out[x];
}

SOOT_VECTOR_CLONES
void run_rows(const Quadratics& q, const double* u, double* out) {
  for (std::size_t x = 0; x < q.count; ++x, out += lanes) {
    double sum[lanes] = {};
    std::size_t row = 0;
    for (std::size_t k = 0; k < q.active; ++k) {
      double off[lanes];
      for (std::size_t lane = 0; lane < lanes; ++lane)
        off[lane] = q.along[k][x];
      for (std::size_t j = k; j < q.active; ++j, ++row) {
        const double rate = q.rate[row][x];
        for (std::size_t lane = 0; lane < lanes; ++lane)
          off[lane] -= rate * u[j * lanes + lane];
      }
      for (std::size_t lane = 0; lane < lanes; ++lane)
        sum[lane] += off[lane] * off[lane];
    }
    const double constant = q.constant[x];
    for (std::size_t lane = 0; lane < lanes; ++lane)
      out[lane] = constant - 0.5 * sum[lane];
  }
}

double Quadratics::bound_mean(std::size_t x, std::size_t b, const double* u,
                              std::size_t stride) const {
  const Bound& bound = bounds[x];
  const std::size_t exact = bound.white.size();
  double mean = bound.mean[b];
  for (std::size_t j = 0; j < active; ++j)
    mean += bound_slopes[b * active + j] * u[j * stride];
  for (std::size_t i = 0; i < exact; ++i) {
    double white = bound.white[i];
    for (std::size_t j = 0; j < active; ++j)
      white -= bound.tilt[i * active + j] * u[j * stride];
    mean += bound.gain[b * exact + i] * white;
  }
  return mean;
}

double Quadratics::log_bounds(std::size_t x, const double* u, const double* half,
                              std::size_t stride) const {
  const Bound& bound = bounds[x];
  std::vector<double> below = lower, above = upper;
  for (std::size_t b = 0; b < lower.size(); ++b) {
    const double mean = bound_mean(x, b, u, stride);
    below[b] -= mean;
    above[b] -= mean;
    for (std::size_t j = 0; half != nullptr && j < active; ++j) {
      below[b] -= bound.reach[b * active + j] * half[j];
      above[b] += bound.reach[b * active + j] * half[j];
    }
  }
  return half != nullptr ? bound.censored.log_ceiling(below, above)
                         : bound.censored.log_probability(below, above);
}

void Quadratics::values(const double* u, const double* half, std::size_t first, std::size_t last,
                        double* out) const {
  run_values(*this, u, half, first, last, out);
}

bool Quadratics::is_open() const {
  return lower.size() == 1 && std::isinf(lower[0]) && std::isinf(upper[0]) && lower[0] < upper[0];
}

void Quadratics::predict(const double* u, double* mean, double* sd) const {
  for (std::size_t x = 0; x < count; ++x)
    for (std::size_t lane = 0; lane < lanes; ++lane) {
      *mean++ = bound_mean(x, 0, u + lane, lanes);
      *sd++ = bounds[x].censored.own_sd(0);
    }
}

void Quadratics::rows(const double* u, double* out) const {
  run_rows(*this, u, out);
  if (is_open()) return;
  for (std::size_t x = 0; x < bounds.size(); ++x)
    for (std::size_t lane = 0; lane < lanes; ++lane)
      out[x * lanes + lane] += log_bounds(x, u + lane, nullptr, lanes);
}

}  // namespace soot::infer
