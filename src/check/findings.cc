#include "check/findings.h"

#include <algorithm>

#include "check/left_out.h"

namespace rig::check {

void add_findings(const Subject& subject, Work work) {
  switch (work) {
    case Work::kWeigh:
      add_rating_findings(subject);
      add_weight_findings(subject);
      add_scale_findings(subject);
      add_cross_weight_finding(subject);
      add_stability_findings(subject);
      return;
    case Work::kAxles:
      add_height_findings(subject);
      add_geometry_findings(subject);
      add_joint_findings(subject);
      add_bind_findings(subject);
      add_spring_findings(subject);
      add_shock_findings(subject);
      add_stop_findings(subject);
      add_ride_findings(subject);
      add_articulation_findings(subject);
      add_worked_out_findings(subject);
      return;
    case Work::kFrame:
      add_frame_findings(subject);
      add_boxing_findings(subject);
      add_plate_findings(subject);
      add_hole_findings(subject);
      return;
    case Work::kDrivetrain:
      add_case_findings(subject);
      add_prop_shaft_findings(subject);
      add_placing_findings(subject);
      add_lift_findings(subject);
      return;
  }
}

void take_findings(std::vector<Finding> findings, Report& report) {
  doubt_what_is_left_out(report, findings);
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return a.verdict > b.verdict; });
  report.findings = std::move(findings);
}

}  // namespace rig::check
