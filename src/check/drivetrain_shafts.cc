#include <algorithm>
#include <cmath>

#include "check/drivetrain.h"

namespace rig::check {
namespace {

using driveline::ShaftEnds;
using suspension::SweptPose;

/// The shaft's far end where an axle's pose takes it.
ShaftEnds ends_at(const ShaftEnds& drawn, const suspension::AxleModel& axle,
                  const SweptPose& pose) {
  ShaftEnds ends = drawn;
  ends.p_VOut = pose.q.head<3>() + pose.R_VA * (drawn.p_VOut - axle.p_VC);
  ends.d_out_V = pose.R_VA * drawn.d_out_V;
  return ends;
}

/// Fastest that a shaft turns: told, or the engine's top speed in the highest gears.
double shaft_speed(const build::Drivetrain& drivetrain) {
  if (drivetrain.shaft_speed.known()) return drivetrain.shaft_speed.si;
  if (!drivetrain.engine) return kNaN;
  const double range = drivetrain.ranges.empty() ? 1 : least_ratio(drivetrain.ranges);
  return drivetrain.engine->top_speed.si / (least_ratio(drivetrain.gears) * range);
}

class ShaftSolver {
 public:
  ShaftSolver(const build::Build& build, driveline::ShaftFromBuild from, Report& report)
      : build_(build), report_(report) {
    out_.from = std::move(from);
    out_.speed_rad_per_s = shaft_speed(build.drivetrain);
  }

  ShaftReport solve() {
    if (!out_.from.complete()) return std::move(out_);
    if (!place()) return std::move(out_);
    solve_pinion();
    solve_critical_speed();
    solve_torque();
    return std::move(out_);
  }

 private:
  /// Through all poses; false with a fault.
  bool place() {
    const AxleReport* axle = report_.axle(out_.from.axle);
    std::vector<ShaftEnds> all;
    if (axle != nullptr) {
      for (const SweptPose& pose : axle->bump.poses) {
        out_.bump_m.push_back(pose.numbers.heave_m);
        out_.bump_ends.push_back(ends_at(out_.from.drawn, axle->model, pose));
      }
      for (const auto* sweep : {&axle->roll, &axle->crossed}) {
        for (const SweptPose& pose : sweep->poses) {
          all.push_back(ends_at(out_.from.drawn, axle->model, pose));
        }
      }
    }
    put_drawn();
    all.insert(all.end(), out_.bump_ends.begin(), out_.bump_ends.end());
    const double speed = std::isnan(out_.speed_rad_per_s) ? 0 : out_.speed_rad_per_s;
    auto bump = driveline::calc_shaft_travel(out_.from.shaft, out_.bump_ends, speed);
    auto travel = driveline::calc_shaft_travel(out_.from.shaft, all, speed);
    for (const auto* solved : {&bump, &travel}) {
      if (*solved) continue;
      for (Diagnostic fault : solved->error()) {
        fault.path = out_.from.path;
        report_.add_faults({std::move(fault)});
      }
      return false;
    }
    out_.bump = *std::move(bump);
    out_.all = *std::move(travel);
    return true;
  }

  /// As drawn the shaft stands just as the file has it, which no pose of a sweep need do.
  void put_drawn() {
    const auto after = std::lower_bound(out_.bump_m.begin(), out_.bump_m.end(), 0.0);
    const auto at = after - out_.bump_m.begin();
    out_.ride = static_cast<std::size_t>(at);
    if (after != out_.bump_m.end() && *after == 0) return;
    out_.bump_m.insert(after, 0);
    out_.bump_ends.insert(out_.bump_ends.begin() + at, out_.from.drawn);
  }

  void solve_pinion() {
    const AxleReport* axle = report_.axle(out_.from.axle);
    if (axle == nullptr) return;
    const auto line = driveline::make_shaft_line(out_.from.shaft, out_.bump_ends[out_.ride]);
    if (auto found = driveline::find_pinion_angle(line, {.p_VC = axle->model.p_VC})) {
      out_.pinion = *std::move(found);
    }
  }

  /// Of the longest tube alone, as far as it gets.
  void solve_critical_speed() {
    for (std::size_t t = 0; t + 1 < out_.from.shaft.joint_count; ++t) {
      const auto& tube = out_.from.tubes[t];
      if (!tube) continue;
      const double length_m = out_.all.extremes.longest_m[t].value;
      const auto speed = driveline::calc_critical_speed(*tube, length_m);
      if (!speed) continue;
      if (!out_.critical || speed->speed_rad_per_s < out_.critical->speed_rad_per_s) {
        out_.critical = *speed;
      }
    }
  }

  void solve_torque() {
    const auto* driven = build::find(build_.axles, out_.from.axle);
    const AxleReport* axle = report_.axle(out_.from.axle);
    if (driven == nullptr || axle == nullptr) return;
    const auto& drivetrain = build_.drivetrain;
    const double range = drivetrain.ranges.empty() ? 1 : greatest_ratio(drivetrain.ranges);
    const auto torque =
        driveline::calc_shaft_torque({.engine_Nm = engine_torque_Nm(build_),
                                      .ratio_to_shaft = greatest_ratio(drivetrain.gears) * range,
                                      .friction = grip_of(build_),
                                      .axle_load_N = axle_load_N(report_, driven->id),
                                      .tyre_radius_m = axle->model.loaded_radius_m,
                                      .axle_ratio = driven->value.gear_ratio.si});
    if (!torque) return;  // something is not told; what, the gears' and axles' own rows show
    out_.torque = *torque;
    if (!(out_.from.yield_Pa > 0)) return;
    for (std::size_t t = 0; t + 1 < out_.from.shaft.joint_count; ++t) {
      if (!out_.from.tubes[t]) continue;
      const auto torsion = driveline::calc_tube_torsion(
          *out_.from.tubes[t], out_.bump.poses[out_.ride].motion.tubes[t].length_m,
          torque->torque_Nm, out_.from.yield_Pa);
      if (!torsion) continue;
      if (!out_.torsion || torsion->utilisation > out_.torsion->utilisation) {
        out_.torsion = *torsion;
      }
    }
  }

  const build::Build& build_;
  Report& report_;
  ShaftReport out_;
};

}  // namespace

ShaftReport solve_shaft(const build::Build& build, driveline::ShaftFromBuild from, Report& report) {
  return ShaftSolver(build, std::move(from), report).solve();
}

}  // namespace rig::check
