#pragma once

/// One Cardan joint (cross, universal joint) between two shafts: closed forms.
namespace rig::driveline {

/// What a Cardan joint, or a line of joints that turns as one, makes of a steady input speed. The
/// same driven from either end.
struct JointMotion {
  double angle_rad = 0;       ///< Between the shafts, b.
  double greatest_ratio = 1;  ///< Output speed over input speed, 1 / cos b, twice a turn.
  double least_ratio = 1;     ///< cos b, twice a turn.
  /// The output's greatest angular acceleration over the input speed squared: about b^2.
  double acceleration_per_speed2 = 0;
  double greatest_error_rad = 0;  ///< By which the output leads or lags.

  /// Degree of non-uniformity, (greatest - least speed) / mean speed = tan b sin b.
  double nonuniformity() const { return greatest_ratio - least_ratio; }
  /// Greatest angular acceleration of the output at a mean speed.
  double acceleration_rad_per_s2(double speed_rad_per_s) const {
    return acceleration_per_speed2 * speed_rad_per_s * speed_rad_per_s;
  }
};

/// @param angle_rad  0 <= b < pi/2.
/// @accuracy  Rounding only; the acceleration is that of the exact motion, not the small-angle b^2.
/// @source    [Khurmi] ch. 9; [ShigleyUicker]. The turn at which the acceleration is greatest
///            follows from d/dphi = 0.
JointMotion calc_joint_motion(double angle_rad);

/// The same from tan^2(b / 2) in [0, 1), which keeps the digits of small angles.
JointMotion calc_joint_motion_from_half_tangent(double half_tangent_squared);

/// Output angle of a joint, with as many whole turns as the input has.
///
/// Both angles are counted from where the input shaft's yoke lies in the plane of the two shafts.
/// @param angle_rad  0 <= b < pi/2.
/// @source [Khurmi] ch. 9: tan(output) = tan(input) / cos b.
double calc_output_turn_rad(double angle_rad, double input_turn_rad);

/// Output speed over input speed, cos b / (1 - sin^2 b cos^2 phi); phi counted as above.
/// @source [Khurmi] ch. 9; [ShigleyUicker].
double calc_speed_ratio(double angle_rad, double input_turn_rad);

/// Angular acceleration of the output at a steady input speed, over that speed squared:
/// - cos b sin^2 b sin 2 phi / (1 - sin^2 b cos^2 phi)^2; phi counted as above.
/// @source [Khurmi] ch. 9.
double calc_acceleration_per_speed2(double angle_rad, double input_turn_rad);

/// Joint angle at which the output's greatest acceleration is just the limit.
/// @param limit_rad_per_s2  > 0.
/// @param speed_rad_per_s   Of the shaft, > 0.
/// @accuracy  Rounding; up to 1 % under the small-angle sqrt(limit) / speed at 14 degrees.
double solve_joint_angle_rad(double limit_rad_per_s2, double speed_rad_per_s);

/// Joint angle of a degree of non-uniformity U = tan b sin b >= 0.
double calc_joint_angle_from_nonuniformity_rad(double nonuniformity);

/// Greatest bending couples that a joint's angle puts into its shafts, each twice a turn.
struct SecondaryCouples {
  double driving_Nm = 0;  ///< T tan b, on the driving shaft.
  double driven_Nm = 0;   ///< T sin b up to 45 degrees, T / (2 cos b) above; on the driven shaft.
};

/// @param torque_Nm  T of the driving shaft, of either sign.
/// @return  Both without sign.
/// @source Statics of the cross; up to 45 degrees [ShigleyUicker] (from memory).
SecondaryCouples calc_secondary_couples(double angle_rad, double torque_Nm);

/// Angle between two lines, one level and straight ahead, of the other's slopes in the top and the
/// side view: tan^2 b = tan^2 plan + tan^2 side.
double calc_compound_angle_rad(double plan_rad, double side_rad);

}  // namespace rig::driveline
