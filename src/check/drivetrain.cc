#include "check/drivetrain.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

#include "base/side_by_side.h"
#include "check/limits_drivetrain.h"
#include "units/factors.h"

namespace rig::check {
namespace {

/// Of tyres on dry ground, where the file tells none; common practice.
constexpr double kGrip = 0.9;
/// Share of the torque that gears and joints leave in low gears; common practice (from memory).
constexpr double kEfficiency = 0.85;

bool is_told(const build::Drivetrain& drivetrain) {
  return !drivetrain.segments.empty() || !drivetrain.shafts.empty() || !drivetrain.gears.empty();
}

double radius_m(const Report& report, const std::string& axle) {
  const AxleReport* found = report.axle(axle);
  return found == nullptr || !(found->model.loaded_radius_m > 0) ? kNaN
                                                                 : found->model.loaded_radius_m;
}

/// What both axles' tyres take together: each as much as it can, or behind a differential by the
/// shares. NaN: not known.
double join_grips(const build::Build& build, const std::vector<driveline::AxleShare>& grips) {
  if (grips.empty()) return kNaN;
  if (build.drivetrain.centre == build::CentreKind::kDifferential) {
    return driveline::calc_differential_limit(grips);
  }
  double sum = 0;
  for (const driveline::AxleShare& grip : grips) sum += grip.most;
  return sum;
}

template <typename Most>
std::vector<driveline::AxleShare> list_grips(const build::Build& build, Most most) {
  std::vector<driveline::AxleShare> grips;
  for (const auto& axle : build.axles) {
    if (axle.value.drive_share.si == 0) continue;
    grips.push_back({axle.value.drive_share.si, most(axle)});
  }
  return grips;
}

/// Torque that rolls the cases: the gears' or the grip's, whichever is less; else what the frame's
/// drive torques tell.
void find_torque(const build::Build& build, const Report& report, DrivetrainReport& out) {
  const double by_engine = engine_torque_Nm(build) * greatest_ratio(build.drivetrain.gears) *
                           greatest_ratio(build.drivetrain.ranges);
  const double by_grip = join_grips(build, shaft_grips(build, report));
  if (std::isfinite(by_engine)) {
    const bool slips = by_grip < by_engine;
    out.cases_torque_Nm = slips ? by_grip : by_engine;
    const bool shares = build.drivetrain.centre == build::CentreKind::kDifferential;
    out.torque_basis = !slips   ? "engine torque in the lowest gears"
                       : shares ? "where the first axle's tyres slip behind the differential"
                                : "where all driven tyres slip";
    return;
  }
  for (const auto& torque : build.frame.drive_torques) {
    if (std::abs(torque.value.torque.si) > std::abs(out.cases_torque_Nm) ||
        (std::isnan(out.cases_torque_Nm) && torque.value.torque.known())) {
      out.cases_torque_Nm = torque.value.torque.si;
      out.torque_basis = "the frame's torque of the shafts in the file";
    }
  }
}

void add_gears(const build::Build& build, const Report& report, DrivetrainReport& out) {
  const build::Entry<build::Axle>* driven = nullptr;
  for (const auto& axle : build.axles) {
    if (axle.value.drive_share.si == 0 || !axle.value.gear_ratio.known()) continue;
    if (driven == nullptr || axle.value.end == build::End::kRear) driven = &axle;
  }
  if (driven == nullptr) return;
  const double radius = radius_m(report, driven->id);
  const double driven_load_N = join_grips(build, axle_grips(build, report));
  const StateReport* ride = report.ride();
  const build::Map<build::Gear> straight{{.id = "", .path = "", .value = {}}};
  const auto& ranges = build.drivetrain.ranges.empty() ? straight : build.drivetrain.ranges;
  for (const auto& gear : build.drivetrain.gears) {
    for (const auto& range : ranges) {
      const double by = build.drivetrain.ranges.empty() ? 1 : range.value.ratio.si;
      if (!gear.value.ratio.known() || std::isnan(by)) continue;
      const auto name = [](const auto& entry) {
        return entry.value.label.empty() ? entry.id : entry.value.label;
      };
      GearReport one{.gear = name(gear),
                     .range = name(range),
                     .path = {gear.value.ratio.si, by, driven->value.gear_ratio.si}};
      if (build.drivetrain.engine) {
        const build::Engine& engine = *build.drivetrain.engine;
        one.idle_m_per_s = driveline::calc_road_speed_m_per_s(one.path, engine.idle.si, radius);
        one.top_m_per_s = driveline::calc_road_speed_m_per_s(one.path, engine.top_speed.si, radius);
        const double road_rad_per_s =
            driveline::calc_engine_speed_rad_per_s(one.path, kRoadSpeed_m_per_s, radius);
        if (road_rad_per_s <= engine.top_speed.si) one.road_rad_per_s = road_rad_per_s;
        const weigh::Standing* standing = ride == nullptr ? nullptr : ride->standing();
        if (engine.torque.known() && standing != nullptr && std::isfinite(driven_load_N)) {
          const double towed = ride->weigh.hitch ? ride->weigh.hitch->trailer_mass_kg : 0;
          one.climb = driveline::calc_climb(
              {.wheel_torque_Nm = efficiency_of(build) * engine.torque.si * one.path.to_wheel(),
               .radius_m = radius,
               .driven_load_N = driven_load_N,
               .grip = grip_of(build),
               .mass_kg = standing->truck.mass_kg,
               .towed_kg = towed > 0 ? towed : 0});
        }
      }
      out.gears.push_back(std::move(one));
    }
  }
  std::stable_sort(out.gears.begin(), out.gears.end(), [](const auto& a, const auto& b) {
    return a.path.to_wheel() > b.path.to_wheel();
  });
}

void add_lifts(const build::Build& build, DrivetrainReport& out) {
  for (const auto& lift : build.drivetrain.lifts) {
    std::vector<std::size_t> hung;
    const CasesReport* on = nullptr;
    for (const CasesReport& line : out.lines) {
      for (std::size_t i = 0; i < line.from.line.cases.size(); ++i) {
        const std::string& id = line.from.line.cases[i].id;
        const bool taken = std::any_of(lift.value.takes.begin(), lift.value.takes.end(),
                                       [&](const build::Reference& use) { return use.id == id; });
        if (!taken || !(line.from.line.cases[i].mass_kg > 0)) continue;
        if (on == nullptr) on = &line;
        if (on == &line) hung.push_back(i);
      }
    }
    if (on == nullptr || hung.size() != lift.value.takes.size()) continue;
    LiftReport one{.id = lift.id,
                   .path = lift.path,
                   .label = lift.value.label.empty() ? lift.id : lift.value.label,
                   .hung = driveline::hang(on->from.line, hung)};
    for (const std::size_t i : hung) {
      one.parts.push_back({on->from.line.cases[i].label, on->from.line.cases[i].mass_kg});
    }
    if (lift.value.hook.known()) one.hook_off_m = lift.value.hook.si + one.hung.p_VoCm_V.x();
    if (build.drivetrain.hoist && build.drivetrain.hoist->sling.known() &&
        build.drivetrain.hoist->legs > 0) {
      // A stiff load on more than two legs may hang on two [references HO-07].
      const int legs = std::min(build.drivetrain.hoist->legs, 2);
      one.leg_N = one.hung.mass_kg * units::g / legs *
                  (legs == 1 ? 1 : driveline::calc_sling_factor(build.drivetrain.hoist->sling.si));
    }
    out.lifts.push_back(std::move(one));
  }
}

template <typename Better>
double best_ratio(const build::Map<build::Gear>& gears, Better better) {
  double best = kNaN;
  for (const auto& gear : gears) {
    if (!gear.value.ratio.known()) continue;
    if (std::isnan(best) || better(gear.value.ratio.si, best)) best = gear.value.ratio.si;
  }
  return best;
}

}  // namespace

double greatest_ratio(const build::Map<build::Gear>& gears) {
  return best_ratio(gears, std::greater<>());
}

double least_ratio(const build::Map<build::Gear>& gears) {
  return best_ratio(gears, std::less<>());
}

double engine_torque_Nm(const build::Build& build) {
  if (!build.drivetrain.engine) return kNaN;
  const build::Engine& engine = *build.drivetrain.engine;
  return engine.torque.si * (engine.converter.known() ? engine.converter.si : 1);
}

double grip_of(const build::Build& build) {
  return build.drivetrain.grip.known() ? build.drivetrain.grip.si : kGrip;
}

double efficiency_of(const build::Build& build) {
  return build.drivetrain.efficiency.known() ? build.drivetrain.efficiency.si : kEfficiency;
}

std::vector<driveline::AxleShare> shaft_grips(const build::Build& build, const Report& report) {
  return list_grips(build, [&](const build::Entry<build::Axle>& axle) {
    return grip_of(build) * axle_load_N(report, axle.id) * radius_m(report, axle.id) /
           axle.value.gear_ratio.si;
  });
}

std::vector<driveline::AxleShare> axle_grips(const build::Build& build, const Report& report) {
  return list_grips(
      build, [&](const build::Entry<build::Axle>& axle) { return axle_load_N(report, axle.id); });
}

double axle_load_N(const Report& report, const std::string& axle) {
  const StateReport* ride = report.ride();
  if (ride == nullptr || !ride->settled) return kNaN;
  for (std::size_t a = 0; a < ride->truck->axles.size(); ++a) {
    if (ride->truck->axles[a].id != axle) continue;
    const auto& loads_N = ride->settled->axles[a].wheel_loads_N;
    return loads_N[0] + loads_N[1];
  }
  return kNaN;
}

void add_drivetrain(const build::Build& build, frame::SectionBook& book, Report& report) {
  if (!is_told(build.drivetrain)) return;
  DrivetrainReport out;
  find_torque(build, report, out);
  const CaseFrame frame(build, report, book);
  for (auto& line : driveline::case_lines_from_build(build, build::Carried::kAsPlanned)) {
    report.missing.insert(report.missing.end(), line.missing.begin(), line.missing.end());
    out.lines.push_back(solve_case_line(build, std::move(line), out, frame, report));
  }
  auto made = make_side_by_side(report.axles.size(),
                                [&](std::size_t a) { return make_axle_grid(report.axles[a]); });
  std::map<std::string, AxleGrid> grids;
  for (std::size_t a = 0; a < made.size(); ++a) grids[report.axles[a].id] = std::move(made[a]);
  for (auto& shaft : driveline::shafts_from_build(build)) {
    report.missing.insert(report.missing.end(), shaft.missing.begin(), shaft.missing.end());
    const AxleGrid& grid = grids[shaft.axle];
    out.shafts.push_back(solve_shaft(build, std::move(shaft), out.lines, grid, report));
  }
  add_gaps(build, report, out);
  add_gears(build, report, out);
  add_lifts(build, out);
  add_drivetrain_rows(Printer(build.units), out);
  report.drivetrain = std::make_shared<const DrivetrainReport>(std::move(out));
}

}  // namespace rig::check
