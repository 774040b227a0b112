#pragma once

#include <span>

#include "geometry/pose.h"

namespace rig {

/// A small motion of something rigid.
struct RigidMotion {
  Vec3 d_Vo_V = Vec3::Zero();  ///< Of Vo, m.
  Vec3 r_V = Vec3::Zero();     ///< rad

  Vec3 at(const Vec3& p_VoP_V) const { return d_Vo_V + r_V.cross(p_VoP_V); }
};

/// The rigid motion nearest to what some points do: least sum of squares of the differences. Turns
/// that the points don't tell (all of them in a line) stay zero.
/// @param d_P_V  Displacement of each point, m; as many as points, and at least one.
RigidMotion fit_rigid_motion(std::span<const Vec3> p_VoP_V, std::span<const Vec3> d_P_V);

}  // namespace rig
