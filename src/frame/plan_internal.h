#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "frame/crossmember_line.h"
#include "frame/model.h"
#include "frame/rail_line.h"

/// The frame's geometry, before it is made into beams.
namespace rig::frame {

/// Nearer to each other than this two places along a part are one, in one model and from one to the
/// next; what is carried there hangs on by an arm that is so much longer, m.
inline constexpr double kSamePlace_m = 0.002;

/// A place on a line where something is carried.
struct Carried {
  Attachment attachment;
  int rail = -1;         ///< Index into the rail lines, or
  int crossmember = -1;  ///< into the crossmember lines.
  double at_m = 0;       ///< Station, or along the crossmember's line from its left end.
};

/// A place on a rail where a joint is wanted, whatever is there.
struct RailMark {
  int rail = -1;     ///< Index into the rail lines, which are the same whatever is in.
  std::string path;  ///< Of the rail.
  int sign = 0;
  double station_m = 0;
  Vec3 p_VoP_V = Vec3::Zero();
};

struct FramePlan {
  std::vector<RailLine> rails;
  std::vector<CrossmemberLine> crossmembers;  ///< Those that are in.
  std::vector<Carried> carried;
};

/// @errors  frame.no_rails and those of the lines.
Result<FramePlan> make_plan(const build::Build& build, const Selection& in);

}  // namespace rig::frame
