#include "core/calc/flank.hpp"

namespace soot::calc {
namespace {

std::optional<double> closing_angle_deg(const Family& family, const LiftLaw& law) {
  if (const auto before_top_deg = family.nominal("static-timing")) return -*before_top_deg;
  if (const auto lift_mm = family.nominal("pre-stroke")) return law.angle_deg(*lift_mm);
  return std::nullopt;
}

}  // namespace

Result<Flank> Flank::of(const Family& family, const LiftLaw* law) {
  if (!law) {
    const auto rate = family.nominal("lift-rate");
    if (!rate || !(*rate > 0))
      return fail(Kind::data, "family {} gives no lift law (expected one, or a figure lift-rate)",
                  family.id);
    return straight(*rate);
  }
  const auto closing_deg = closing_angle_deg(family, *law);
  if (!closing_deg)
    return fail(Kind::data,
                "family {} does not say when its ports close (expected a figure static-timing)",
                family.id);
  Flank flank;
  flank.law_ = law;
  flank.closing_deg_ = *closing_deg;
  flank.closing_lift_mm_ = law->lift_mm(*closing_deg);
  flank.rate_at_closing_ = law->rate_mm_per_deg(*closing_deg);
  if (!(flank.rate_at_closing_ > 0))
    return fail(Kind::data,
                "the lift law of family {} stands still {} deg before top, where the port closes "
                "(expected its rising flank there)",
                family.id, -*closing_deg);
  return flank;
}

Flank Flank::straight(double rate_mm_per_deg) {
  Flank flank;
  flank.rate_at_closing_ = rate_mm_per_deg;
  return flank;
}

std::optional<double> Flank::late_for_low_deg(double low_mm) const {
  if (!law_) return low_mm / rate_at_closing_;
  const auto angle_deg = law_->angle_deg(closing_lift_mm_ + low_mm);
  if (!angle_deg) return std::nullopt;
  return *angle_deg - closing_deg_;
}

double Flank::low_for_late_mm(double late_deg) const {
  if (!law_) return late_deg * rate_at_closing_;
  return law_->lift_mm(closing_deg_ + late_deg) - closing_lift_mm_;
}

double Flank::depth_shift_mm(double late_deg) const {
  if (!law_) return late_deg * rate_at_closing_;
  return law_->lift_mm(0) - law_->lift_mm(-late_deg);
}

std::optional<double> Flank::late_for_depth_shift_deg(double shift_mm) const {
  if (!law_) return shift_mm / rate_at_closing_;
  const auto angle_deg = law_->angle_deg(law_->lift_mm(0) - shift_mm);
  if (!angle_deg) return std::nullopt;
  return -*angle_deg;
}

double Flank::rate_at_top() const {
  return law_ ? law_->rate_mm_per_deg(0) : rate_at_closing_;
}

}  // namespace soot::calc
