#pragma once

#include <array>

#include "frame/solve.h"

namespace rig::frame {

/// A point that moves with a joint.
struct JointPoint {
  int joint = -1;
  Vec3 p_VoP_V = Vec3::Zero();
};

/// Where a frame's stiffness is measured: on the webs of the rails, at the stations of the axles
/// and in the middle of the wheelbase. V's x lies along the frame.
struct MeasuringPoints {
  JointPoint front_left, front_right;
  JointPoint rear_left, rear_right;
  JointPoint middle_left, middle_right;  ///< For bending only.
};

/// The four axle points: front left, front right, rear left, rear right.
using AxlePoints = std::array<JointPoint, 4>;
AxlePoints axle_points(const MeasuringPoints& points);

/// The loads of a measurement, in balance, and what they do: for the stresses that go with it.
struct Measurement {
  Loads loads;
  Response response;
};

struct TorsionStiffness {
  double stiffness_Nm_per_rad = 0;
  Measurement measured;  ///< Under 1 N m.
};

struct BendingStiffness {
  double stiffness_N_per_m = 0;
  Measurement measured;  ///< Under 1 N.
};

struct LozengingStiffness {
  double stiffness_N_per_m = 0;
  Measurement measured;  ///< Under 1 N on each rail.
};

/// Stiffness of a free frame against twist from axle to axle.
///
/// Vertical forces at the four axle points that are in balance by themselves, of which there is one
/// kind only: with both points of an axle at one station, a couple of 1 N m about x at the front
/// and its opposite at the rear. The twist is what these forces work on: the roll of the front pair
/// of points against that of the rear pair.
///
/// @param solver  Of a structure that nothing ties to the ground.
/// @errors        frame.unknown_joint, frame.not_finite (paths `/front_left/joint`);
///                frame.points_in_line (without width or length); frame.not_free.
/// @accuracy      Rounding, of the beams' theory. Against shells: docs/design/frame.md.
Result<TorsionStiffness> solve_torsion_stiffness(const Solver& solver,
                                                 const MeasuringPoints& points);

/// Stiffness of a free frame as a beam from axle to axle: 1 N down, half of it at each middle
/// point, on four rigid supports under the axle points, over the mean sinking of the middle points
/// against the supports. Parameters, errors and accuracy as `solve_torsion_stiffness`.
/// @param torsion  That of the same points; solved here when it is null.
Result<BendingStiffness> solve_bending_stiffness(const Solver& solver,
                                                 const MeasuringPoints& points,
                                                 const TorsionStiffness* torsion = nullptr);

/// Stiffness of a free frame against going out of square, as a parallelogram.
///
/// 1 N forward on the left rail, half at each of its axle points, and 1 N rearward on the right
/// one; against the yaw of both an even sideways force on the two front points and its opposite on
/// the two rear ones. Where the axle points are not at one height, vertical forces on them, the
/// smallest in the sum of squares, take what roll and pitch these make. Over what the forces work
/// on: how far the left rail goes forward of the right one, measured square to the line from the
/// middle of the rear pair to that of the front pair. Parameters, errors and accuracy as
/// `solve_torsion_stiffness`.
Result<LozengingStiffness> solve_lozenging_stiffness(const Solver& solver,
                                                     const MeasuringPoints& points);

}  // namespace rig::frame
