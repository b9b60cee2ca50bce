#include "core/infer/answer.hpp"
#include "tests/bench/bench.hpp"
#include "tests/bench/scale_model.hpp"

namespace soot::bench {

namespace {

void print_row(const char* what, std::size_t size, const tests::Scale& scale) {
  std::vector<double> times;
  int exact = 0;
  constexpr int seeds = 5;
  for (int seed = 1; seed <= seeds; ++seed) {
    const tests::ScaleModel model = tests::scale_model(scale, static_cast<std::uint64_t>(seed));
    infer::Limits limits;
    limits.by_cause = false;
    bool is_exact = false;
    times.push_back(once_ms([&] {
      const auto answer = infer::posterior(model.network, model.evidence, limits);
      is_exact = answer.has_value() && !answer->sampled;
    }));
    exact += is_exact ? 1 : 0;
  }
  std::printf("growth %s %zu: median %.2f ms, worst %.2f ms, exact %d of %d\n", what, size,
              median(times), *std::max_element(times.begin(), times.end()), exact, seeds);
  std::fflush(stdout);
}

}  // namespace

void print_growth() {
  tests::Scale scale;
  for (const int cylinders : {1, 2, 4, 6, 8}) {
    scale.cylinders = cylinders;
    scale.readings = static_cast<std::size_t>(4 * cylinders);
    print_row("cylinders", static_cast<std::size_t>(cylinders), scale);
  }
  scale = {};
  for (const std::size_t present : {5u, 10u, 15u, 20u, 25u, 30u}) {
    scale.present = present;
    print_row("present", present, scale);
  }
  scale = {};
  for (const std::size_t readings : {0u, 12u, 24u, 40u, 60u}) {
    scale.readings = readings;
    print_row("readings", readings, scale);
  }
}

}  // namespace soot::bench
