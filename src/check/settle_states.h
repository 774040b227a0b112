#pragma once

#include "check/report.h"
#include "check/truck.h"

namespace rig::check {

/// Weighs a build in every load state, or as it stands where it has none, and settles it on flat
/// ground: `Report::states`. What keeps it from either goes to the report's diagnostics and missing
/// parts.
/// @param report  Its frame's twist is what the truck gives, where the file tells no other.
void settle_states(const build::Build& build, const Axles& axles, Report& report);

}  // namespace rig::check
