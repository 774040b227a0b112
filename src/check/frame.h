#pragma once

#include "check/frame_cases.h"
#include "check/known_frame.h"
#include "frame/worst_places.h"

namespace rig::check {

/// What the frame is as it came, as planned and after each stage; nothing without rails. Faults go
/// to the report's diagnostics.
/// @param thorough  For verdicts only: as planned alone, for the twist that the truck stands with.
/// @param known     Of this build.
void add_frame(const build::Build& build, Thorough thorough, KnownFrame& known, Report& report);

/// What it carries and where it is stressed, once the truck has settled in its load states.
/// @param book  What is solved is added.
void add_frame_cases(const build::Build& build, FrameCases cases, const Printer& print,
                     frame::SectionBook& book, Report& report);

/// What each stage of the work does to it, on its stands or (once the truck has settled) its
/// wheels: after `add_frame_cases`.
void add_stages(const build::Build& build, const Printer& print, frame::SectionBook& book,
                Report& report);

/// A place of a model in the shop's words.
StressPlace make_stress_place(const frame::Model& model, const frame::WorstPlace& worst,
                              const std::string& case_id, const units::UnitChoices& units);

}  // namespace rig::check
