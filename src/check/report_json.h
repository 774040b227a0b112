#pragma once

#include <string>

#include "check/report.h"

namespace rig::check {

/// The report as JSON text, exactly docs/api.md "report".
std::string report_json(const build::Build& build, const Report& report);

/// The units object of docs/api.md, for axis ticks.
std::string units_json(const build::Units& units);

/// A list of diagnostics as JSON text.
std::string diagnostics_json(const Diagnostics& diagnostics);

}  // namespace rig::check
