#pragma once

#include <Eigen/Core>

#include "driveline/shaft_speed.h"

namespace rig::driveline::internal {

/// Least length of a piece, and distance of supports that do not give, as a share of the whole
/// length: elements shorter than this cost the speed its digits, 1e-17 over their share cubed.
inline constexpr double kLeastPieceShare = 1e-4;

/// A shaft's stiffness and mass on deflections, of places that can give, and slopes.
///
/// Lengths are shares of the whole; stiffness and mass are over their greatest in any piece.
struct BeamMatrices {
  Eigen::MatrixXd K, M;
  double unit_rad_per_s = 0;  ///< Speed whose square is the unit of K over M.
};

/// @param beam  Sound in every field.
BeamMatrices make_beam_matrices(const ShaftBeam& beam);

}  // namespace rig::driveline::internal
