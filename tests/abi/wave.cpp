// A plugin by the helper header with everything in it that another compiler or other flags lay out
// differently: strings, vectors, maps, exceptions. Built in several ways; each must answer the
// same.
#include <sootsayer/plugin.hpp>

#include <cmath>
#include <map>

namespace {

class Wave final : public soot_sdk::Family, public soot_sdk::CamLaw {
 public:
  Wave()
      : Family("wave-1", "wave-1.toml", "# " + std::string(100, 'w') + "\n"),
        points_{{-60, 0}, {-30, 3.5}, {0, 7}, {20, 8}} {}
  const CamLaw* cam_law() const override { return this; }

  double lift_mm(double crank_deg) const override {
    const auto right = points_.upper_bound(crank_deg);
    if (right == points_.begin()) return 0;
    const auto left = std::prev(right);
    if (right == points_.end()) return left->second;
    return left->second + (right->second - left->second) * (crank_deg - left->first) /
                              (right->first - left->first);
  }

 private:
  std::map<double, double> points_;
};

soot_sdk::Families make_families(const soot_sdk::Host& host) {
  std::vector<std::string> words{"one", "family", "of",
                                 host.folders().empty() ? "none" : "a folder"};
  std::string all;
  for (const std::string& word : words)
    all += word + " ";
  host.note(all);
  try {
    words.at(words.size());
  } catch (const std::out_of_range&) {
    host.note("and what is thrown inside is caught inside");
  }
  soot_sdk::Families families;
  families.push_back(std::make_unique<Wave>());
  return families;
}

}  // namespace

SOOT_PLUGIN(PLUGIN_ID, "1.0.0", make_families)
