#pragma once

#include "check/report.h"
#include "frame/worst_places.h"

namespace rig::check {

/// What the frame is as it came, as planned and after each stage; nothing without rails. Faults go
/// to the report's diagnostics.
void add_frame(const build::Build& build, Report& report);

/// What it carries and where it is stressed, once the truck has settled in its load states.
void add_frame_cases(const build::Build& build, const Printer& print, Report& report);

/// What each stage of the work does to it, on its stands or (once the truck has settled) its
/// wheels.
void add_stages(const build::Build& build, const Printer& print, Report& report);

/// A place of a model in the shop's words.
StressPlace make_stress_place(const frame::Model& model, const frame::WorstPlace& worst,
                              const std::string& case_id, const units::UnitChoices& units);

}  // namespace rig::check
