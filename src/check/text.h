#pragma once

#include <string>

#include "check/report.h"

namespace rig::check {

/// The report for reading in a terminal: weights, seats, findings worst first, what is missing.
/// Wrapped at 100 columns.
std::string report_text(const build::Build& build, const Report& report);

}  // namespace rig::check
