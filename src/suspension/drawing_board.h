#pragma once

#include <optional>
#include <string>

#include "suspension/model.h"

namespace rig::suspension {

/// What the drawing-board constructions say of an axle at one pose. They show only what a linkage
/// alike left and right does; elsewhere `fails_because` says why they can't be trusted.
struct DrawingBoard {
  std::optional<Vec3>
      instant_centre_V;  ///< Side view: where lower and upper link lines cross (y = 0).
  std::optional<double> contact_slope;  ///< Forward travel of the contact point per heave.
  std::optional<Vec3> lower_apex_V;     ///< Plan view: where a pair's lines meet, carried in 3D.
  std::optional<Vec3> upper_apex_V;
  std::optional<double> roll_centre_height_m;  ///< Above the ground: apex line at the axle's plane.
  std::optional<double> roll_steer;            ///< Slope of the apex line.
  std::string fails_because;                   ///< Empty: exact.
};

/// The constructions for an axle standing at coordinates `q`.
///
/// Pairs of bars are found by symmetry. Two pairs: side-view instant centre from the crossing of
/// their lines, roll axis through their plan-view apexes; where a pair is parallel in plan its apex
/// is at infinity and the axis takes its direction.
/// @source [Gillespie] ch. 7, solid-axle constructions (from memory).
DrawingBoard find_drawing_board(const AxleModel& axle, const Vec6& q);

}  // namespace rig::suspension
