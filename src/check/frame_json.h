#pragma once

#include "check/json_internal.h"

namespace rig::check {

/// The frame's part of the report (docs/api.md); null without rails.
Json frame_json(const Report& report, const Printer& print);

/// One of the places that are stressed most.
Json stress_place_json(const StressPlace& place, const Printer& print);

}  // namespace rig::check
