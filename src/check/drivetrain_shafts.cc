#include <algorithm>
#include <cmath>

#include "check/limits_drivetrain.h"
#include "check/shaft_places.h"
#include "check/words.h"

namespace rig::check {
namespace {

using driveline::ShaftEnds;
using driveline::ShaftPose;

ShaftRoom room_of(const ShaftPose& pose) {
  // NaN, what is not told, is no limit.
  if (pose.bind_left_rad < 0 || pose.in_left_m < 0 || pose.out_left_m < 0) return ShaftRoom::kPast;
  if (pose.bind_left_rad < kBindClose_rad || pose.in_left_m < kSlipLeft_m ||
      pose.out_left_m < kSlipLeft_m) {
    return ShaftRoom::kClose;
  }
  return ShaftRoom::kFree;
}

/// Fastest that a shaft turns: told, or the engine's top speed in the highest gears.
double shaft_speed(const build::Drivetrain& drivetrain) {
  if (drivetrain.shaft_speed.known()) return drivetrain.shaft_speed.si;
  if (!drivetrain.engine) return kNaN;
  const double range = drivetrain.ranges.empty() ? 1 : least_ratio(drivetrain.ranges);
  return drivetrain.engine->top_speed.si / (least_ratio(drivetrain.gears) * range);
}

/// Turns of the crank for one of the shafts in the lowest gears; no ranges count as one of 1.
double lowest_gears(const build::Drivetrain& drivetrain) {
  const double range = drivetrain.ranges.empty() ? 1 : greatest_ratio(drivetrain.ranges);
  return greatest_ratio(drivetrain.gears) * range;
}

/// How fast a shaft turns where the engine pulls hardest in the lowest gears; NaN: not known.
double torque_speed(const build::Drivetrain& drivetrain) {
  if (!drivetrain.engine) return kNaN;
  return drivetrain.engine->torque_speed.si / lowest_gears(drivetrain);
}

class ShaftSolver {
 public:
  ShaftSolver(const build::Build& build, driveline::ShaftFromBuild from,
              const std::vector<CasesReport>& lines, const AxleGrid& grid, Report& report)
      : build_(build), lines_(lines), grid_(grid), report_(report) {
    out_.from = std::move(from);
    out_.speed_rad_per_s = std::isnan(out_.from.fastest_rad_per_s) ? shaft_speed(build.drivetrain)
                                                                   : out_.from.fastest_rad_per_s;
    axle_ = report.axle(out_.from.axle);
  }

  ShaftReport solve() {
    if (!out_.from.complete()) return std::move(out_);
    if (!place()) return std::move(out_);
    add_map();
    solve_pinion();
    solve_cut();
    solve_critical_speed();
    solve_torque();
    return std::move(out_);
  }

 private:
  /// Through poses; none with a fault, which is told.
  std::optional<driveline::ShaftTravel> travel(const std::vector<ShaftEnds>& poses) {
    const double speed = std::isnan(out_.speed_rad_per_s) ? 0 : out_.speed_rad_per_s;
    auto solved = driveline::calc_shaft_travel(out_.from.shaft, poses, speed);
    if (solved) return *std::move(solved);
    for (Diagnostic fault : solved.error()) {
      fault.path = out_.from.path;
      report_.add_faults({std::move(fault)});
    }
    return std::nullopt;
  }

  bool place() {
    ShaftPlaces places = find_shaft_places(out_.from.drawn, axle_);
    std::vector<ShaftEnds> unmoved = places.bump;
    unmoved.insert(unmoved.end(), places.others.begin(), places.others.end());
    for (const auto& place : grid_.places) {
      if (place) unmoved.push_back(ends_at(out_.from.drawn, axle_->model, *place));
    }
    out_.unmoved = unmoved.size();
    std::vector<ShaftEnds> all = std::move(unmoved);
    std::vector<ShaftEnds> swept = places.bump;
    swept.insert(swept.end(), places.others.begin(), places.others.end());
    const auto starts = find_shifts(lines_, out_.from.from_case, out_.from.drawn.p_VIn);
    const auto ends = find_shifts(lines_, out_.from.to_case, out_.from.drawn.p_VOut);
    for (std::size_t l = 0; l < starts.size(); ++l) {
      const driveline::CaseMotion end = l < ends.size() ? ends[l].motion : driveline::CaseMotion{};
      const auto moved = move_ends(swept, starts[l].motion, end);
      all.insert(all.end(), moved.begin(), moved.end());
      out_.moved.push_back({starts[l].id, starts[l].label, {}});
    }
    auto bump = travel(places.bump);
    auto travelled = bump ? travel(all) : std::nullopt;
    if (!travelled) return false;
    out_.bump_m = std::move(places.bump_m);
    out_.bump_ends = std::move(places.bump);
    out_.ride = places.ride;
    out_.corners = std::move(places.corners);
    out_.bump = *std::move(bump);
    out_.all = *std::move(travelled);
    for (std::size_t l = 0; l < out_.moved.size(); ++l) {
      ShaftUnderLoad& load = out_.moved[l];
      load.ride = out_.all.poses[out_.unmoved + l * swept.size() + out_.ride];
      load.speed_rad_per_s =
          load.id == "torque" ? torque_speed(build_.drivetrain) : out_.speed_rad_per_s;
    }
    return true;
  }

  /// The places of the grid stand last among those as drawn.
  void add_map() {
    if (grid_.empty()) return;
    out_.map = {grid_.bump_m, grid_.roll_rad, {}};
    const auto reached = std::count_if(grid_.places.begin(), grid_.places.end(),
                                       [](const auto& place) { return place.has_value(); });
    std::size_t pose = out_.unmoved - static_cast<std::size_t>(reached);
    for (const auto& place : grid_.places) {
      out_.map.rooms.push_back(place ? room_of(out_.all.poses[pose++]) : ShaftRoom::kNotReached);
    }
  }

  void solve_pinion() {
    if (!std::isnan(out_.speed_rad_per_s)) {
      std::vector<double> shake;
      for (const ShaftPose& pose : out_.bump.poses) shake.push_back(pose.torsional_rad_per_s2);
      out_.steady =
          driveline::find_steady_stretch(out_.bump_m, shake, kTorsional_rad_per_s2, out_.ride);
    }
    if (axle_ == nullptr) return;
    auto line = driveline::make_shaft_line(out_.from.shaft, out_.bump_ends[out_.ride]);
    const driveline::PinionTurn turn{.p_VC = axle_->model.p_VC};
    if (auto found = driveline::find_pinion_angle(line, turn)) out_.pinion = *std::move(found);
    if (line.joint_count != 2 || line.joints[0].kind != driveline::JointKind::kCardan) return;
    if (out_.pinion && out_.pinion->motion.line.angle_rad < kCancels_rad) return;
    line.joints[0].kind = driveline::JointKind::kDoubleCardan;
    if (auto found = driveline::find_pinion_angle(line, turn)) {
      out_.double_cardan = *std::move(found);
    }
  }

  /// Length between the welds that leaves as much slide at either end.
  void solve_cut() {
    const auto& spline = out_.from.shaft.spline;
    if (!spline || std::isnan(out_.from.plain_yoke_m) || std::isnan(out_.from.sliding_yoke_m)) {
      return;
    }
    const auto cut = driveline::calc_tube_cut(
        {.shortest_m = out_.all.extremes.shortest_m[spline->tube].value,
         .ride_m = out_.bump.poses[out_.ride].motion.tubes[spline->tube].length_m,
         .longest_m = out_.all.extremes.longest_m[spline->tube].value,
         .fixed_yoke_m = out_.from.plain_yoke_m,
         .closed_yoke_m = out_.from.sliding_yoke_m,
         .slide_m = spline->out_length_m - spline->closed_length_m - spline->least_engagement_m});
    if (cut) {
      out_.cut = *cut;
      return;
    }
    for (Diagnostic fault : cut.error()) {
      fault.path = out_.from.path + "/slip";
      report_.add_faults({std::move(fault)});
    }
  }

  /// Every tube at its longest.
  void solve_critical_speed() {
    std::vector<double> lengths_m;
    for (std::size_t t = 0; t + 1 < out_.from.shaft.joint_count; ++t) {
      lengths_m.push_back(out_.all.extremes.longest_m[t].value);
    }
    const auto beam = driveline::make_shaft_beam(out_.from, lengths_m);
    if (!beam) return;
    const auto speed = driveline::is_even(out_.from)
                           ? driveline::calc_critical_speed(*out_.from.tubes[0], lengths_m[0])
                           : driveline::solve_critical_speed(*beam);
    if (speed) {
      out_.critical = *speed;
      const auto* driven = build::find(build_.axles, out_.from.axle);
      if (driven == nullptr || axle_ == nullptr) return;
      out_.critical_road_m_per_s = driveline::kGreatestSpeedShare * speed->speed_rad_per_s *
                                   axle_->model.loaded_radius_m / driven->value.gear_ratio.si;
      return;
    }
    for (Diagnostic fault : speed.error()) {
      fault.path = out_.from.path;
      report_.add_faults({std::move(fault)});
    }
  }

  void solve_torque() {
    const auto* driven = build::find(build_.axles, out_.from.axle);
    if (driven == nullptr || axle_ == nullptr) return;
    const auto& drivetrain = build_.drivetrain;
    auto torque = driveline::calc_shaft_torque({.engine_Nm = engine_torque_Nm(build_),
                                                .ratio_to_shaft = lowest_gears(drivetrain),
                                                .friction = grip_of(build_),
                                                .axle_load_N = axle_load_N(report_, driven->id),
                                                .tyre_radius_m = axle_->model.loaded_radius_m,
                                                .axle_ratio = driven->value.gear_ratio.si});
    if (!torque) return;  // something is not told; what, the gears' and axles' own rows show
    if (drivetrain.centre == build::CentreKind::kDifferential) share(driven->value, *torque);
    out_.torque = *torque;
    if (!(out_.from.yield_Pa > 0)) return;
    for (std::size_t t = 0; t + 1 < out_.from.shaft.joint_count; ++t) {
      if (!out_.from.tubes[t]) continue;
      twist(*out_.from.tubes[t], out_.bump.poses[out_.ride].motion.tubes[t].length_m, false);
    }
    const double bar_m = out_.from.stub_diameter_m;
    if (bar_m > 0 && out_.from.stub_length_m > 0) {
      twist({.outside_diameter_m = bar_m, .wall_m = bar_m / 2}, out_.from.stub_length_m, true);
    }
    const auto& spline = out_.from.shaft.spline;
    if (!spline || !(bar_m > 0)) return;
    out_.engaged_m = spline->out_length_m - out_.all.extremes.longest_m[spline->tube].value;
    // Splines that come apart have been told by what slip is left.
    const auto teeth =
        driveline::calc_spline_shear({.diameter_m = bar_m, .engaged_m = out_.engaged_m},
                                     out_.torque->torque_Nm, out_.from.yield_Pa);
    if (teeth) out_.teeth = *teeth;
  }

  /// Keeps the piece that is nearest to its yield.
  void twist(const driveline::ShaftTube& piece, double length_m, bool is_bar) {
    const auto torsion =
        driveline::calc_tube_torsion(piece, length_m, out_.torque->torque_Nm, out_.from.yield_Pa);
    if (!torsion) return;  // a tube that can't be has been told by its whirling speed
    if (out_.torsion && torsion->utilisation <= out_.torsion->utilisation) return;
    out_.torsion = *torsion;
    out_.bar_is_weakest = is_bar;
  }

  /// A differential keeps the shares: each shaft gets its own of what the axles together take.
  void share(const build::Axle& axle, driveline::ShaftTorque& torque) const {
    const double limit_Nm = driveline::calc_differential_limit(shaft_grips(build_, report_));
    if (std::isnan(limit_Nm) || !(axle.drive_share.si > 0)) return;
    torque.engine_Nm *= axle.drive_share.si;
    torque.grip_Nm = axle.drive_share.si * limit_Nm;
    torque.torque_Nm = std::min(torque.engine_Nm, torque.grip_Nm);
    torque.decides = torque.grip_Nm < torque.engine_Nm ? driveline::TorqueLimit::kGrip
                                                       : driveline::TorqueLimit::kEngine;
  }

  const build::Build& build_;
  const std::vector<CasesReport>& lines_;
  const AxleGrid& grid_;
  Report& report_;
  const AxleReport* axle_ = nullptr;
  ShaftReport out_;
};

}  // namespace

std::string ShaftReport::load_words(std::size_t pose) const {
  if (pose < unmoved || moved.empty()) return {};
  const std::size_t each = (all.poses.size() - unmoved) / moved.size();
  return uncapitalised(moved[(pose - unmoved) / each].label);
}

ShaftReport solve_shaft(const build::Build& build, driveline::ShaftFromBuild from,
                        const std::vector<CasesReport>& lines, const AxleGrid& grid,
                        Report& report) {
  return ShaftSolver(build, std::move(from), lines, grid, report).solve();
}

}  // namespace rig::check
