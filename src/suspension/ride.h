#pragma once

#include <array>

#include "base/nan.h"

/// What springs, tyres, dampers and masses make of the ride: textbook closed forms, per wheel
/// unless said otherwise.
namespace rig::suspension {

/// Wheel rate and tyre rate in series, k_s k_t / (k_s + k_t).
/// @source [Gillespie] Eq. 5-1.
double calc_ride_rate_N_per_m(double wheel_rate_N_per_m, double tyre_rate_N_per_m);

/// Frequency of a mass on a spring, sqrt(k / m) / (2 pi).
/// @source [Gillespie] ch. 5.
double calc_frequency_Hz(double rate_N_per_m, double mass_kg);

/// The same from how far the weight presses the spring down, sqrt(g / delta) / (2 pi); for a
/// straight spring only.
/// @source [Gillespie] ch. 5.
double calc_deflection_frequency_Hz(double static_deflection_m);

/// 2 sqrt(k m): the damping at which a mass on a spring just stops swinging.
/// @source [Gillespie] ch. 5.
double calc_critical_damping_Ns_per_m(double rate_N_per_m, double mass_kg);

/// Share of critical damping; 0.2 to 0.4 is usual.
/// @source [Gillespie] ch. 5.
double calc_damping_ratio(double damping_Ns_per_m, double rate_N_per_m, double mass_kg);

/// Rear frequency over front. From 1.1 to 1.2 the rear, which meets a bump later, catches up with
/// the front and the truck comes level soon after ("flat ride").
/// @source [Gillespie] ch. 5.
double calc_flat_ride_ratio(double front_Hz, double rear_Hz);

/// A wheel, its corner of the body, and the springs above and below it.
struct QuarterCar {
  double sprung_kg = kNaN;
  double unsprung_kg = kNaN;
  double wheel_rate_N_per_m = kNaN;
  double tyre_rate_N_per_m = kNaN;
};

struct QuarterCarModes {
  double body_Hz = 0;  ///< Slow mode, exact and undamped.
  double hop_Hz = 0;   ///< Fast mode, exact and undamped.
  /// The slow mode with the axle's mass left out, the fast one with the body held.
  double body_approximate_Hz = 0;
  double hop_approximate_Hz = 0;
};

/// @param car  All four > 0.
/// @accuracy   Rounding; each approximate one is close when the body is heavy beside the axle.
/// @source     [Gillespie] Eqs. 5-3 and following.
QuarterCarModes calc_quarter_car_modes(const QuarterCar& car);

/// Steady cornering of the body on two axles' roll stiffness about its roll axis.
struct RollingBody {
  double sprung_kg = kNaN;
  double cg_above_roll_axis_m = kNaN;
  double roll_rate_Nm_per_rad = kNaN;  ///< Both axles, springs.
};

/// Roll per sideways acceleration, m d / (k - m g d), rad per m/s^2, + outward. Infinite when the
/// springs can't hold the body up.
/// @source [Barton18] Eq. 3.18.
double calc_roll_gradient(const RollingBody& body);

/// What one axle needs for its share of the load transfer.
struct RollingAxle {
  double sprung_kg = kNaN;  ///< Of the body, on this axle.
  double unsprung_kg = kNaN;
  double unsprung_height_m = kNaN;     ///< Of its mass centre.
  double roll_centre_height_m = kNaN;  ///< Above the ground.
  double track_m = kNaN;
  double roll_rate_Nm_per_rad = kNaN;  ///< Its springs.
};

/// Load moved from the inner to the outer wheel of an axle, N, by the way it takes.
struct LoadTransfer {
  double links_N = 0;     ///< Body's side force through the roll centre: m a h / T.
  double springs_N = 0;   ///< Roll moment in the springs: k phi / T.
  double unsprung_N = 0;  ///< Axle's own side force: m_u a h_u / T.
  double total_N() const { return links_N + springs_N + unsprung_N; }
};

/// Front and rear load transfer in steady cornering.
/// @param acceleration_m_per_s2  Sideways, + to the inside.
/// @source [Barton18] p. 174.
std::array<LoadTransfer, 2> calc_load_transfer(const std::array<RollingAxle, 2>& axles,
                                               double cg_above_roll_axis_m,
                                               double acceleration_m_per_s2);

}  // namespace rig::suspension
