#include "check/findings.h"

#include <fmt/format.h>

#include <algorithm>

#include "check/words.h"

namespace rig::check {

void add_findings(const build::Build& build, const Printer& print, Report& report) {
  const Limits limits = resolve_limits(build.limits);
  std::vector<Finding> findings;
  const Subject subject{build, print, limits, report, findings};
  add_weight_findings(subject);
  add_stability_findings(subject);
  add_height_findings(subject);
  add_geometry_findings(subject);
  add_joint_findings(subject);
  add_spring_findings(subject);
  add_shock_findings(subject);
  add_stop_findings(subject);
  add_ride_findings(subject);
  add_articulation_findings(subject);
  add_worked_out_findings(subject);
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return a.verdict > b.verdict; });
  report.findings = std::move(findings);
}

void add_summaries(const build::Build& build, const Printer& print, Report& report) {
  (void)build;
  for (const auto& state : report.states) {
    const auto* standing = state.standing();
    if (standing == nullptr) continue;
    const Vec3& cg = standing->truck.p_VoBcm_V;
    report.weigh_summary.push_back(
        fmt::format("{}: {} ± {}, balance point {} behind the front axle and {} up.", state.label,
                    print.mass(standing->truck.mass_kg), print.mass(state.mass_plus_minus_kg()),
                    print.length(-cg.x()), print.length(cg.z())));
  }
  for (const auto& axle : report.axles) {
    for (const auto& seat : axle.seats) report.axles_summary.push_back(seat.sentence);
  }
}

}  // namespace rig::check
