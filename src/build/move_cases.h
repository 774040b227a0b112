#pragma once

#include <string>

#include "build/read.h"

namespace rig::build {

/// A move of the line of cases from the engine back, each as typed; empty: none.
struct AskedMove {
  std::string rearward, left, up;
  std::string tilt;  ///< About the first case's front face, + down to the rear.
};

/// Moves the first line of cases as one piece, as the JSON Patch that does it: where it starts and
/// its slopes, its outputs, its mounts, its cases' masses, and what gaps have on it. Everything
/// else stays: the mounts' other ends on the frame, the shafts' ends at the axles.
///
/// Places are written to a thousandth of an inch or a hundredth of a millimetre, so that what was
/// square stays square.
/// @errors build.bad_change: a move that can't be read (path: its key), no first case with a place,
/// a
///         move sideways of a mount that is given for both sides.
Result<std::string> move_cases_patch(const Document& document, const AskedMove& move);

}  // namespace rig::build
