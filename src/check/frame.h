#pragma once

#include <future>
#include <optional>
#include <string>

#include "check/frame_cases.h"
#include "check/known_frame.h"
#include "frame/worst_places.h"

namespace rig::check {

/// What the frame is as it came, as planned and after each stage; nothing without rails. Faults go
/// to the report's diagnostics.
/// @param thorough  For verdicts only: as planned alone, for the twist that the truck stands with.
/// @param known     Of this build.
void add_frame(const build::Build& build, Thorough thorough, KnownFrame& known, Report& report);

/// What it carries, once the truck has settled in its load states: `FrameReport::loaded`.
/// @param book  What is solved is added.
void add_frame_cases(const build::Build& build, FrameCases cases, frame::SectionBook& book,
                     Report& report);

/// Where it is stressed by what it carries.
void add_frame_stresses(const build::Build& build, const Printer& print, Report& report);

/// Begins to make the frames of all stages, beside whatever else is worked out.
/// @param build  Must live on and stay as it is until they are made.
std::future<frame::StageFrames> begin_stage_frames(const build::Build& build,
                                                   frame::SectionBook book);

/// By stage, as far as it is known what carries the frame.
using SolvedStages = std::vector<Result<frame::StageCut>>;

/// A load state standing still on its wheels; none where it has not settled.
std::optional<FrameCase> find_standing(const FrameCases& cases, const std::string& state);

/// What each stage of the work does to the frame, on its stands or (once the truck has settled) its
/// wheels.
/// @param states    Must live on and stay as they are.
/// @param standing  What the truck on its wheels does to the frame; none: it is not known.
/// @param frames    Of all stages of the build.
SolvedStages solve_stages(const build::Build& build, const std::vector<StateReport>& states,
                          const std::optional<FrameCase>& standing, const Printer& print,
                          std::future<frame::StageFrames> frames, frame::SectionBook book);

void add_stages(const build::Build& build, SolvedStages solved, Report& report);

/// A place of a model in the shop's words.
StressPlace make_stress_place(const frame::Model& model, const frame::WorstPlace& worst,
                              const std::string& case_id, const units::UnitChoices& units);

}  // namespace rig::check
