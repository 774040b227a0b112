#pragma once

#include <optional>
#include <span>
#include <vector>

#include "driveline/shaft_travel.h"

/// Where the line of cases stands best: how far to tilt, lift and shift it so that shafts and gaps
/// have the room that they want.
namespace rig::driveline {

/// A stiff move of all cases, their outputs and mounts.
struct CasesMove {
  double tilt_rad = 0;  ///< + down to the rear, about the pivot.
  double up_m = 0;
  double left_m = 0;
};

Vec3 move_point(const CasesMove& move, const Vec3& p_VoPivot_V, const Vec3& p_VoP_V);
Vec3 turn_axis(const CasesMove& move, const Vec3& d_V);

/// A shaft that starts at the cases, and the room it wants.
struct PlacedShaft {
  Shaft shaft;
  std::vector<ShaftEnds> poses;  ///< As drawn; at least one.
  std::size_t ride = 0;          ///< Of the poses.
  double bind_left_rad = 0;      ///< Wanted at each joint in every pose.
  double slip_left_m = 0;        ///< Wanted at either end in every pose.
  double steady_rad = kNaN;      ///< Most that the joints may leave at ride; NaN: whatever.
};

/// A place on the cases that comes near something; measured along the way between both as drawn.
struct PlacedGap {
  Vec3 p_VoA_V = Vec3::Zero();  ///< On the cases, as drawn.
  std::vector<Vec3> others_V;   ///< What it comes near, by pose, as drawn first; at least one.
  double least_m = 0;           ///< Wanted in every pose.
};

struct PlacingRange {
  Vec3 p_VoPivot_V = Vec3::Zero();
  double least_tilt_rad = 0, most_tilt_rad = 0;  ///< From how it is drawn.
  double down_m = 0, up_m = 0;                   ///< Each >= 0.
  double left_m = 0, right_m = 0;
};

/// What is short of what is wanted, together: the root of the sum of squares of what each joint,
/// spline and gap lacks, one degree counting as much as 5 mm. 0: all have their room.
double calc_shortfall(const CasesMove& move, const PlacingRange& range,
                      std::span<const PlacedShaft> shafts, std::span<const PlacedGap> gaps);

struct Placing {
  CasesMove move;
  double shortfall = 0;  ///< With it.
  double before = 0;     ///< As drawn.
};

/// The move within the range that leaves least short; of several that leave nothing, a small one.
///
/// Tries a grid of 11 each way, then steps that are halved until 0.01 deg and 0.1 mm.
/// @return  None where nothing is short as drawn, or no move makes it less by a quarter.
std::optional<Placing> find_placing(const PlacingRange& range, std::span<const PlacedShaft> shafts,
                                    std::span<const PlacedGap> gaps);

}  // namespace rig::driveline
