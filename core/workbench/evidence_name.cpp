#include "core/workbench/evidence_name.hpp"

#include <fmt/format.h>

namespace soot {

EvidenceName name_finding(const Inquiry& inquiry, std::size_t finding) {
  const std::size_t symptom = inquiry.evidence.evidence.findings[finding].symptom;
  const Trace& trace = inquiry.evidence.findings[finding];
  if (trace.is_reading) {
    const ReadingTaken& taken = inquiry.job.readings[trace.entry];
    const bool present = inquiry.evidence.evidence.findings[finding].present;
    return {false, inquiry.built.symptoms[symptom]->id, inquiry.built.symptoms[symptom]->name,
            taken.cylinder,
            fmt::format("{} ({} {})", present ? "present" : "absent", taken.quantity,
                        taken.value.as_written)};
  }
  const Observation& seen = inquiry.job.observations[trace.entry];
  std::string said = seen.present ? "present" : "absent";
  if (seen.unsure) said += ", unsure";
  return {false, seen.symptom, inquiry.built.symptoms[symptom]->name, seen.cylinder, said};
}

EvidenceName name_reading(const Inquiry& inquiry, std::size_t reading) {
  const ReadingTaken& taken = inquiry.job.readings[inquiry.evidence.readings[reading].entry];
  const std::size_t quantity = inquiry.evidence.evidence.readings[reading].quantity;
  return {true, taken.quantity, inquiry.built.quantities[quantity]->name, taken.cylinder,
          taken.value.as_written};
}

}  // namespace soot
