#include "suspension/ride.h"

#include <cmath>
#include <numbers>

#include "base/require.h"
#include "units/factors.h"

namespace rig::suspension {
namespace {

using units::g;

double hertz(double radians_per_s) { return radians_per_s / (2 * std::numbers::pi); }

}  // namespace

double calc_ride_rate_N_per_m(double wheel_rate_N_per_m, double tyre_rate_N_per_m) {
  return wheel_rate_N_per_m * tyre_rate_N_per_m / (wheel_rate_N_per_m + tyre_rate_N_per_m);
}

double calc_frequency_Hz(double rate_N_per_m, double mass_kg) {
  return hertz(std::sqrt(rate_N_per_m / mass_kg));
}

double calc_deflection_frequency_Hz(double static_deflection_m) {
  return hertz(std::sqrt(g / static_deflection_m));
}

double calc_critical_damping_Ns_per_m(double rate_N_per_m, double mass_kg) {
  return 2 * std::sqrt(rate_N_per_m * mass_kg);
}

double calc_damping_ratio(double damping_Ns_per_m, double rate_N_per_m, double mass_kg) {
  return damping_Ns_per_m / calc_critical_damping_Ns_per_m(rate_N_per_m, mass_kg);
}

double calc_flat_ride_ratio(double front_Hz, double rear_Hz) { return rear_Hz / front_Hz; }

QuarterCarModes calc_quarter_car_modes(const QuarterCar& car) {
  RIG_REQUIRE(car.sprung_kg > 0 && car.unsprung_kg > 0);
  RIG_REQUIRE(car.wheel_rate_N_per_m > 0 && car.tyre_rate_N_per_m > 0);
  // m_s m_u w^4 - (m_s (k_s + k_t) + m_u k_s) w^2 + k_s k_t = 0; the slow root from the product, so
  // that nothing cancels.
  const double a = car.sprung_kg * car.unsprung_kg;
  const double both = car.wheel_rate_N_per_m + car.tyre_rate_N_per_m;
  const double b = car.sprung_kg * both + car.unsprung_kg * car.wheel_rate_N_per_m;
  const double c = car.wheel_rate_N_per_m * car.tyre_rate_N_per_m;
  const double fast = (b + std::sqrt(b * b - 4 * a * c)) / (2 * a);
  const double slow = c / (a * fast);
  return {.body_Hz = hertz(std::sqrt(slow)),
          .hop_Hz = hertz(std::sqrt(fast)),
          .body_approximate_Hz = calc_frequency_Hz(
              calc_ride_rate_N_per_m(car.wheel_rate_N_per_m, car.tyre_rate_N_per_m), car.sprung_kg),
          .hop_approximate_Hz = calc_frequency_Hz(both, car.unsprung_kg)};
}

double calc_roll_gradient(const RollingBody& body) {
  const double moment = body.sprung_kg * body.cg_above_roll_axis_m;
  const double left = body.roll_rate_Nm_per_rad - moment * g;
  if (left <= 0) return std::numeric_limits<double>::infinity();
  return moment / left;
}

std::array<LoadTransfer, 2> calc_load_transfer(const std::array<RollingAxle, 2>& axles,
                                               double cg_above_roll_axis_m,
                                               double acceleration_m_per_s2) {
  const RollingBody body{
      .sprung_kg = axles[0].sprung_kg + axles[1].sprung_kg,
      .cg_above_roll_axis_m = cg_above_roll_axis_m,
      .roll_rate_Nm_per_rad = axles[0].roll_rate_Nm_per_rad + axles[1].roll_rate_Nm_per_rad};
  const double roll_rad = calc_roll_gradient(body) * acceleration_m_per_s2;
  std::array<LoadTransfer, 2> transfer;
  for (std::size_t i = 0; i < 2; ++i) {
    const RollingAxle& axle = axles[i];
    RIG_REQUIRE(axle.track_m > 0);
    transfer[i] = {.links_N = axle.sprung_kg * acceleration_m_per_s2 * axle.roll_centre_height_m /
                              axle.track_m,
                   .springs_N = axle.roll_rate_Nm_per_rad * roll_rad / axle.track_m,
                   .unsprung_N = axle.unsprung_kg * acceleration_m_per_s2 * axle.unsprung_height_m /
                                 axle.track_m};
  }
  return transfer;
}

}  // namespace rig::suspension
