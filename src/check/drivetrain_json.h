#pragma once

#include "check/json_internal.h"

namespace rig::check {

/// docs/api.md "drivetrain"; null while nothing is told of it.
Json drivetrain_json(const Report& report, const Printer& print);

}  // namespace rig::check
