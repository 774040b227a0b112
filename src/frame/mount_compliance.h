#pragma once

#include <Eigen/Core>
#include <span>

#include "frame/stiffness.h"

namespace rig::frame {

/// How a frame gives where things are mounted on it: displacement of each point by a force on each,
/// [u_0; u_1 ...] = C [f_0; f_1 ...], 3 n x 3 n, m/N, symmetric. V axes.
///
/// The frame is carried at its four axle points, by the forces there that hold it with the least
/// sum of squares; displacements are against the rigid motion that those forces do no work on, so
/// that a point between two axle points that go down alike has not moved. What a rigid motion of
/// the frame does to what is mounted on it, is nothing.
///
/// @param solver    Of a structure that nothing ties to the ground.
/// @errors  frame.unknown_joint; frame.points_in_line (supports that cannot hold the frame); those
///          of `Solver::solve`.
/// @source  Flexibility coefficients and virtual work [Przemieniecki68] ch. 7.
Result<Eigen::MatrixXd> calc_mount_compliance(const Solver& solver, const AxlePoints& supports,
                                              std::span<const JointPoint> points);

}  // namespace rig::frame
