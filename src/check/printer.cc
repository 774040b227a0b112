#include "check/printer.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/nan.h"
#include "base/require.h"
#include "units/factors.h"

namespace rig::check {

namespace {

double without_noise(double si, units::Dimension dimension) {
  const double noise = dimension == units::Dimension::kLength ? kLengthNoise_m : kNoise;
  return std::abs(si) < noise ? 0 : si;
}

/// Three significant digits, whole numbers from 100 up.
std::string three_digits(double value) {
  if (value == 0) return "0";
  const int leading = static_cast<int>(std::floor(std::log10(std::abs(value))));
  return fmt::format("{:.{}f}", value, std::max(2 - leading, 0));
}

}  // namespace

std::string Printer::text(double si, units::Dimension dimension) const {
  si = without_noise(si, dimension);
  if (dimension == units::Dimension::kLength && si != 0) {
    const double value = si * units::per_si(dimension, choices_);
    const int decimals = choices_.metric ? 2 : 3;
    const double finest = choices_.metric ? 0.1 : 1.0 / choices_.fraction_of_inch;
    if (std::abs(value) < finest / 2 && std::abs(value) >= 0.5 * std::pow(10, -decimals)) {
      return fmt::format("{:.{}f} {}", value, decimals, units::unit_name(dimension, choices_));
    }
  }
  return units::print_quantity(si, dimension, choices_);
}

Number Printer::number(double si, units::Dimension dimension) const {
  si = without_noise(si, dimension);
  return {si, text(si, dimension)};
}

std::string Printer::bound(double si, units::Dimension dimension, Toward toward) const {
  const double per_si = units::per_si(dimension, choices_);
  const double value = si * per_si;
  if (!std::isfinite(value) || value == 0) return text(si, dimension);
  const double step = dimension == units::Dimension::kLength
                          ? length_step_m() * per_si
                          : std::pow(10, std::floor(std::log10(std::abs(value))) - 2);
  constexpr double kSlack = 1e-9;
  const double steps = value / step;
  const double rounded = toward == Toward::kUp     ? std::ceil(steps - kSlack)
                         : toward == Toward::kDown ? std::floor(steps + kSlack)
                                                   : std::round(steps);
  return text(rounded * step / per_si, dimension);
}

std::string Printer::plus_minus(double half_width_si, double value_si,
                                units::Dimension dimension) const {
  if (!std::isfinite(half_width_si) || !std::isfinite(value_si)) return text(kNaN, dimension);
  if (dimension == units::Dimension::kLength) return length_up(half_width_si);
  const double per_si = units::per_si(dimension, choices_);
  const double size = std::abs(value_si * per_si);
  // As the value is printed: whole numbers from 100 up, three significant digits below.
  const double step = size >= 100 ? 1 : size >= 10 ? 0.1 : size >= 1 ? 0.01 : 0.001;
  constexpr double kSlack = 1e-9;
  return text(std::ceil(half_width_si * per_si / step - kSlack) * step / per_si, dimension);
}

Number Printer::scale_reading(double force_N) const {
  if (std::abs(force_N) < kLifted_N) force_N = 0;
  return number(force_N / units::kStandardGravity_m_per_s2, units::Dimension::kMass);
}

Number Printer::plain(double value, int decimals) const {
  if (std::isnan(value)) return {};
  return {value, fmt::format("{:.{}f}", value, decimals)};
}

Number Printer::frequency(double Hz) const {
  if (std::isnan(Hz)) return {};
  return {Hz, fmt::format("{:.2f} Hz", Hz)};
}

Number Printer::angle_per_length(double rad_per_m) const {
  if (std::isnan(rad_per_m)) return {};
  const double length_m = choices_.metric ? 0.010 : units::kInch_m;
  const auto angle = text(rad_per_m * length_m, units::Dimension::kAngle);
  return {rad_per_m, angle + (choices_.metric ? " per 10 mm" : " per in")};
}

Number Printer::length_power(double si, int power) const {
  constexpr const char* kRaised[] = {"²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  RIG_REQUIRE(power >= 2 && power <= 9);
  if (!std::isfinite(si)) return {};
  const double length_m = choices_.metric ? 0.01 : units::kInch_m;
  return {si, fmt::format("{} {}{}", three_digits(si / std::pow(length_m, power)),
                          choices_.metric ? "cm" : "in", kRaised[power - 2])};
}

Number Printer::mass_per_length(double kg_per_m) const {
  if (!std::isfinite(kg_per_m)) return {};
  const double per_unit = choices_.metric ? kg_per_m : units::lb_from_kg(kg_per_m * units::kFoot_m);
  return {kg_per_m,
          fmt::format("{} {}", three_digits(per_unit), choices_.metric ? "kg/m" : "lb/ft")};
}

std::string Printer::length_up(double si) const {
  const double step_m = length_step_m();
  return length(std::copysign(std::ceil(std::abs(si) / step_m - 1e-6) * step_m, si));
}

double Printer::length_step_m() const {
  return choices_.metric ? 0.001 : units::kInch_m / choices_.fraction_of_inch;
}

}  // namespace rig::check
