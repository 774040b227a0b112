#pragma once

#include "base/result.h"
#include "check/report.h"

namespace rig::check {

/// How high a settled load state's wheels may stand until one lifts: the left front one up a ramp,
/// and crossed.
struct FoundArticulation {
  Result<suspension::Articulation> ramp, cross;
};

/// @param state  Settled, with a footing.
FoundArticulation find_articulation(const StateReport& state);

}  // namespace rig::check
