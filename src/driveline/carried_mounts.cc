#include "driveline/carried_mounts_internal.h"
#include "geometry/cross.h"
#include "geometry/matrix.h"

namespace rig::driveline {
namespace {

Eigen::Index row_of(std::size_t mount) { return static_cast<Eigen::Index>(3 * mount); }

}  // namespace

CarriedMounts::CarriedMounts(const CaseLine& line, const Touching& touching,
                             const CasesAtRest* rest)
    : line_(line), coupled_(line.frame_m_per_N.size() > 0) {
  const Eigen::Index n = row_of(line.mounts.size());
  K_ = Eigen::MatrixXd::Zero(n, n);
  push_N_ = Eigen::VectorXd::Zero(n);
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    const CaseMount& mount = line.mounts[m];
    const Eigen::Index at = row_of(m);
    K_.block<3, 3>(at, at) = mount.K_V;
    if (touching.empty() || touching[m] == 0) continue;
    const double rate = mount.snub_rate_N_per_m;
    K_.block<3, 3>(at, at) += rate * mount.axis_V * mount.axis_V.transpose();
    const double from_m =
        mount.axis_V.dot(rest->mounts[m].squeeze_V) + touching[m] * mount.snub_gap_m;
    push_N_.segment<3>(at) = rate * from_m * mount.axis_V;
  }
  if (!coupled_) return;
  RIG_REQUIRE(line.frame_m_per_N.rows() == n && line.frame_m_per_N.cols() == n);
  const Eigen::MatrixXd& C = line.frame_m_per_N;
  K_ = (K_ * invert(Eigen::MatrixXd::Identity(n, n) + C * K_)).eval();
  push_N_ -= (K_ * (C * push_N_)).eval();
}

Mat3 CarriedMounts::stiffness(std::size_t of, std::size_t by) const {
  return K_.block<3, 3>(row_of(of), row_of(by));
}

Vec3 CarriedMounts::push_N(std::size_t of) const { return push_N_.segment<3>(row_of(of)); }

Eigen::VectorXd CarriedMounts::forces_N(const Eigen::VectorXd& travel_m) const {
  return push_N_ - K_ * travel_m;
}

Eigen::VectorXd CarriedMounts::squeeze_m(const Eigen::VectorXd& travel_m) const {
  if (!coupled_) return travel_m;
  return travel_m + line_.frame_m_per_N * forces_N(travel_m);
}

Eigen::MatrixXd mount_travel_matrix(const CaseLine& line, const Vec3& p_VoP_V) {
  Eigen::MatrixXd J(row_of(line.mounts.size()), 6);
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    J.block<3, 6>(row_of(m), 0) << Mat3::Identity(),
        -cross_matrix(line.mounts[m].p_VoM_V - p_VoP_V);
  }
  return J;
}

}  // namespace rig::driveline
