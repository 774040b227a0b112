#pragma once

#include <string>
#include <vector>

#include "build/read.h"
#include "check/report.h"

namespace rig::check {

/// A finding that hangs on a value.
struct Moved {
  std::string finding;   ///< Id.
  std::string sentence;  ///< As it stands now.
  std::string by;        ///< "1.39 Hz to 1.45 Hz": what it would be with the value out by its ±.
};

/// A value worth measuring better.
struct NextReading {
  std::string path;
  std::string label;         ///< "Front axle, coil, rate".
  std::string now;           ///< As known now.
  std::string plus_minus;    ///< What it is taken to be known to.
  std::vector<Moved> moved;  ///< The three it moves most.
  /// How much it moves all findings: for each, its change over the room to the limit (at most 2),
  /// 1 more when the verdict turns, 2 more when it turns to or from a stop.
  double weight = 0;
};

/// The values that are guessed or known only so well, those first that move the findings most.
///
/// Each is put out by its half-width (docs/findings.md, "Known to what") and the truck is checked
/// again, so this takes as many checks as there are such values; values that move nothing are left
/// out.
std::vector<NextReading> find_next_readings(const build::ReadBuild& read, const Report& report);

}  // namespace rig::check
