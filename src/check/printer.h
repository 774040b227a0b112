#pragma once

#include <cmath>
#include <limits>
#include <string>

#include "build/types.h"
#include "units/quantity.h"

namespace rig::check {

/// A value in SI with its ready text in the build's units. NaN reads "unknown".
struct Number {
  double si = std::numeric_limits<double>::quiet_NaN();
  std::string text = "unknown";
};

/// Below this a computed value (m, rad, N, kg, 1 ...) is rounding.
inline constexpr double kNoise = 1e-9;

/// Prints values in the units that a build is answered in.
class Printer {
 public:
  explicit Printer(const build::Units& units)
      : choices_{.metric = units.metric, .fraction_of_inch = units.fraction_of_inch} {}

  const units::UnitChoices& choices() const { return choices_; }

  /// What a solver leaves of a zero prints as zero.
  std::string text(double si, units::Dimension dimension) const {
    return units::print_quantity(std::abs(si) < kNoise ? 0 : si, dimension, choices_);
  }
  /// Length and mass are asked for most.
  std::string length(double si) const { return text(si, units::Dimension::kLength); }
  std::string mass(double si) const { return text(si, units::Dimension::kMass); }
  std::string force(double si) const { return text(si, units::Dimension::kForce); }
  std::string angle(double si) const { return text(si, units::Dimension::kAngle); }
  std::string percent(double si) const { return text(si, units::Dimension::kRatio); }

  Number number(double si, units::Dimension dimension) const { return {si, text(si, dimension)}; }
  Number frequency(double Hz) const;
  /// A number without a unit and without a percent sign, such as a stability factor.
  Number plain(double value, int decimals) const;
  /// Angle per length, rad/m, told per inch or per 10 mm.
  Number angle_per_length(double rad_per_m) const;

  /// Rounded up to the step: how much to move, cut or add at least.
  std::string length_up(double si) const;

  /// The step that lengths are rounded to in advice: the finest fraction, or a millimetre.
  double length_step_m() const;

 private:
  units::UnitChoices choices_;
};

}  // namespace rig::check
