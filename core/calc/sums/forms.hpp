// One form a sum, each in a file of its own; core/calc/sum.hpp's table lists them.
#pragma once

#include "core/calc/sum.hpp"

namespace soot::calc {

SumForm lifter_form();       ///< depth to degrees, turns and flats
SumForm order_form();        ///< setting order with crank angles
SumForm spill_form();        ///< spill angle to lifter height and flats
SumForm advance_form();      ///< "to be a degree earlier I turn ..."
SumForm tooth_form();        ///< what a tooth out looks like
SumForm lash_form();         ///< what the lash looks like
SumForm mark_form();         ///< what a wrong mark looks like
SumForm top_centre_form();   ///< top centre from two marks on the rim
SumForm two_stops_form();    ///< top centre from two readings of a degree wheel
SumForm plunger_form();      ///< shortfall to degrees
SumForm rack_form();         ///< teeth of the rack to mm and to delivery
SumForm rim_form();          ///< an angle on the rim and at the piston
SumForm arc_form();          ///< an arc of the rim in degrees
SumForm timing_shim_form();  ///< degrees to thickness of shim or button
SumForm button_form();       ///< button for another pump
SumForm shim_form();         ///< shim from a depth
SumForm nozzle_shim_form();  ///< opening pressure to shims

}  // namespace soot::calc
