#include "geometry/rigid_motion.h"

#include "base/require.h"
#include "geometry/cross.h"
#include "geometry/matrix.h"

namespace rig {

RigidMotion fit_rigid_motion(std::span<const Vec3> p_VoP_V, std::span<const Vec3> d_P_V) {
  RIG_REQUIRE(!p_VoP_V.empty() && p_VoP_V.size() == d_P_V.size());
  Vec3 p_VoM_V = Vec3::Zero(), d_M_V = Vec3::Zero();
  for (std::size_t i = 0; i < p_VoP_V.size(); ++i) {
    p_VoM_V += p_VoP_V[i];
    d_M_V += d_P_V[i];
  }
  p_VoM_V /= static_cast<double>(p_VoP_V.size());
  d_M_V /= static_cast<double>(p_VoP_V.size());
  // About the middle the turn is apart from the rest: sum of -[p]x [p]x r = sum of p x d.
  Mat3 inertia = Mat3::Zero();
  Vec3 moment = Vec3::Zero();
  for (std::size_t i = 0; i < p_VoP_V.size(); ++i) {
    const Mat3 across = cross_matrix(p_VoP_V[i] - p_VoM_V);
    inertia -= across * across;
    moment += across * (d_P_V[i] - d_M_V);
  }
  constexpr double kInLine = 1e-9;
  const Axes axes = find_axes(inertia);
  Vec3 r_V = Vec3::Zero();
  for (int i = 0; i < 3; ++i) {
    if (!(axes.values[i] > kInLine * axes.values[2])) continue;
    const Vec3 axis = axes.vectors.col(i);
    r_V += axis.dot(moment) / axes.values[i] * axis;
  }
  return {d_M_V - r_V.cross(p_VoM_V), r_V};
}

}  // namespace rig
