#pragma once

#include <Eigen/Core>
#include <vector>

#include "geometry/line.h"

namespace rig::frame {

/// Forces under a body that gives, and how it lies.
struct ContactAnswer {
  bool found = false;
  Eigen::VectorXd forces_N;   ///< Upward; zero where it has lifted off.
  Eigen::VectorXd gaps_m;     ///< Zero where it rests.
  std::vector<char> resting;  ///< By place.
  Vec3 plane = Vec3::Zero();  ///< Height at the point of balance, slopes along x and y, to add.
};

/// Upward forces, summing to the weight and balancing about the origin, of a body whose heights are
/// `heights` + `flexibility` forces + a plane; each force or its gap is zero, neither negative.
/// @param flexibility  Symmetric, positive definite on forces that balance by themselves.
/// @param places       In plan from the point of balance, m: apart from each other, the origin
/// inside of
///                     the outermost.
ContactAnswer solve_contact(const Eigen::MatrixXd& flexibility_m_per_N,
                            const Eigen::VectorXd& heights_m, const std::vector<Vec2>& places,
                            double weight_N);

}  // namespace rig::frame
