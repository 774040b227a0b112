#include "check/printer.h"

#include <fmt/format.h>

#include <cmath>

#include "units/factors.h"

namespace rig::check {

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

std::string Printer::length_up(double si) const {
  const double step_m = length_step_m();
  return length(std::copysign(std::ceil(std::abs(si) / step_m - 1e-6) * step_m, si));
}

double Printer::length_step_m() const {
  return choices_.metric ? 0.001 : units::kInch_m / choices_.fraction_of_inch;
}

}  // namespace rig::check
