#pragma once

#include <Eigen/Core>
#include <vector>

#include "driveline/cases.h"

namespace rig::driveline {

/// The stops that touch, each +1 or -1 by the way it is pushed; 0 where clear.
using Touching = std::vector<int>;

/// The mounts of a line with the frame that they stand on: what the cases feel. Vectors have three
/// numbers for each mount, V axes.
///
/// A rubber pushes with f = -(K d - s) on the case and with -f on the frame, which gives by -C f:
/// d = u + C f, so f = s' - K' u with K' = K (1 + C K)^-1 and s' = s - K' C s. The stops that touch
/// add to K, and by where they touch to s.
class CarriedMounts {
 public:
  /// @param touching  By mount; empty: none.
  /// @param rest      From which stops are counted; null while none touch.
  CarriedMounts(const CaseLine& line, const Touching& touching, const CasesAtRest* rest);

  /// Whether a force on one mount moves the others.
  bool are_coupled() const { return coupled_; }
  Mat3 stiffness(std::size_t of, std::size_t by) const;  ///< N/m
  Vec3 push_N(std::size_t of) const;                     ///< On the case, where it has not moved.
  /// On the cases, by their travel at the mounts.
  Eigen::VectorXd forces_N(const Eigen::VectorXd& travel_m) const;
  /// Travel of the cases less that of the frame.
  Eigen::VectorXd squeeze_m(const Eigen::VectorXd& travel_m) const;

 private:
  const CaseLine& line_;
  bool coupled_;
  Eigen::MatrixXd K_;
  Eigen::VectorXd push_N_;
};

/// Travel at all mounts for [u; theta] of a stiff line at a point.
Eigen::MatrixXd mount_travel_matrix(const CaseLine& line, const Vec3& p_VoP_V);

}  // namespace rig::driveline
