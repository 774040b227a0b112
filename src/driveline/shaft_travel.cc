#include "driveline/shaft_travel.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace rig::driveline {
namespace {

Diagnostics check_shaft(const Shaft& shaft, double speed_rad_per_s) {
  Diagnostics faults;
  if (shaft.joint_count < 2 || shaft.joint_count > kMostJoints) {
    faults.push_back({.code = "driveline.joint_count",
                      .path = "/joint_count",
                      .message = fmt::format("A shaft of {} joints.", shaft.joint_count),
                      .remedy = fmt::format("Give 2 to {}.", kMostJoints)});
    return faults;
  }
  for (std::size_t i = 0; i < shaft.joint_count; ++i) {
    const auto& bind_rad = shaft.joints[i].bind_rad;
    if (bind_rad && !(*bind_rad > 0)) {
      faults.push_back({.code = "driveline.bind_not_positive",
                        .path = fmt::format("/joints/{}/bind", i),
                        .message = fmt::format("A joint that binds at {} rad.", *bind_rad),
                        .remedy = "Give the angle at which its yokes touch."});
    }
  }
  for (std::size_t i = 0; i + 2 < shaft.joint_count; ++i) {
    const CentreBearing& bearing = shaft.bearings[i];
    if (bearing.p_VB.allFinite() && bearing.joint_past_m >= 0) continue;
    faults.push_back({.code = "driveline.bearing_place",
                      .path = fmt::format("/bearings/{}", i),
                      .message = "The place of this bearing is not known.",
                      .remedy = "Give its middle, and how far past it the joint is."});
  }
  if (const auto& spline = shaft.spline) {
    const double slide_m = spline->out_length_m - spline->closed_length_m;
    if (spline->tube + 1 >= shaft.joint_count || !(spline->closed_length_m > 0) ||
        !std::isfinite(slide_m) || !(spline->least_engagement_m >= 0) ||
        !(spline->least_engagement_m < slide_m)) {
      faults.push_back(
          {.code = "driveline.spline_range",
           .path = "/spline",
           .message =
               fmt::format("A spline from {} m to {} m with {} m engaged.", spline->closed_length_m,
                           spline->out_length_m, spline->least_engagement_m),
           .remedy = "Give a tube of this shaft, its length closed and, more by what is to stay "
                     "engaged and some slide, its length just apart."});
    }
  }
  if (!(speed_rad_per_s >= 0) || !std::isfinite(speed_rad_per_s)) {
    faults.push_back({.code = "driveline.speed_negative",
                      .path = "/speed",
                      .message = fmt::format("A shaft that turns at {} rad/s.", speed_rad_per_s),
                      .remedy = "Give its speed without a sign."});
  }
  return faults;
}

ShaftPose make_shaft_pose(const Shaft& shaft, const ShaftLineMotion& motion,
                          double speed_rad_per_s) {
  ShaftPose pose{.motion = motion,
                 .torsional_rad_per_s2 = motion.line.acceleration_rad_per_s2(speed_rad_per_s)};
  for (std::size_t i = 0; i + 1 < shaft.joint_count; ++i) {
    const TubeMotion& tube = motion.tubes[i];
    pose.inertial_rad_per_s2 =
        std::max({pose.inertial_rad_per_s2, tube.drive.acceleration_rad_per_s2(speed_rad_per_s),
                  tube.coast.acceleration_rad_per_s2(speed_rad_per_s)});
  }
  for (std::size_t i = 0; i < shaft.joint_count; ++i) {
    const auto& bind_rad = shaft.joints[i].bind_rad;
    if (bind_rad) {
      pose.bind_left_rad = std::fmin(pose.bind_left_rad, *bind_rad - motion.joint_angle_rad[i]);
    }
  }
  if (const auto& spline = shaft.spline) {
    const double length_m = motion.tubes[spline->tube].length_m;
    pose.in_left_m = length_m - spline->closed_length_m;
    pose.out_left_m = spline->out_length_m - spline->least_engagement_m - length_m;
  }
  return pose;
}

void keep_least(PoseExtreme& extreme, double value, std::size_t pose) {
  if (std::isnan(extreme.value) || value < extreme.value) extreme = {value, pose};
}

void keep_greatest(PoseExtreme& extreme, double value, std::size_t pose) {
  if (std::isnan(extreme.value) || value > extreme.value) extreme = {value, pose};
}

void keep_extremes(ShaftExtremes& extremes, const Shaft& shaft, const ShaftPose& pose,
                   std::size_t index) {
  const ShaftLineMotion& motion = pose.motion;
  for (std::size_t i = 0; i < shaft.joint_count; ++i) {
    keep_least(extremes.least_joint_angle_rad[i], motion.joint_angle_rad[i], index);
    keep_greatest(extremes.greatest_joint_angle_rad[i], motion.joint_angle_rad[i], index);
  }
  for (std::size_t i = 0; i + 1 < shaft.joint_count; ++i) {
    keep_least(extremes.shortest_m[i], motion.tubes[i].length_m, index);
    keep_greatest(extremes.longest_m[i], motion.tubes[i].length_m, index);
  }
  keep_greatest(extremes.greatest_line_angle_rad, motion.line.angle_rad, index);
  keep_greatest(extremes.greatest_torsional_rad_per_s2, pose.torsional_rad_per_s2, index);
  keep_greatest(extremes.greatest_inertial_rad_per_s2, pose.inertial_rad_per_s2, index);
  keep_least(extremes.least_bind_left_rad, pose.bind_left_rad, index);
  keep_least(extremes.least_in_left_m, pose.in_left_m, index);
  keep_least(extremes.least_out_left_m, pose.out_left_m, index);
}

}  // namespace

ShaftLine make_shaft_line(const Shaft& shaft, const ShaftEnds& ends) {
  RIG_REQUIRE(shaft.joint_count >= 2 && shaft.joint_count <= kMostJoints);
  ShaftLine line;
  line.joint_count = shaft.joint_count;
  line.d_in_V = ends.d_in_V;
  line.d_out_V = ends.d_out_V;
  line.phase_rad = shaft.phase_rad;
  const std::size_t last = shaft.joint_count - 1;
  for (std::size_t i = 0; i <= last; ++i) line.joints[i].kind = shaft.joints[i].kind;
  line.joints[0].p_VP = ends.p_VIn;
  for (std::size_t i = 1; i < last; ++i) {
    const CentreBearing& bearing = shaft.bearings[i - 1];
    const Vec3 to_bearing_V = bearing.p_VB - line.joints[i - 1].p_VP;
    line.joints[i].p_VP = bearing.p_VB + bearing.joint_past_m * to_bearing_V.normalized();
  }
  line.joints[last].p_VP = ends.p_VOut;
  return line;
}

Result<ShaftTravel> calc_shaft_travel(const Shaft& shaft, std::span<const ShaftEnds> poses,
                                      double speed_rad_per_s) {
  if (Diagnostics faults = check_shaft(shaft, speed_rad_per_s); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  ShaftTravel travel;
  travel.poses.reserve(poses.size());
  for (std::size_t i = 0; i < poses.size(); ++i) {
    const auto motion = calc_shaft_line(make_shaft_line(shaft, poses[i]));
    if (!motion) {
      Diagnostics faults = motion.error();
      for (Diagnostic& fault : faults) fault.path = fmt::format("/poses/{}{}", i, fault.path);
      return Failure{std::move(faults)};
    }
    travel.poses.push_back(make_shaft_pose(shaft, *motion, speed_rad_per_s));
    keep_extremes(travel.extremes, shaft, travel.poses.back(), i);
  }
  return travel;
}

}  // namespace rig::driveline
