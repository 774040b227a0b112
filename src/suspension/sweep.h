#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/nan.h"
#include "base/result.h"
#include "suspension/model.h"

namespace rig::suspension {

/// The whole truck's numbers that turn slopes into percentages; NaN where unknown.
struct TruckNumbers {
  double wheelbase_m = kNaN;
  double cg_height_m = kNaN;
  double brake_share = kNaN;  ///< Of this axle, of all braking.
  double drive_share = kNaN;  ///< Of this axle, of all driving.
};

/// What is told about one pose; definitions as in docs/definitions. NaN where something is missing.
struct PoseNumbers {
  double heave_m = 0;
  double roll_rad = 0;
  double heading_rad = 0;      ///< Of the wheel line, + axle points left.
  double tilt_rad = 0;         ///< Of the wheel line, + left wheel up.
  double lateral_shift_m = 0;  ///< y of C.
  double forward_shift_m = 0;  ///< x of C minus drawn: + forward.
  double nose_up_rad = 0;      ///< Housing nose (front: caster) change from drawn, + up / rearward.
  double roll_centre_height_m = 0;  ///< Above the ground.
  double roll_axis_slope = 0;       ///< dz/dx of the roll axis, + rising forward.
  double roll_steer = 0;
  double contact_slope = 0;  ///< Forward travel of the contact point per heave.
  double pitch_per_heave_rad_per_m = 0;
  std::optional<double> instant_centre_ahead_m;   ///< Of C; absent when at infinity.
  std::optional<double> instant_centre_height_m;  ///< Above the ground.
  double anti_drive = 0;          ///< Ratio: anti-squat (rear) or anti-lift (front) when driving.
  double anti_brake = 0;          ///< Ratio: anti-lift (rear) or anti-dive (front) when braking.
  double wheel_rate_N_per_m = 0;  ///< Per wheel, in heave; with load and change of motion ratio.
  double roll_rate_Nm_per_rad = 0;
  double wheel_load_N = 0;  ///< Per wheel, that the springs make at this pose (mean of both).
  /// What the layout fights itself with, springs apart: greatest force in a link or
  /// at an arm's apex, and the roll moment and
  /// heave force it takes to hold the axle there.
  double bind_N = 0;
  double bind_roll_Nm = 0;
  double bind_heave_N = 0;
};

struct SweptPose {
  Vec6 q = Vec6::Zero();
  Mat3 R_VA = Mat3::Identity();
  PoseNumbers numbers;
  /// Tension +, with the springs' load; order of `bars`. NaN, like the loads and rates above, where
  /// nothing carries the axle, or past a coil's solid length or a shock's end.
  std::vector<double> bar_forces_N;
  std::vector<double> bar_swing_frame_rad;  ///< Angle of each joint away from drawn.
  std::vector<double> bar_swing_axle_rad;
  std::vector<double> coil_lengths_m, coil_motion_ratios;
  std::vector<double> shock_lengths_m, shock_motion_ratios;
  std::vector<double> stop_compressions_m;
};

/// Why a sweep stopped short.
struct Lock {
  double heave_m = 0;  ///< Furthest place reached.
  double roll_rad = 0;
  bool flips = false;   ///< The linkage passes dead centre there; else it can't go further.
  std::string message;  ///< Names the bars that do it.
  std::vector<int> bars;
};

/// A path through (heave, roll), starting as drawn.
struct Sweep {
  std::vector<SweptPose> poses;    ///< In the order asked for; those past a lock are absent.
  std::vector<std::size_t> asked;  ///< For each pose, its index in what was asked for.
  std::vector<Lock> locks;
};

struct Target {
  double heave_m = 0;
  double roll_rad = 0;
};

/// Follows the axle to each target from the drawn pose, nearest first, along the solution reached
/// continuously. Springs do not move the pose: it is where the links (and their bushes) put it.
///
/// @errors suspension.no_pose when even the drawn pose can't be solved.
Result<Sweep> sweep_axle(const AxleModel& axle, const TruckNumbers& truck,
                         std::span<const Target> targets);

/// Where an axle stands.
struct AxlePlace {
  Vec3 p_VC = Vec3::Zero();
  Mat3 R_VA = Mat3::Identity();
};

/// The same poses as `sweep_axle`, without what is told of each.
/// @return  By target; none past a lock.
/// @errors  suspension.no_pose.
Result<std::vector<std::optional<AxlePlace>>> trace_axle(const AxleModel& axle,
                                                         std::span<const Target> targets);

/// The grid of a heave range and a roll range, row by row (roll outer).
std::vector<Target> make_targets(double heave_from_m, double heave_to_m, int heave_count,
                                 double roll_from_rad, double roll_to_rad, int roll_count);

/// Targets that raise one wheel through a range while the other stays: `side` +1 left, -1 right.
std::vector<Target> make_one_wheel_targets(double track_m, double from_m, double to_m, int count,
                                           int side);

}  // namespace rig::suspension
