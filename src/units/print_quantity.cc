#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "units/quantity.h"
#include "units/unit_table_internal.h"

namespace rig::units {
namespace {

/// Past this, in the printed unit, digits are cut to six significant ones and an exponent is used.
constexpr double kLargestPlain = 1e9;

/// Without trailing zeros after a decimal point.
std::string trim_zeros(std::string digits) {
  if (digits.find('.') == std::string::npos) return digits;
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.back() == '.') digits.pop_back();
  return digits;
}

/// Two significant digits; an exponent below a millionth, where zeros can't be counted any more.
std::string print_small(double value) {
  const int leading = static_cast<int>(std::floor(std::log10(std::abs(value))));
  if (leading < -6) return fmt::format("{:.1e}", value);
  return trim_zeros(fmt::format("{:.{}f}", value, std::max(1 - leading, 0)));
}

std::string print_decimal(double value, int decimals) {
  if (std::abs(value) >= kLargestPlain) return fmt::format("{:.5e}", value);
  std::string digits = fmt::format("{:.{}f}", value, decimals);
  if (digits.find_first_of("123456789") == std::string::npos) {
    return value == 0 ? "0" : print_small(value);
  }
  return trim_zeros(std::move(digits));
}

/// Three significant digits at least, whole numbers from 100 up.
int general_decimals(double value) {
  const double size = std::abs(value);
  if (size >= 100) return 0;
  if (size >= 10) return 1;
  return size >= 1 ? 2 : 3;
}

std::string print_inches(double inches, int denominator) {
  if (std::abs(inches) >= kLargestPlain) return print_decimal(inches, 0);
  const long long parts = std::llround(std::abs(inches) * denominator);
  if (parts == 0) return inches == 0 ? "0" : print_small(inches);
  const std::string sign = inches < 0 ? "-" : "";
  const long long whole = parts / denominator;
  const long long over = parts % denominator;
  if (over == 0) return fmt::format("{}{}", sign, whole);
  const long long common = std::gcd(over, static_cast<long long>(denominator));
  const std::string fraction = fmt::format("{}/{}", over / common, denominator / common);
  return whole == 0 ? sign + fraction : fmt::format("{}{} {}", sign, whole, fraction);
}

}  // namespace

std::string_view unit_name(Dimension dimension, const UnitChoices& choices) {
  switch (dimension) {
    case Dimension::kLength:
      return choices.metric ? "mm" : "in";
    case Dimension::kMass:
      return choices.metric ? "kg" : "lb";
    case Dimension::kForce:
      return choices.metric ? "N" : "lbf";
    case Dimension::kAngle:
      return "deg";
    case Dimension::kStiffness:
      return choices.metric ? "N/mm" : "lbf/in";
    case Dimension::kDamping:
      return choices.metric ? "N·s/m" : "lbf·s/in";
    case Dimension::kTorque:
      return choices.metric ? "N·m" : "lb-ft";
    case Dimension::kAngularStiffness:
      return choices.metric ? "N·m/deg" : "lb-ft/deg";
    case Dimension::kVolume:
      return choices.metric ? "L" : "gal";
    case Dimension::kDensity:
      return choices.metric ? "kg/L" : "lb/gal";
    case Dimension::kPressure:
      return choices.metric ? "kPa" : "psi";
    case Dimension::kStress:
      return choices.metric ? "MPa" : "ksi";
    case Dimension::kSpeed:
      return choices.metric ? "km/h" : "mph";
    case Dimension::kAngularSpeed:
      return "rpm";
    case Dimension::kGearRatio:
      return ":1";
    case Dimension::kRatio:
      return "%";
  }
  return {};
}

double per_si(Dimension dimension, const UnitChoices& choices) {
  const std::string_view name = unit_name(dimension, choices);
  const auto units = internal::all_units();
  const auto unit = std::find_if(units.begin(), units.end(), [&](const internal::Unit& u) {
    return u.name == name && u.dimension == dimension;
  });
  RIG_REQUIRE(unit != units.end());
  return 1.0 / unit->si;
}

std::string print_quantity(double si, Dimension dimension, const UnitChoices& choices) {
  RIG_REQUIRE(choices.fraction_of_inch >= 1 && choices.fraction_of_inch <= 1024);
  if (std::isnan(si)) return "unknown";
  if (std::isinf(si)) return si > 0 ? "infinite" : "minus infinite";
  const double value = si * per_si(dimension, choices);
  std::string number;
  if (dimension == Dimension::kLength && !choices.metric) {
    number = print_inches(value, choices.fraction_of_inch);
  } else if (dimension == Dimension::kLength) {
    number = print_decimal(value, std::abs(value) >= 100 ? 0 : 1);
  } else {
    number = print_decimal(value, general_decimals(value));
  }
  if (dimension == Dimension::kGearRatio)
    return number + std::string(unit_name(dimension, choices));
  return number + " " + std::string(unit_name(dimension, choices));
}

std::string_view dimension_name(Dimension dimension) {
  switch (dimension) {
    case Dimension::kLength:
      return "a length";
    case Dimension::kMass:
      return "a mass";
    case Dimension::kForce:
      return "a force";
    case Dimension::kAngle:
      return "an angle";
    case Dimension::kStiffness:
      return "a spring rate";
    case Dimension::kDamping:
      return "a damping rate";
    case Dimension::kTorque:
      return "a torque";
    case Dimension::kAngularStiffness:
      return "a twisting stiffness";
    case Dimension::kVolume:
      return "a volume";
    case Dimension::kDensity:
      return "a density";
    case Dimension::kPressure:
      return "a pressure";
    case Dimension::kStress:
      return "a stress";
    case Dimension::kSpeed:
      return "a speed";
    case Dimension::kAngularSpeed:
      return "a speed of turning";
    case Dimension::kGearRatio:
      return "a gear ratio";
    case Dimension::kRatio:
      return "a ratio";
  }
  return {};
}

}  // namespace rig::units
