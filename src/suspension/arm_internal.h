#pragma once

#include <array>

#include "geometry/pose.h"

namespace rig::suspension {

/// A stiff piece with three bushed joints: an apex and two feet, compliance tensors in V, m/N.
struct ArmJoints {
  Vec3 p_VApex = Vec3::Zero();
  std::array<Vec3, 2> p_VFeet{Vec3::Zero(), Vec3::Zero()};
  Mat3 apex_compliance = Mat3::Zero();
  std::array<Mat3, 2> feet_compliance{Mat3::Zero(), Mat3::Zero()};
};

/// How much the two bars that stand for the arm (apex to each foot) give per force in each, m/N, 2
/// x 2.
///
/// The arm is rigid: a force at its apex is shared by its feet as a beam shares it, square to the
/// bars too, so that an arm with its joints nearly in line is as stiff in wind-up as the distance
/// between its feet makes it. Exact for small gives. A foot without compliance counts as 1e-11 m/N
/// when another joint gives.
Eigen::Matrix2d calc_arm_compliance(const ArmJoints& arm);

}  // namespace rig::suspension
