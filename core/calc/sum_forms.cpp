#include "core/calc/sum.hpp"
#include "core/calc/sums/forms.hpp"

namespace soot::calc {

const std::vector<SumForm>& sum_forms() {
  static const std::vector<SumForm> forms{
      lifter_form(),       order_form(),  spill_form(),      advance_form(),     turned_form(),
      tooth_form(),        lash_form(),   flank_form(),      mark_form(),        top_centre_form(),
      two_stops_form(),    rim_form(),    arc_form(),        drop_form(),        plunger_form(),
      timing_shim_form(),  button_form(), shim_form(),       rack_form(),        delivery_form(),
      displacement_form(), leak_form(),   line_delay_form(), nozzle_shim_form(), holes_form(),
      compression_form(),  spread_form(), ignition_form(),   smoke_form(),       units_form()};
  return forms;
}

}  // namespace soot::calc
