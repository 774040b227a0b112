#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "driveline/shaft_line.h"

namespace rig::driveline {

/// Where a shaft starts and ends in one pose of the two parts that it joins.
struct ShaftEnds {
  Vec3 p_VIn = Vec3::Constant(kNaN);    ///< Centre of the first joint.
  Vec3 d_in_V = Vec3::Constant(kNaN);   ///< Along the driving part's shaft, towards the joints.
  Vec3 p_VOut = Vec3::Constant(kNaN);   ///< Centre of the last joint.
  Vec3 d_out_V = Vec3::Constant(kNaN);  ///< Along the driven part's shaft, away from the joints.
};

struct ShaftJoint {
  JointKind kind = JointKind::kCardan;
  std::optional<double> bind_rad;  ///< Angle at which it binds, > 0, where it is known.
};

/// A bearing on the frame that carries a tube's far end, and turns with it about its middle.
struct CentreBearing {
  Vec3 p_VB = Vec3::Constant(kNaN);
  double joint_past_m = 0;  ///< From the bearing's middle on to the tube's last joint.
};

/// The sliding spline in a tube; lengths from joint centre to joint centre.
struct Spline {
  std::size_t tube = 0;
  double closed_length_m = kNaN;  ///< Pushed together until it can go no further.
  double out_length_m = kNaN;     ///< Just pulled apart.
  double least_engagement_m = 0;  ///< That is to stay together.
};

/// A shaft between two parts that move: joints with a tube between each and the next. Each joint
/// but the first and the last hangs on a centre bearing.
struct Shaft {
  std::size_t joint_count = 2;                          ///< 2 to `kMostJoints`.
  std::array<ShaftJoint, kMostJoints> joints;           ///< From the input on.
  std::array<double, kMostTubes> phase_rad{};           ///< As in `ShaftLine`.
  std::array<CentreBearing, kMostJoints - 2> bearings;  ///< Of joints 1, 2 ...
  std::optional<Spline> spline;
};

struct ShaftPose {
  ShaftLineMotion motion;
  double torsional_rad_per_s2 = 0;  ///< Greatest acceleration of the output.
  double inertial_rad_per_s2 = 0;   ///< Greatest of any tube, driving or coasting.
  double bind_left_rad = kNaN;      ///< Least of all joints; < 0 past binding. NaN: not known.
  double in_left_m = kNaN;   ///< That the spline can still close; < 0 past closed. NaN: no spline.
  double out_left_m = kNaN;  ///< That it can still open before too little is engaged.
};

/// A number at its worst, and in which pose; NaN where no pose has it.
struct PoseExtreme {
  double value = kNaN;
  std::size_t pose = 0;
};

struct ShaftExtremes {
  std::array<PoseExtreme, kMostJoints> least_joint_angle_rad, greatest_joint_angle_rad;
  std::array<PoseExtreme, kMostTubes> shortest_m, longest_m;
  PoseExtreme greatest_line_angle_rad;
  PoseExtreme greatest_torsional_rad_per_s2, greatest_inertial_rad_per_s2;
  PoseExtreme least_bind_left_rad, least_in_left_m, least_out_left_m;
};

struct ShaftTravel {
  std::vector<ShaftPose> poses;
  ShaftExtremes extremes;
};

/// A shaft through the poses of what it joins.
///
/// Which tube slides changes its room and not the angles. A tube without the spline has to keep its
/// length: `shortest_m` and `longest_m` tell what its bearing would have to give. A joint past its
/// bind and a spline pulled apart are numbers of a normal result.
///
/// @param speed_rad_per_s  Of the shaft, >= 0, for the accelerations.
/// @errors  Of `calc_shaft_line`, under /poses/i for the first pose that has one;
///          driveline.joint_count, bind_not_positive, bearing_place, spline_range, speed_negative.
Result<ShaftTravel> calc_shaft_travel(const Shaft& shaft, std::span<const ShaftEnds> poses,
                                      double speed_rad_per_s);

/// The shaft as it stands in one pose.
ShaftLine make_shaft_line(const Shaft& shaft, const ShaftEnds& ends);

}  // namespace rig::driveline
