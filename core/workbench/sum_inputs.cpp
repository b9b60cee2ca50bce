#include "core/workbench/sum_inputs.hpp"

#include <fmt/format.h>

namespace soot {

calc::Ask ask_of(const Engine& engine, const Inquiry& inquiry, const calc::SumForm& form) {
  calc::Ask ask{engine.family, engine.law.get(), {}};
  for (const calc::Need& need : form.needs) {
    if (need.quantity.empty()) continue;
    for (std::size_t i = 0; i < inquiry.job.readings.size(); ++i) {
      const ReadingTaken& reading = inquiry.job.readings[i];
      // Sums are for readings come up to in the running direction, but for the one that asks what
      // turning back did.
      if ((reading.came_up == CameUp::yes) == need.turned_back) continue;
      if (!inquiry.standing.readings[i] || reading.quantity != need.quantity ||
          reading.value.bound != Bound::none)
        continue;
      calc::Given given;
      given.value = reading.value.model();
      given.unit = reading.value.unit;
      given.cylinder = reading.cylinder;
      if (reading.uncertainty) given.uncertainty = model_difference(*reading.uncertainty);
      given.from = fmt::format("reading of {}", reading.quantity);
      ask.given[std::string{need.name}].push_back(given);
    }
  }
  return ask;
}

}  // namespace soot
