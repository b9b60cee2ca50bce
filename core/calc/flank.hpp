// The working flank of one engine's pump cam: the one place where degrees and millimetres are
// turned into each other. Behind it stands a lift law, or, where the family gives no more than a
// lift rate, a straight line of that rate.
//
// A lifter low by e closes the port when the cam has lifted e more: late by angle(closing lift + e)
// - angle(closing lift). A drive late by d leaves the cam at -d when the crank stands at top: the
// depth there is greater by lift(0) - lift(-d). Sign as published for shims under pumps: thicker is
// later (workshop manual 1-S30: 0.05 mm, 0.5 deg; physics of the lever-less lifter, elementary).
#pragma once

#include "core/base/problem.hpp"
#include "core/calc/lift_law.hpp"
#include "core/model/family.hpp"

#include <optional>

namespace soot::calc {

/// The law must outlive the flank.
class Flank {
 public:
  /// From the law and the family's static timing (else its lift before closing); without a law from
  /// the lift rate alone. Fails if neither is known, or if the law does not lift at port closing.
  static Result<Flank> of(const Family& family, const LiftLaw* law);
  /// One rate everywhere, > 0.
  static Flank straight(double rate_mm_per_deg);

  bool is_straight() const { return law_ == nullptr; }

  /// Crank degrees late by a lifter, lobe or plunger low by so much; nothing off the flank.
  std::optional<double> late_for_low_deg(double low_mm) const;
  /// The lowness that makes so many degrees late (negative: the height that makes it early).
  double low_for_late_mm(double late_deg) const;

  /// How much greater the depth at top centre is with the drive (or the mark) late.
  double depth_shift_mm(double late_deg) const;
  /// Back from it; nothing where the cam would stand off its flank.
  std::optional<double> late_for_depth_shift_deg(double shift_mm) const;

  double rate_at_closing() const { return rate_at_closing_; }  ///< mm a crank degree
  double rate_at_top() const;                                  ///< mm a crank degree

 private:
  Flank() = default;

  const LiftLaw* law_ = nullptr;
  double closing_deg_ = 0;  ///< crank degrees from top, negative before it
  double closing_lift_mm_ = 0;
  double rate_at_closing_ = 0;
};

}  // namespace soot::calc
