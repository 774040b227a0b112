#pragma once

#include "check/report.h"

/// What to measure next. docs/findings.md.
namespace rig::check {

/// Adds what a whole axle or the truck lacks: links, springs, drive and brake shares, the list of
/// masses, load states.
void list_missing_parts(const build::Build& build, Report& report);

/// One entry per place, what needs it told together; what unlocks most stands first.
void order_missing(Report& report);

}  // namespace rig::check
