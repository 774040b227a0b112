#pragma once

#include "check/axle_grid.h"
#include "check/case_frame.h"
#include "check/drivetrain_report.h"

namespace rig::check {

/// The drivetrain of a build whose states are settled and whose axles are swept; what is missing
/// and what fails goes to the report. Nothing while the file tells nothing of it.
///
/// @param book  What is solved for the frame's sections is added.
void add_drivetrain(const build::Build& build, frame::SectionBook& book, Report& report);

/// The parts of it: cases on their mounts under their loads ...
CasesReport solve_case_line(const build::Build& build, driveline::CaseLineFromBuild from,
                            const DrivetrainReport& drivetrain, const CaseFrame& frame,
                            Report& report);
/// ... and one shaft.
ShaftReport solve_shaft(const build::Build& build, driveline::ShaftFromBuild from,
                        const std::vector<CasesReport>& lines, const AxleGrid& grid,
                        Report& report);
/// ... and the gaps.
void add_gaps(const build::Build& build, Report& report, DrivetrainReport& drivetrain);

/// How a place on a case moves under each load but the first, against how it rests.
struct CaseShift {
  std::string id, label;
  driveline::CaseMotion motion;
};
/// Empty while the case's line is not solved.
std::vector<CaseShift> find_shifts(const std::vector<CasesReport>& lines,
                                   const std::string& case_id, const Vec3& p_VoP_V);

/// Fills the rows and curves of all that is solved.
void add_drivetrain_rows(const Printer& print, DrivetrainReport& drivetrain);

/// Greatest and least overall ratio of gears and ranges; NaN while there is none.
double greatest_ratio(const build::Map<build::Gear>& gears);
double least_ratio(const build::Map<build::Gear>& gears);

/// What the engine puts into the gearbox at most, with its converter.
double engine_torque_Nm(const build::Build& build);

/// Friction of the tyres: the file's, or 0.9 (common practice, dry ground).
double grip_of(const build::Build& build);

/// Share of the torque that gears and joints leave: the file's, or 0.85 (common practice).
double efficiency_of(const build::Build& build);

/// What the tyres of a driven axle take before they slip, by share of the torque: torque of its
/// shaft, or load on the ground.
std::vector<driveline::AxleShare> shaft_grips(const build::Build& build, const Report& report);
std::vector<driveline::AxleShare> axle_grips(const build::Build& build, const Report& report);

/// Load on both wheels of an axle in the ride state; NaN: not known.
double axle_load_N(const Report& report, const std::string& axle);

}  // namespace rig::check
