#pragma once

#include <string>

#include "suspension/sweep.h"

namespace rig::check {

/// A sweep as a table: one row per pose in the order asked for, SI, units in the header names.
///
/// Poses: C and all nine entries of R in axes V, the wheel line; the moving end of every link; link
/// forces with the springs' load, tension positive; derived numbers (docs/definitions.md); lengths
/// of coils, shocks and stops. Columns of which nothing is known are left out; a single value that
/// is not known is an empty cell.
std::string sweep_csv(const suspension::AxleModel& axle, const suspension::Sweep& sweep);

}  // namespace rig::check
