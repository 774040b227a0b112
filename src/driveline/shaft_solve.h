#pragma once

#include <optional>
#include <span>

#include "driveline/shaft_line.h"

/// What to build so that a shaft runs well: where the pinion points, over which travel the shaft is
/// steady enough, how long to cut the tube.
namespace rig::driveline {

/// The driven part, with the last joint's centre and the output shaft, turns about a line of the
/// axle.
struct PinionTurn {
  Vec3 p_VC = Vec3::Constant(kNaN);  ///< A point of the line, such as the axle's middle.
  Vec3 d_V = Vec3::UnitY();          ///< Its direction; any length. + by the right hand.
  double from_rad = -0.35;           ///< Range looked through, from how the line was given ...
  double to_rad = 0.35;              ///< ... at most half a turn.
};

struct PinionAngle {
  double turn_rad = 0;  ///< From how the line was given; about +y, + lowers what is forward.
  ShaftLine line;       ///< With the pinion turned so.
  ShaftLineMotion motion;
};

/// Turns the output side of a line.
ShaftLine turn_pinion(const ShaftLine& line, const PinionTurn& turn, double turn_rad);

/// The turn of the pinion at which the output runs steadiest; the smallest turn where several do
/// equally well.
///
/// Two Cardan joints in one plane come out at equal angles, a double Cardan joint at the case with
/// the pinion pointing along the shaft; out of one plane what is left may not be zero. Looks at 512
/// parts of the range and narrows around each lowest.
/// @errors  Of `calc_shaft_line` as given; driveline.zero_axis under /turn, driveline.turn_range,
///          driveline.no_turn where all turns of the range fold a joint square.
/// @accuracy  1e-8 rad where the angle of the line can be brought to zero, 1e-7 elsewhere (the
/// angle
///            is flat there). Of two lowest within one part either may be found: they differ by
///            some 1e-5 rad in the line's angle.
Result<PinionAngle> find_pinion_angle(const ShaftLine& line, const PinionTurn& turn);

/// A stretch of travel.
struct TravelStretch {
  double from_m = 0, to_m = 0;
};

/// The stretch of bump around ride over which a number stays within its limit: the number between
/// two poses is taken as straight. Nothing when it is past the limit at ride.
///
/// @param bump_m  Rising, one for each number; at least one.
/// @param ride    Index of the pose at ride.
std::optional<TravelStretch> find_steady_stretch(std::span<const double> bump_m,
                                                 std::span<const double> numbers, double limit,
                                                 std::size_t ride);

/// A tube with the sliding spline in it; lengths from joint centre to joint centre.
struct CutTube {
  double shortest_m = kNaN;  ///< Over all of the travel.
  double ride_m = kNaN;
  double longest_m = kNaN;
  double fixed_yoke_m = kNaN;   ///< From the joint's centre to the weld, at the plain end.
  double closed_yoke_m = kNaN;  ///< The same at the sliding end, pushed together.
  double slide_m = kNaN;        ///< From pushed together to as far out as is allowed.
  double bump_share = 0.5;  ///< Of the slide that is left over: how much stays at the short end.
};

struct TubeCut {
  double cut_m = 0;           ///< Tube between the two welds.
  double pulled_out_m = 0;    ///< How far the spline is drawn out from closed at ride.
  double left_closing_m = 0;  ///< Slide that is left at the shortest; < 0: it bottoms.
  double left_opening_m = 0;  ///< And at the longest; < 0: too little stays engaged.
};

/// Length to cut a tube to, with the slide that its travel does not need shared between both ends.
///
/// A slide shorter than the travel is no fault: what is short is shared alike, and told as < 0.
/// @errors  driveline.size_not_positive; driveline.lengths_order when ride is not between shortest
///          and longest; driveline.share_range; driveline.shaft_too_short when the yokes leave no
///          room for a tube.
Result<TubeCut> calc_tube_cut(const CutTube& tube);

}  // namespace rig::driveline
