#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "frame/rail_line.h"

namespace rig::frame {

/// A crossmember's reference line from the left rail's to the right rail's web (of a tube: its
/// middle), over its corners.
struct CrossmemberLine {
  const build::Entry<build::Crossmember>* part = nullptr;
  int left = -1;  ///< Indices into the rail lines.
  int right = -1;
  std::vector<Vec3> p_VoP_V;  ///< Left to right.
  std::string words;

  double length_m() const;
  /// @param along_m  From the left end.
  Vec3 at(double along_m) const;
  /// Place on the line that is nearest to a point; in plan alone, if asked.
  double nearest_m(const Vec3& p_VoP_V, bool in_plan) const;
};

/// @errors  frame.unknown_station, frame.unknown_place (of a corner), frame.not_between_rails,
///          frame.two_rails.
Result<CrossmemberLine> make_crossmember_line(const build::Frame& frame,
                                              const build::Entry<build::Crossmember>& part,
                                              const std::vector<RailLine>& rails);

}  // namespace rig::frame
