#pragma once

#include "check/finding.h"

namespace rig::check {

/// Every finding of one work but those of the frame's stages, in the order in which they are found.
/// Several works may be looked at at once.
void add_findings(const Subject& subject, Work work);

/// Puts what was found into the report, worst first.
void take_findings(std::vector<Finding> findings, Report& report);

// By theme; each appends to `subject.findings` and leaves out what can't be known yet.
void add_rating_findings(const Subject& subject);
void add_weight_findings(const Subject& subject);
void add_scale_findings(const Subject& subject);
void add_cross_weight_finding(const Subject& subject);
void add_stability_findings(const Subject& subject);
void add_height_findings(const Subject& subject);
void add_geometry_findings(const Subject& subject);
void add_spring_findings(const Subject& subject);
void add_shock_findings(const Subject& subject);
void add_stop_findings(const Subject& subject);
void add_joint_findings(const Subject& subject);
void add_bind_findings(const Subject& subject);
void add_ride_findings(const Subject& subject);
void add_articulation_findings(const Subject& subject);
void add_worked_out_findings(const Subject& subject);
void add_frame_findings(const Subject& subject);
/// How far what the file tells of the frame and what sits on it goes with the rest.
void add_frame_input_findings(const Subject& subject);
void add_boxing_findings(const Subject& subject);
void add_plate_findings(const Subject& subject);
void add_hole_findings(const Subject& subject);
void add_prop_shaft_findings(const Subject& subject);
/// Flanges, mounts and modes of the cases.
void add_case_findings(const Subject& subject);
/// Where the cases stand: what they come near, and a better place.
void add_placing_findings(const Subject& subject);
/// What hangs on the hoist, and faces that could be joined.
void add_lift_findings(const Subject& subject);
void add_stage_findings(const Subject& subject);

}  // namespace rig::check
