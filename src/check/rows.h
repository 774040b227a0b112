#pragma once

#include "check/report.h"

namespace rig::check {

/// Fills an axle's rows and curves from its drawn pose and sweeps; limits as the findings use them.
void add_rows_and_curves(const build::Build& build, const Printer& print, AxleReport& axle);

}  // namespace rig::check
