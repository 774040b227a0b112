#pragma once

#include "check/json_internal.h"

namespace rig::check {

/// The load states of docs/api.md "report".
/// @param with_workings  Else their workings are empty.
Json states_json(const build::Build& build, const Report& report, const Printer& print,
                 bool with_workings);

}  // namespace rig::check
