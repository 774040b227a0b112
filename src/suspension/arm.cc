#include <Eigen/LU>
#include <Eigen/QR>

#include "geometry/cross.h"
#include "suspension/arm_internal.h"

namespace rig::suspension {
namespace {

using Matrix6 = Eigen::Matrix<double, 6, 6>;
using Matrix36 = Eigen::Matrix<double, 3, 6>;

/// Give of a ball joint beside rubber, m/N.
constexpr double kBall_m_per_N = 1e-11;

}  // namespace

Eigen::Matrix2d calc_arm_compliance(const ArmJoints& arm) {
  const bool feet_give = !arm.feet_compliance[0].isZero(0) || !arm.feet_compliance[1].isZero(0);
  Matrix6 stiffness = Matrix6::Zero();  // Of the arm on its feet: shift of the apex, then turn.
  for (const std::size_t i : {0U, 1U}) {
    const Mat3& bush = arm.feet_compliance[i];
    const Mat3 give = bush.isZero(0) ? Mat3(kBall_m_per_N * Mat3::Identity()) : bush;
    Matrix36 motion;
    motion << Mat3::Identity(), -cross_matrix(arm.p_VFeet[i] - arm.p_VApex);
    stiffness += motion.transpose() * give.inverse() * motion;
  }
  // Turning about the line of the feet is free, and forces in the arm's plane do not excite it.
  const Eigen::CompleteOrthogonalDecomposition<Matrix6> solver(stiffness);
  const auto shift_of_apex = [&](const Vec3& force_V) -> Vec3 {
    Vec3 shift = arm.apex_compliance * force_V;
    if (feet_give) {
      Eigen::Matrix<double, 6, 1> load;
      load << force_V, Vec3::Zero();
      shift += solver.solve(load).head<3>();
    }
    return shift;
  };
  const std::array<Vec3, 2> along{(arm.p_VFeet[0] - arm.p_VApex).normalized(),
                                  (arm.p_VFeet[1] - arm.p_VApex).normalized()};
  Eigen::Matrix2d compliance;
  for (int j = 0; j < 2; ++j) {
    const Vec3 shift = shift_of_apex(along[static_cast<std::size_t>(j)]);
    for (int i = 0; i < 2; ++i) compliance(i, j) = along[static_cast<std::size_t>(i)].dot(shift);
  }
  return (compliance + compliance.transpose()) / 2;
}

}  // namespace rig::suspension
