#include "geometry/springs.h"

#include <algorithm>

#include "geometry/cross.h"

namespace rig {

Eigen::Matrix<double, 6, 6> calc_body_stiffness(std::span<const PointSpring> springs,
                                                const Vec3& p_VoO_V) {
  double reach_m = 0;
  for (const PointSpring& spring : springs) {
    reach_m = std::max(reach_m, (spring.p_VoP_V - p_VoO_V).norm());
  }
  if (!(reach_m > 0)) reach_m = 1;
  Eigen::Matrix<double, 6, 6> K = Eigen::Matrix<double, 6, 6>::Zero();
  for (const PointSpring& spring : springs) {
    Eigen::Matrix<double, 3, 6> J;
    J << Mat3::Identity(), -cross_matrix(spring.p_VoP_V - p_VoO_V) / reach_m;
    K += J.transpose() * spring.K_V * J;
  }
  return K;
}

}  // namespace rig
