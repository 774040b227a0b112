#include "check/findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/left_out.h"
#include "check/truck.h"
#include "check/words.h"

namespace rig::check {

void add_findings(const build::Build& build, const Printer& print, Report& report) {
  const Limits limits = resolve_limits(build.limits);
  std::vector<Finding> findings;
  const Subject subject{build, print, limits, report, findings};
  add_rating_findings(subject);
  add_weight_findings(subject);
  add_scale_findings(subject);
  add_cross_weight_finding(subject);
  add_stability_findings(subject);
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
  doubt_what_is_left_out(report, findings);
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return a.verdict > b.verdict; });
  report.findings = std::move(findings);
}

void add_summaries(const Printer& print, Report& report) {
  for (const auto& state : report.states) {
    const auto* standing = state.standing();
    if (standing == nullptr) continue;
    const Vec3& cg = standing->truck.p_VoBcm_V;
    if (!state.weigh.left_out.empty()) {
      const bool at_least = is_lower_bound(state);
      report.weigh_summary.push_back(fmt::format(
          "{}: {}{}, {} {}; balance point {}{} behind the front axle and {} up.", state.label,
          at_least ? "at least " : "", print.mass(standing->truck.mass_kg),
          at_least ? "without" : "by the scales, but its height leaves out", left_out_words(state),
          at_least ? "of the rest " : "", print.length(-cg.x()), print.length(cg.z())));
      continue;
    }
    report.weigh_summary.push_back(
        fmt::format("{}: {} ± {}, balance point {} behind the front axle and {} up.", state.label,
                    print.mass(standing->truck.mass_kg), print.mass(state.mass_plus_minus_kg()),
                    print.length(-cg.x()), print.length(cg.z())));
  }
  for (const auto& axle : report.axles) {
    for (const auto& seat : axle.seats) {
      report.axles_summary.push_back(
          fmt::format("{}: tack the upper seat {} from the lower one, {} below where the free coil "
                      "would put it.",
                      capitalised(part_words(axle, seat.coil.path, seat.coil.name)),
                      print.length(seat.seat.tack_length_m), print.length(seat.seat.below_free_m)));
    }
  }
  if (const StateReport* ride = report.ride(); ride != nullptr && ride->settled) {
    double most_m = 0;
    for (std::size_t a = 0; a < ride->truck->axles.size(); ++a) {
      for (const int side : {1, -1}) {
        most_m =
            std::max(most_m, std::abs(calc_height_error_m(*ride->truck, *ride->settled, a, side)));
      }
    }
    report.axles_summary.push_back(
        fmt::format("With the seats as drawn every corner sits within {} of "
                    "its drawn height in \"{}\".",
                    print.length_up(most_m), ride->label));
  }
}

}  // namespace rig::check
