#pragma once

#include <string>

#include "build/read.h"

namespace rig::build {

/// A move of a line of cases that are bolted together, each as typed; empty: none.
struct AskedMove {
  std::string segment;  ///< Path of one of its cases; empty: the line from the engine back.
  std::string rearward, left, up;
  std::string tilt;  ///< About the line's front face, + down to the rear.
};

/// Whether a line can go sideways: one with a mount that is given once for both sides can't.
/// @param line  Its number in `find_faces`, as planned.
bool moves_sideways(const Drivetrain& drivetrain, int line);

/// Moves a line of cases as one piece, as the JSON Patch that does it: where it starts and its
/// slopes, its outputs, its mounts, its cases' masses, and what gaps have on it. Everything
/// else stays: the mounts' other ends on the frame, the shafts' ends at the axles.
///
/// Places are written to a thousandth of an inch or a hundredth of a millimetre, so that what was
/// square stays square.
/// @errors build.bad_change: a move that can't be read (path: its key), a segment that is no
///         planned case, a line without a place, a move sideways of one that can't go sideways.
Result<std::string> move_cases_patch(const Document& document, const AskedMove& move);

}  // namespace rig::build
