#include "check/settle_states.h"

#include <fmt/format.h>

#include <cmath>

namespace rig::check {
namespace {

/// States without a resting place are told together.
void tell_tipping(const Diagnostic& diagnostic, const std::string& label, const std::string& path,
                  Report& report) {
  for (auto& told : report.diagnostics) {
    if (told.code != diagnostic.code) continue;
    told.message += fmt::format(" and in \"{}\"", label);
    return;
  }
  report.diagnostics.push_back(diagnostic);
  report.diagnostics.back().path = path;
  report.diagnostics.back().message += fmt::format(", in \"{}\"", label);
}

void settle_state(const build::Build& build, const Axles& axles, const std::string& id,
                  const std::string& label, const std::string& path, Report& report) {
  auto weighed = weigh::weigh_state(build, id);
  if (!weighed) {
    report.add_faults(weighed.error());
    return;
  }
  StateReport told{
      .id = id, .label = label, .weigh = std::move(*weighed), .truck = {}, .settled = {}};
  report.add_faults(told.weigh.faults);
  report.missing.insert(report.missing.end(), told.weigh.missing.begin(), told.weigh.missing.end());
  told.truck = make_truck(build, axles, told.weigh, report.missing);
  if (told.truck) {
    // A twist stiffness in the file goes before the frame's own.
    if (!build.frame.twist_stiffness.known() && report.frame) {
      const double twist = report.frame->twist_stiffness_Nm_per_rad();
      if (std::isfinite(twist)) told.truck->frame_twist_stiffness_Nm_per_rad = twist;
    }
    auto settled = suspension::settle(*told.truck, flat_ground());
    if (settled) {
      told.settled = std::move(*settled);
    } else {
      for (auto& diagnostic : settled.error()) {
        if (diagnostic.code == "suspension.tips_over") {
          tell_tipping(diagnostic, label, path, report);
          continue;
        }
        report.diagnostics.push_back(diagnostic);
        report.diagnostics.back().path = path;
      }
    }
  }
  report.states.push_back(std::move(told));
}

}  // namespace

void settle_states(const build::Build& build, const Axles& axles, Report& report) {
  for (const auto& state : build.load_states) {
    settle_state(build, axles, state.id, state.value.label.empty() ? state.id : state.value.label,
                 state.path, report);
  }
  if (!build.load_states.empty()) return;
  if (build.masses.empty() && build.corner_weighings.empty()) return;
  settle_state(build, axles, "", "As it stands", "/masses", report);
}

}  // namespace rig::check
