#pragma once

#include <string>
#include <string_view>

#include "base/result.h"

namespace rig::units {

/// What a number measures. Inside the program every value is in the SI unit named here.
enum class Dimension {
  kLength,            ///< m
  kMass,              ///< kg
  kForce,             ///< N
  kAngle,             ///< rad
  kStiffness,         ///< N/m
  kDamping,           ///< N s/m
  kTorque,            ///< N m
  kAngularStiffness,  ///< N m/rad
  kVolume,            ///< m^3
  kDensity,           ///< kg/m^3
  kPressure,          ///< Pa; of air and liquids
  kStress,            ///< Pa; of steel
  kSpeed,             ///< m/s
  kAngularSpeed,      ///< rad/s
  kGearRatio,         ///< 1, turns in for one turn out; written "4.56" or "4.56:1"
  kRatio,             ///< 1; written "0.6" or "60 %"
};

/// True of what may be written without a unit.
inline constexpr bool is_pure_number(Dimension dimension) {
  return dimension == Dimension::kRatio || dimension == Dimension::kGearRatio;
}

/// A quantity as it was read: its value in SI and the unit it was written in ("in", "ft in",
/// "lbf").
struct Reading {
  double si = 0;
  std::string unit;
};

/// The units a build is written and answered in. Lengths in inches are printed as fractions.
struct UnitChoices {
  bool metric = false;        ///< mm, kg, N/mm ... instead of in, lb, lbf/in ...
  int fraction_of_inch = 16;  ///< Finest denominator printed: 1 to 1024; 8, 16, 32 or 64.
};

/// Reads what a shop writes: `41 5/8 in`, `41-5/8"`, `3' 5-5/8"`, `320 lbf/in`, `21 gal`, `60 %`,
/// with Unicode fractions, primes and minus signs.
///
/// @param text          The quantity; surrounding white space is ignored.
/// @param dimension     What it must measure. Mass (`lb`) and force (`lbf`) are told apart.
/// @param default_unit  Unit of a bare number; empty: a bare number is an error, except for
/// ratios.
/// @return              The value, finite.
/// @errors units.empty, units.not_a_number, units.no_unit, units.unknown_unit (remedy names the
///         nearest known one), units.wrong_dimension (remedy says what was expected),
///         units.trailing_text, units.out_of_range. Paths are empty: the caller knows the place.
/// @source Factors: NIST SP 811 (2008), Appendix B; exact where that table prints them bold.
Result<Reading> parse_quantity(std::string_view text, Dimension dimension,
                               std::string_view default_unit = {});

/// The unit a dimension is printed in under these choices: "in", "lb", "lbf/in" ...
std::string_view unit_name(Dimension dimension, const UnitChoices& choices);

/// Factor such that `value_in_unit = si * per_si(...)` for the unit of `unit_name`.
double per_si(Dimension dimension, const UnitChoices& choices);

/// Prints a value with its unit for people: lengths in inches to the nearest fraction ("41 5/8
/// in"), millimetres whole or to 0.1, others to sensible significant digits. A value that is not
/// zero never prints as zero: it prints in decimals with two significant digits instead ("0.004
/// in"). NaN prints as "unknown".
std::string print_quantity(double si, Dimension dimension, const UnitChoices& choices);

/// A plain English name for an error message: "a length", "a spring rate".
std::string_view dimension_name(Dimension dimension);

}  // namespace rig::units
