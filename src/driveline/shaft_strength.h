#pragma once

#include "driveline/shaft_tube.h"

namespace rig::driveline {

/// Carbon steel. [Shigley] Table A-5: 11.5 Mpsi.
inline constexpr double kSteelShear_Pa = 79.3e9;

struct TubeTorsion {
  double stress_Pa = 0;        ///< Shear at the outside, without sign.
  double shear_yield_Pa = 0;   ///< S_y / sqrt(3).
  double torque_limit_Nm = 0;  ///< At which the outside starts to yield.
  double utilisation = 0;      ///< Torque over that limit.
  double stiffness_Nm_per_rad = 0;
  double wind_up_rad = 0;  ///< From end to end, in the sense of the torque.
};

/// A tube under torque.
///
/// Steady torque on the plain tube: no weld, no fatigue, no buckling of a thin wall.
/// @param torque_Nm  Of either sign.
/// @param yield_Pa   Tensile yield S_y, > 0.
/// @param length_m   Of the tube alone, > 0.
/// @errors  driveline.size_not_positive, driveline.wall_too_thick, driveline.torque_unknown.
/// @source  [Shigley] Eqs. 3-37 and 5-21 (distortion energy), from memory: tau = T r / J.
Result<TubeTorsion> calc_tube_torsion(const ShaftTube& tube, double length_m, double torque_Nm,
                                      double yield_Pa, double shear_modulus_Pa = kSteelShear_Pa);

/// The part of a spline that is in mesh.
struct SplineMesh {
  double diameter_m = kNaN;  ///< At the pitch line; the bar's at the root is on the safe side.
  double engaged_m = kNaN;   ///< Length of the teeth in each other.
};

struct SplineShear {
  double stress_Pa = 0;       ///< In the teeth at the pitch line, without sign.
  double shear_yield_Pa = 0;  ///< S_y / sqrt(3).
  double torque_limit_Nm = 0;
  double utilisation = 0;
};

/// The teeth of a spline under torque, half of which carry; half of the pitch line is tooth.
///
/// Steady torque: no wear of sliding flanks, no fatigue, no misalignment.
/// @param torque_Nm  Of either sign.
/// @param yield_Pa   Tensile yield of the softer part, > 0.
/// @errors  driveline.size_not_positive, driveline.torque_unknown.
/// @source  Machinery's Handbook, Involute Splines, shear stress in teeth
///          4 T / (D N L t) with N teeth of t = pi D / (2 N), from memory: tau = 8 T / (pi D^2 L).
Result<SplineShear> calc_spline_shear(const SplineMesh& mesh, double torque_Nm, double yield_Pa);

/// What turns a propeller shaft, and what the tyres let it turn.
struct DriveTorque {
  double engine_Nm = kNaN;       ///< Greatest, with what a torque converter adds.
  double ratio_to_shaft = kNaN;  ///< Of all gears between engine and shaft, in the lowest.
  double efficiency = 1;         ///< Of those gears.
  double friction = kNaN;        ///< Of the tyres on the ground.
  double axle_load_N = kNaN;     ///< Under both wheels, as it stands when pulling hardest.
  double tyre_radius_m = kNaN;   ///< Loaded.
  double axle_ratio = kNaN;      ///< Shaft turns per wheel turn.
};

enum class TorqueLimit { kEngine, kGrip };

struct ShaftTorque {
  double engine_Nm = 0;  ///< All that the engine can put on this one shaft.
  double grip_Nm = 0;    ///< At which the axle's tyres spin.
  TorqueLimit decides = TorqueLimit::kGrip;
  double torque_Nm = 0;  ///< The smaller of both.
};

/// Greatest torque of a shaft: engine torque x ratio x efficiency, or friction x axle load x tyre
/// radius / axle ratio, whichever is less.
///
/// Steady pull: no shock of a wheel that lands turning. All of the engine's torque may reach one
/// shaft (a locked centre with the other axle in the air).
/// @param drive  Each > 0, efficiency at most 1.
/// @errors  driveline.size_not_positive, driveline.efficiency_above_one.
Result<ShaftTorque> calc_shaft_torque(const DriveTorque& drive);

/// Share of a joint's rated torque that it carries.
/// @param torque_Nm   Of either sign.
/// @param rating_Nm   As the joint's maker gives it, for the same kind of load, > 0.
/// @errors  driveline.size_not_positive.
Result<double> calc_joint_utilisation(double torque_Nm, double rating_Nm);

}  // namespace rig::driveline
