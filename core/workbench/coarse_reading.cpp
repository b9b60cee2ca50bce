#include "core/workbench/coarse_reading.hpp"

#include "core/workbench/network_builder.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>

namespace soot {
namespace {

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t n = values.size();
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

// The last standing reading of the quantity on each cylinder.
std::map<int, std::size_t> last_readings(const Job& job, const std::vector<bool>& standing,
                                         const std::string& quantity) {
  std::map<int, std::size_t> out;
  for (std::size_t i = 0; i < job.readings.size(); ++i)
    if (standing[i] && job.readings[i].quantity == quantity) out[job.readings[i].cylinder] = i;
  return out;
}

std::optional<double> reference(const Engine& engine, const Quantity& quantity,
                                const Showing& showing, const Job& job,
                                const std::map<int, std::size_t>& readings, int cylinder) {
  if (!showing.of_others) return nominal_of(engine, quantity);
  std::vector<double> others;
  for (const auto& [other, index] : readings)
    if (other != cylinder) others.push_back(job.readings[index].value.model());
  if (others.empty()) return std::nullopt;
  return median(std::move(others));
}

bool is_there(const Showing& showing, double value, double held_against) {
  const double margin =
      showing.share_of_reference ? showing.margin / 100 * held_against : showing.margin;
  return showing.above ? value >= held_against + margin : value <= held_against - margin;
}

}  // namespace

CoarseFindings coarse_findings(const Engine& engine, const Job& job,
                               const std::vector<bool>& standing) {
  CoarseFindings out;
  for (const Quantity& quantity : engine.knowledge.quantities) {
    if (!quantity.is_coarse()) continue;
    const std::map<int, std::size_t> readings = last_readings(job, standing, quantity.id);
    bool compared = true;
    for (const auto& [cylinder, index] : readings)
      for (const Showing& showing : quantity.shows) {
        const std::optional<double> held_against =
            reference(engine, quantity, showing, job, readings, cylinder);
        compared = compared && held_against.has_value();
        if (!held_against) continue;
        Observation finding;
        finding.symptom = showing.symptom;
        finding.cylinder = cylinder;
        finding.present = is_there(showing, job.readings[index].value.model(), *held_against);
        finding.line = job.readings[index].line;
        out.shown.push_back({index, finding});
      }
    if (!compared)
      out.remarks.push_back(
          fmt::format("{} of one cylinder alone says nothing: read the others too", quantity.id));
  }
  return out;
}

}  // namespace soot
