#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "check/loaded_frame.h"
#include "check/printer.h"

/// The frame under one load case as it is drawn: as it came and as planned, under the same loads.
namespace rig::check {

/// What one place of a frame does under the case, without the motion of the whole
/// (`find_ride_motion`).
struct DrawnMotion {
  Vec3 d_V = Vec3::Zero();       ///< m, not exaggerated.
  Vec3 r_V = Vec3::Zero();       ///< Turn of the section, rad.
  double von_mises_Pa = 0;       ///< The greatest over the section.
  double share_of_yield = kNaN;  ///< Of the wall where it is greatest; NaN: yield not known.
  int level = 0;                 ///< Index into `FrameDrawing::levels_Pa`.
};

struct DrawnPoint {
  Vec3 p_VoP_V = Vec3::Zero();  ///< On the reference line.
  std::optional<DrawnMotion> before, after;
};

/// A straight stretch of one section.
struct DrawnPiece {
  /// The box about the section: corners from the reference line, in V axes, around it.
  std::array<Vec3, 4> p_PK_V;
  std::vector<DrawnPoint> points;  ///< Both ends and at least the middle, in order.
};

/// A rail or crossmember. One that is only in the other frame has no `before` (or `after`) at any
/// of its points.
struct DrawnMember {
  std::string path;
  std::string words;  ///< "left frame rail"
  bool before = false, after = false;
  std::vector<DrawnPiece> pieces;
};

/// One of the two frames as a whole.
struct DrawnState {
  StressPlace worst;
  Vec3 p_VoP_V = Vec3::Zero();  ///< Of the worst place, on its wall.
  Vec3 d_V = Vec3::Zero();      ///< What that place does, m.
  double most_m = 0;            ///< The greatest displacement of any point that is drawn.
};

struct FrameDrawing {
  std::string case_id, case_label;
  double exaggeration = 1;  ///< For both states.
  /// Lower ends of the levels of stress, for both states; the last is without an upper end.
  std::vector<double> levels_Pa;
  std::vector<DrawnMember> members;
  std::optional<DrawnState> before;  ///< Absent: the frame as it came can't carry the case.
  DrawnState after;
  Diagnostics left_out;  ///< Why there is no `before`.
};

/// Draws the frame as planned under one case's loads and, by the same places, as it came with them
/// laid on it.
///
/// The greatest displacement is drawn as up to a thirtieth of the frame's length. Levels are five,
/// a round number of the build's unit of stress wide, so that the planned frame's worst place is in
/// the last: as it came it may be stressed far more, and would leave the rest in one.
///
/// @param loaded  The planned frame of the same build.
/// @param index   Of its cases.
/// @accuracy  Displacements between the ends of beams: `calc_section_motion`. Stress is that of
///            `frame::find_section_stress`, at the points only: what is between may be greater by
///            what even loads do over half the distance of two points.
FrameDrawing draw_frame(const build::Build& build, const LoadedFrame& loaded, std::size_t index,
                        const Printer& print);

}  // namespace rig::check
