#pragma once

#include <string>
#include <vector>

#include "frame/plate_ends.h"

/// How water leaves a boxed stretch of rail, and how one gets into it.
namespace rig::frame {

enum class Drainage {
  kDrilled,  ///< A drain hole no further than a rail depth from its lowest place.
  kRunsOut,  ///< It falls to an end where the open rail goes on, or to the rail's own end.
  kTrapped
};

/// The inside of one plate's box on one side of the truck.
struct BoxInside {
  std::string plate_path;
  int sign = 1;           ///< +1: left.
  double depth_m = kNaN;  ///< Of the rail at its lowest place.
  Drainage drainage = Drainage::kTrapped;
  bool level = false;        ///< It falls by less than 1/8 in from end to end.
  double lowest_m = 0;       ///< Station of its lowest place; of a level one its middle.
  double closed_from_m = 0;  ///< Its longest part without an open end or an access hole.
  double closed_to_m = 0;

  double closed_m() const { return closed_to_m - closed_from_m; }
};

/// The boxes of all plates that are in, on each side. Needs rails whose lines are known; others are
/// left out. A box that runs on behind the next plate counts as shut there.
std::vector<BoxInside> list_box_insides(const build::Build& build, const Selection& in);

}  // namespace rig::frame
