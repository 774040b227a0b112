#pragma once

#include <Eigen/Core>
#include <span>

#include "geometry/pose.h"

/// Springs that hold a stiff body.
namespace rig {

/// From a point of the body to what stands still.
struct PointSpring {
  Vec3 p_VoP_V = Vec3::Zero();
  Mat3 K_V = Mat3::Zero();  ///< N/m
};

/// Stiffness of all of them together for [u; r theta], N/m: the body's motion at a point O and its
/// turn times the distance r of the furthest spring from there (1 m where none is away from it).
Eigen::Matrix<double, 6, 6> calc_body_stiffness(std::span<const PointSpring> springs,
                                                const Vec3& p_VoO_V);

}  // namespace rig
