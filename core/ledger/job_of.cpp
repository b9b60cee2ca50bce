#include "core/ledger/job_of.hpp"

namespace soot::ledger {
namespace {

struct Teller {
  Job& job;
  long line = 0;

  Place place() const {
    return Place{.file = "ledger", .line = static_cast<int>(line), .column = 0};
  }

  void operator()(const Told& told) const {
    if (told.history) job.history = told.history;
  }
  void operator()(const Saw& saw) const {
    job.observations.push_back(Observation{.symptom = saw.symptom,
                                           .cylinder = saw.cylinder,
                                           .present = saw.present,
                                           .unsure = saw.unsure,
                                           .complaint = saw.complaint,
                                           .place = place(),
                                           .line = line});
  }
  void operator()(const Gauged& gauged) const {
    job.readings.push_back(ReadingTaken{.quantity = gauged.quantity,
                                        .cylinder = gauged.cylinder,
                                        .value = gauged.value,
                                        .uncertainty = gauged.uncertainty,
                                        .came_up = gauged.came_up,
                                        .place = place(),
                                        .line = line});
  }
  void operator()(const Done& done) const {
    job.work.push_back(WorkDone{.correction = done.correction,
                                .cylinders = done.cylinders,
                                .note = done.note,
                                .place = place(),
                                .line = line});
  }
  void operator()(const Proved& proved) const {
    job.proofs.push_back(ProvingRun{.result = proved.result, .note = proved.note, .line = line});
  }
  /// The rest is about the handling of the job, not about the engine.
  template <class Other>
  void operator()(const Other&) const {}
};

}  // namespace

Job job_of(const Header& header, const std::vector<Entry>& entries) {
  Job job;
  job.family = header.opened_with.family;
  job.at = header.opened_at;
  for (const Entry& entry : entries)
    if (!entry.crossed_out) std::visit(Teller{job, entry.line}, entry.payload);
  return job;
}

}  // namespace soot::ledger
