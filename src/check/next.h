#pragma once

#include <functional>
#include <optional>
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
  /// 1 more when the verdict turns, 2 more when it turns to or from a stop; as much for one that
  /// comes up or can't be told any more.
  double weight = 0;
};

/// The values that are guessed or known only so well, those first that move the findings most.
///
/// Each is put out by its half-width (docs/findings.md, "Known to what") either way and the truck
/// is checked again; the way that moves more counts. That takes two checks for each such value,
/// shared among the machine's cores; values that move nothing are left out.
/// @param is_wanted  Asked before each check, from several threads; false: nothing is returned.
std::optional<std::vector<NextReading>> find_next_readings(
    const build::ReadBuild& read, const std::function<bool()>& is_wanted = [] { return true; });

}  // namespace rig::check
