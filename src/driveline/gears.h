#pragma once

#include <span>

#include "base/nan.h"

/// What the gears make of the engine's speed and torque.
namespace rig::driveline {

/// One way through the gears to an axle.
struct GearPath {
  double gear = kNaN;   ///< Turns of the crank for one of the gearbox's output.
  double range = kNaN;  ///< Turns of that for one of the shafts.
  double axle = kNaN;   ///< Turns of the pinion for one of the wheels.

  double to_shaft() const { return gear * range; }
  double to_wheel() const { return gear * range * axle; }
};

/// Road speed at an engine speed, m/s; no slip.
double calc_road_speed_m_per_s(const GearPath& path, double engine_rad_per_s, double radius_m);
double calc_engine_speed_rad_per_s(const GearPath& path, double road_m_per_s, double radius_m);

/// An axle behind a differential between the axles.
struct AxleShare {
  double share = kNaN;  ///< Of the torque.
  double most = kNaN;   ///< That its tyres take before they slip: torque, force or load alike.
};

/// Most that goes through a differential between the axles: the shares stay, so the axle that slips
/// first limits both. NaN without a share.
double calc_differential_limit(std::span<const AxleShare> axles);

/// What a truck climbs with.
struct Climber {
  double wheel_torque_Nm = kNaN;  ///< Of all driven wheels together.
  double radius_m = kNaN;
  double driven_load_N = kNaN;  ///< On the driven wheels, standing level.
  double grip = kNaN;           ///< Friction coefficient.
  double mass_kg = kNaN;        ///< Of the truck.
  double towed_kg = 0;
};

struct Climb {
  double torque_grade_rad = 0;  ///< Steepest by torque.
  double grip_grade_rad = 0;    ///< Steepest by grip.
  bool by_grip() const { return grip_grade_rad < torque_grade_rad; }
  double grade_rad() const { return by_grip() ? grip_grade_rad : torque_grade_rad; }
};

/// Steepest grade it holds at a walk: forces along the slope in balance, no rolling resistance, no
/// load moving to the rear axle, loads on the wheels by the cosine of the slope. A grade of a
/// quarter turn where the torque lifts the weight outright.
/// @source Gillespie, Fundamentals of Vehicle Dynamics, ch. 2.
Climb calc_climb(const Climber& climber);

}  // namespace rig::driveline
