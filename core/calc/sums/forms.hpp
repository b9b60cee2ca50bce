// One form a sum, each in a file of its own; core/calc/sum.hpp's table lists them.
#pragma once

#include "core/calc/sum.hpp"

namespace soot::calc {

SumForm lifter_form();        ///< depth to degrees, turns and flats
SumForm order_form();         ///< setting order with crank angles
SumForm spill_form();         ///< spill angle to lifter height and flats
SumForm advance_form();       ///< "to be a degree earlier I turn ..."
SumForm turned_form();        ///< the other way round: what so many flats do
SumForm tooth_form();         ///< what a tooth out looks like
SumForm lash_form();          ///< what the lash looks like
SumForm flank_form();         ///< which flank the gears stood on
SumForm mark_form();          ///< what a wrong mark looks like
SumForm top_centre_form();    ///< top centre from two marks on the rim
SumForm two_stops_form();     ///< top centre from two readings of a degree wheel
SumForm plunger_form();       ///< shortfall to degrees
SumForm rack_form();          ///< teeth of the rack to mm and to delivery
SumForm rim_form();           ///< an angle on the rim and at the piston
SumForm arc_form();           ///< an arc of the rim in degrees
SumForm timing_shim_form();   ///< degrees to thickness of shim or button
SumForm button_form();        ///< button for another pump
SumForm shim_form();          ///< shim from a depth
SumForm drop_form();          ///< piston below the top to degrees
SumForm delivery_form();      ///< rack and helix to fuel, and back
SumForm displacement_form();  ///< stroke for a delivery with the fuel's compression
SumForm leak_form();          ///< past a plunger
SumForm line_delay_form();    ///< wave and trapped volume to degrees
SumForm nozzle_shim_form();   ///< opening pressure to shims
SumForm holes_form();         ///< fuel to nozzle holes
SumForm compression_form();   ///< expected here and now
SumForm spread_form();        ///< cylinders against each other
SumForm ignition_form();      ///< can it light
SumForm smoke_form();         ///< opacity over a path
SumForm units_form();         ///< one measure in other units

}  // namespace soot::calc
