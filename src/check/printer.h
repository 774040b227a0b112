#pragma once

#include <cmath>
#include <string>

#include "base/nan.h"
#include "build/types.h"
#include "units/quantity.h"

namespace rig::check {

/// A value in SI with its ready text in the build's units. NaN reads "unknown".
struct Number {
  double si = kNaN;
  std::string text = "unknown";
};

/// Below this a computed value (rad, N, kg, 1 ...) is rounding.
inline constexpr double kNoise = 1e-9;
/// Below this a computed length (m) is what a solver leaves.
inline constexpr double kLengthNoise_m = 1e-6;
/// Below this a wheel is off the ground, N.
inline constexpr double kLifted_N = 1;

/// Which way the end of a range is rounded.
enum class Toward { kNearest, kUp, kDown };

/// Prints values in the units that a build is answered in.
class Printer {
 public:
  explicit Printer(const build::Units& units)
      : choices_{.metric = units.metric, .fraction_of_inch = units.fraction_of_inch} {}

  const units::UnitChoices& choices() const { return choices_; }

  /// What a solver leaves of a zero prints as zero; a length that is none but less than half of the
  /// finest fraction prints in thousandths of an inch or hundredths of a millimetre.
  std::string text(double si, units::Dimension dimension) const;
  /// Length and mass are asked for most.
  std::string length(double si) const { return text(si, units::Dimension::kLength); }
  std::string mass(double si) const { return text(si, units::Dimension::kMass); }
  std::string force(double si) const { return text(si, units::Dimension::kForce); }
  std::string angle(double si) const { return text(si, units::Dimension::kAngle); }
  std::string percent(double si) const { return text(si, units::Dimension::kRatio); }

  /// Zero where a solver left only noise.
  Number number(double si, units::Dimension dimension) const;
  /// The end of a range, to three significant digits (lengths to the finest fraction): the upper
  /// end of what is allowed goes down, the lower one up.
  std::string bound(double si, units::Dimension dimension, Toward toward) const;
  /// A half-width, rounded up to the step that its value is printed in.
  std::string plus_minus(double half_width_si, double value_si, units::Dimension dimension) const;
  /// What a scale would show under a wheel or an axle; nothing when it is lifted.
  Number scale_reading(double force_N) const;
  Number frequency(double Hz) const;
  /// A number without a unit and without a percent sign, such as a stability factor.
  Number plain(double value, int decimals) const;
  /// Angle per length, rad/m, told per inch or per 10 mm.
  Number angle_per_length(double rad_per_m) const;
  /// Of a section: a length to a power, told in inches or centimetres, to three significant digits.
  /// @param power  2 to 9.
  Number length_power(double si, int power) const;
  /// Told per foot or per metre.
  Number mass_per_length(double kg_per_m) const;

  /// Rounded up to the step: how much to move, cut or add at least.
  std::string length_up(double si) const;

  /// The step that lengths are rounded to in advice: the finest fraction, or a millimetre.
  double length_step_m() const;

 private:
  units::UnitChoices choices_;
};

}  // namespace rig::check
