#include "core/workbench/move_list.hpp"

#include "core/plan/mending.hpp"
#include "core/workbench/gates.hpp"
#include "core/workbench/outcomes.hpp"

#include <algorithm>
#include <map>

namespace soot {
namespace {

// Minutes' worth of what is not time; judgement, until the shop says its own.
constexpr double parts_minutes[] = {0, 10, 45, 150, 500};
constexpr double warm_up_minutes = 20;
constexpr double cool_down_minutes = 30;
constexpr double run_minutes = 15;
constexpr double hand_over_minutes = 1500;
constexpr std::size_t most_single_cylinders = 2;

bool has_id(const std::vector<std::string>& ids, std::string_view id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

class Lister {
 public:
  Lister(const Engine& engine, const Inquiry& inquiry, const Hypotheses& hypotheses,
         const std::vector<Observation>& complaints, const std::vector<std::string>& skipped,
         const std::vector<std::string>& tools)
      : engine_(engine),
        inquiry_(inquiry),
        sets_(hypotheses.sets),
        suspects_(hypotheses.suspects),
        skipped_(skipped),
        tools_(tools) {
    add_bits();
    add_corrections();
    add_sets();
    for (const Check& check : engine_.knowledge.checks)
      add(check);
    add_run(complaints);
  }

  MoveList take() { return std::move(out_); }

 private:
  void add_bits() {
    plan::Situation& s = out_.situation;
    for (const Cover& cover : engine_.knowledge.covers) {
      plan::Bit bit{cover.open_minutes, cover.close_minutes, {}};
      for (std::size_t i = 0; i < engine_.knowledge.covers.size(); ++i)
        if (has_id(cover.under, engine_.knowledge.covers[i].id)) bit.under.push_back(i);
      if (has_id(inquiry_.job.state.covers_off, cover.id)) s.bits_on.push_back(s.bits.size());
      s.bits.push_back(std::move(bit));
      out_.bits.covers.push_back(&cover);
    }
    out_.bits.hot = s.bits.size();
    if (inquiry_.job.state.hot || inquiry_.job.state.running) s.bits_on.push_back(s.bits.size());
    s.bits.push_back({warm_up_minutes, cool_down_minutes, {}});
    for (const Gate& gate : engine_.knowledge.gates) {
      const Check* proof = find_id(engine_.knowledge.checks, gate.prove);
      if (proof == nullptr) continue;
      if (is_open(engine_, gate, inquiry_.job)) s.bits_on.push_back(s.bits.size());
      out_.bits.gates.emplace_back(&gate, s.bits.size());
      const double minutes = proof->minutes.set_up + proof->minutes.each * engine_.family.cylinders;
      s.bits.push_back({minutes, 0, {}});
    }
  }

  // Covers asked off (bits on); a running engine has every cover on, and what is turned or run asks
  // for its gates.
  plan::Work work_of(Running running, const std::vector<std::string>& covers,
                     double minutes) const {
    plan::Work work;
    work.cost = minutes;
    for (std::size_t i = 0; i < out_.bits.covers.size(); ++i) {
      if (has_id(covers, out_.bits.covers[i]->id)) work.on.push_back(i);
      if (running == Running::running) work.off.push_back(i);
    }
    if (running == Running::running) {
      work.off.erase(std::remove_if(work.off.begin(), work.off.end(),
                                    [&](std::size_t i) {
                                      return std::find(work.on.begin(), work.on.end(), i) !=
                                             work.on.end();
                                    }),
                     work.off.end());
    }
    for (const auto& [gate, bit] : out_.bits.gates)
      if (guards(*gate, running)) work.on.push_back(bit);
    return work;
  }

  plan::Access access_of(const std::vector<std::string>& tools) const {
    const bool all = std::all_of(tools.begin(), tools.end(),
                                 [&](const std::string& tool) { return has_id(tools_, tool); });
    return all ? plan::Access::open : plan::Access::out_of_reach;
  }

  void add_corrections() {
    for (const Correction& correction : engine_.knowledge.corrections) {
      std::map<std::vector<int>, std::vector<plan::Mend>> jobs;
      for (std::size_t i = 0; i < suspects_.size(); ++i) {
        const std::size_t cause = suspects_[i].cause;
        if (cause >= inquiry_.built.causes.size()) continue;
        for (const Mend& mend : correction.mends) {
          if (mend.cause != inquiry_.built.causes[cause]->id) continue;
          std::vector<int> cylinders;
          if (correction.scope == Scope::cylinder)
            cylinders = suspects_[i].cylinder == 0 ? all_cylinders()
                                                   : std::vector<int>{suspects_[i].cylinder};
          jobs[cylinders].push_back({i, mend.cure});
        }
      }
      for (auto& [cylinders, mends] : jobs)
        add(correction, cylinders, std::move(mends));
    }
  }

  void add(const Correction& correction, const std::vector<int>& cylinders,
           std::vector<plan::Mend> mends) {
    const double count = cylinders.empty() ? 1.0 : static_cast<double>(cylinders.size());
    const double minutes = correction.minutes.set_up + correction.minutes.each * count +
                           parts_minutes[correction.parts_class] * count;
    plan::Correction move;
    move.work = work_of(correction.running, correction.covers, minutes);
    move.work.access = access_of(correction.tools);
    for (const auto& [gate, bit] : out_.bits.gates)
      if (shuts(*gate, correction)) move.work.undo.push_back(bit);
    move.mends = std::move(mends);
    move.order = correction.order;
    out_.situation.corrections.push_back(std::move(move));
    out_.corrections.push_back({&correction, cylinders});
  }

  // Mending can leave sets that nothing suggested; they show what their parent's variants show.
  void add_sets() {
    std::vector<plan::CauseSet> known;
    for (const Active& set : sets_)
      known.push_back(set.suspects);
    for (const plan::CauseSet& left : plan::sets_left_by(out_.situation.corrections, known)) {
      Active added{left, 0, {}};
      std::sort(added.suspects.begin(), added.suspects.end());
      Variant variant{1, {}};
      for (const std::size_t suspect : added.suspects)
        variant.present.push_back(graded(suspect));
      added.variants.push_back(std::move(variant));
      sets_.push_back(std::move(added));
    }
    for (const Active& set : sets_)
      out_.situation.hypotheses.push_back({set.suspects, set.weight});
  }

  // The grade in which a suspect weighs most among the variants.
  infer::Graded graded(std::size_t suspect) const {
    std::map<std::size_t, double> weight;
    for (const Active& set : sets_)
      for (const Variant& variant : set.variants)
        for (const infer::Graded& g : variant.present)
          if (Suspect{g.cause, g.cylinder} == suspects_[suspect]) weight[g.grade] += variant.weight;
    const auto most =
        std::max_element(weight.begin(), weight.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    return {suspects_[suspect].cause, suspects_[suspect].cylinder,
            most == weight.end() ? 1 : most->first};
  }

  std::vector<int> all_cylinders() const {
    std::vector<int> out;
    for (int c = 1; c <= engine_.family.cylinders; ++c)
      out.push_back(c);
    return out;
  }

  bool is_answered(const std::string& symptom, int cylinder) const {
    for (std::size_t i = 0; i < inquiry_.job.observations.size(); ++i)
      if (inquiry_.standing.observations[i] && inquiry_.job.observations[i].symptom == symptom &&
          inquiry_.job.observations[i].cylinder == cylinder)
        return true;
    return false;
  }

  bool is_read(const std::string& quantity, int cylinder) const {
    for (std::size_t i = 0; i < inquiry_.job.readings.size(); ++i)
      if (inquiry_.standing.readings[i] && inquiry_.job.readings[i].quantity == quantity &&
          inquiry_.job.readings[i].cylinder == cylinder)
        return true;
    return false;
  }

  bool will_not_run() const {
    for (std::size_t i = 0; i < inquiry_.job.observations.size(); ++i) {
      const Observation& seen = inquiry_.job.observations[i];
      if (inquiry_.standing.observations[i] && seen.present &&
          get_id(engine_.knowledge.symptoms, seen.symptom).will_not_run)
        return true;
    }
    return false;
  }

  // Cylinders of the heaviest suspects, for a look at one of them alone.
  std::vector<int> suspected_cylinders() const {
    std::vector<int> out;
    for (const Active& set : sets_)
      for (const std::size_t suspect : set.suspects) {
        const int cylinder = suspects_[suspect].cylinder;
        if (cylinder != 0 && out.size() < most_single_cylinders &&
            std::find(out.begin(), out.end(), cylinder) == out.end())
          out.push_back(cylinder);
      }
    return out;
  }

  void add(const Check& check) {
    std::vector<std::size_t> engine_symptoms;
    for (const std::string& id : check.answers) {
      const std::size_t symptom = inquiry_.built.symptom_index.find(id)->second;
      if (inquiry_.built.symptoms[symptom]->scope == Scope::cylinder) {
        add_by_cylinder(
            check, [&](int c) { return is_answered(id, c); },
            [&](const std::vector<int>& cylinders) {
              return rows_of_look(inquiry_, sets_, symptom, cylinders);
            });
      } else if (!is_answered(id, 0)) {
        engine_symptoms.push_back(symptom);
      }
    }
    if (!engine_symptoms.empty()) put(check, {}, rows_of_look(inquiry_, sets_, engine_symptoms));
    for (const std::string& id : check.reads) {
      const std::size_t quantity = inquiry_.built.quantity_index.find(id)->second;
      if (inquiry_.built.quantities[quantity]->is_coarse()) {
        add_coarse(check, *inquiry_.built.quantities[quantity]);
      } else if (inquiry_.built.quantities[quantity]->scope == Scope::cylinder) {
        add_by_cylinder(
            check, [&](int c) { return is_read(id, c); },
            [&](const std::vector<int>& cylinders) {
              return rows_of_reading(inquiry_, sets_, quantity, cylinders);
            });
      } else if (!is_read(id, 0)) {
        put(check, {}, rows_of_reading(inquiry_, sets_, quantity, {0}));
      }
    }
  }

  // Held against the others, so it is read on every cylinder or not at all.
  void add_coarse(const Check& check, const Quantity& quantity) {
    const std::vector<int> all =
        quantity.scope == Scope::cylinder ? all_cylinders() : std::vector<int>{0};
    const bool is_known =
        std::all_of(all.begin(), all.end(), [&](int c) { return is_read(quantity.id, c); });
    if (is_known || (all.size() == 1 && quantity.scope == Scope::cylinder)) return;
    for (const Showing& showing : quantity.shows)
      put(check, quantity.scope == Scope::cylinder ? all : std::vector<int>{},
          rows_of_look(inquiry_, sets_, inquiry_.built.symptom_index.find(showing.symptom)->second,
                       all));
  }

  template <class Known, class MakeRows>
  void add_by_cylinder(const Check& check, const Known& known, const MakeRows& make) {
    std::vector<int> left = all_cylinders();
    std::erase_if(left, known);
    if (left.empty()) return;
    put(check, left, make(left));
    if (left.size() == 1) return;
    for (const int cylinder : suspected_cylinders())
      if (std::find(left.begin(), left.end(), cylinder) != left.end())
        put(check, {cylinder}, make({cylinder}));
  }

  void put(const Check& check, std::vector<int> cylinders, Rows rows) {
    const double count = cylinders.empty() ? 1.0 : static_cast<double>(cylinders.size());
    plan::Check move;
    move.work =
        work_of(check.running, check.covers, check.minutes.set_up + check.minutes.each * count);
    if (check.hot) move.work.on.push_back(out_.bits.hot);
    if (check.cold) move.work.off.push_back(out_.bits.hot);
    const bool is_shut = has_id(skipped_, check.id) ||
                         (check.running == Running::running && will_not_run()) ||
                         (check.asks_history && inquiry_.job.history);
    move.work.access = is_shut ? plan::Access::out_of_reach : access_of(check.tools);
    move.rest = std::move(rows.back());
    rows.pop_back();
    move.likelihood = std::move(rows);
    out_.situation.checks.push_back(std::move(move));
    out_.checks.push_back({&check, std::move(cylinders)});
  }

  void add_run(const std::vector<Observation>& complaints) {
    plan::Situation& s = out_.situation;
    // Without a complaint there is nothing to run it for: measuring again is the proof.
    s.run = work_of(complaints.empty() ? Running::stopped : Running::running, {}, run_minutes);
    const bool cold_complaint =
        std::any_of(complaints.begin(), complaints.end(), [&](const Observation& complaint) {
          return get_id(engine_.knowledge.symptoms, complaint.symptom).only_cold;
        });
    if (cold_complaint) s.run.off.push_back(out_.bits.hot);
    s.hand_over_cost = hand_over_minutes;
    s.proved = inquiry_.is_cured;
  }

  const Engine& engine_;
  const Inquiry& inquiry_;
  std::vector<Active> sets_;
  const std::vector<Suspect>& suspects_;
  const std::vector<std::string>& skipped_;
  const std::vector<std::string>& tools_;
  MoveList out_;
};

}  // namespace

MoveList list_moves(const Engine& engine, const Inquiry& inquiry, const Hypotheses& hypotheses,
                    const std::vector<Observation>& complaints,
                    const std::vector<std::string>& skipped,
                    const std::vector<std::string>& tools) {
  return Lister{engine, inquiry, hypotheses, complaints, skipped, tools}.take();
}

}  // namespace soot
