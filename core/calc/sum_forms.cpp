#include "core/calc/sum.hpp"
#include "core/calc/sums/forms.hpp"

namespace soot::calc {

const std::vector<SumForm>& sum_forms() {
  static const std::vector<SumForm> forms{
      lifter_form(), order_form(),      spill_form(),      advance_form(),     tooth_form(),
      lash_form(),   mark_form(),       top_centre_form(), two_stops_form(),   plunger_form(),
      rack_form(),   rim_form(),        arc_form(),        timing_shim_form(), button_form(),
      shim_form(),   nozzle_shim_form()};
  return forms;
}

}  // namespace soot::calc
