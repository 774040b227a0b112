#include <fmt/format.h>

#include <cmath>
#include <future>

#include "check/drivetrain.h"
#include "check/severity.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using driveline::CaseLine;
using driveline::CaseLoads;
using units::g;

/// A support that is tried under the last case: a common rubber (common practice), N/m.
constexpr double kTriedSupport_N_per_m = 350e3;

struct NamedLoads {
  std::string id, label, basis;
  CaseLoads loads;
};

/// Torque on each case of a line, together `whole` about +x: each carries what its gears change.
std::vector<Vec3> share_torque(const build::Build& build, const CaseLine& line, double whole_Nm) {
  double gear = greatest_ratio(build.drivetrain.gears);
  double range = greatest_ratio(build.drivetrain.ranges);
  if (!(gear > 0)) gear = 1;
  if (!(range > 0)) range = 1;
  std::vector<Vec3> torques(line.cases.size(), Vec3::Zero());
  std::size_t gearbox = 0;
  for (std::size_t i = 0; i < line.cases.size(); ++i) {
    const auto* segment = build::find(build.drivetrain.segments, line.cases[i].id);
    if (segment->value.kind == build::SegmentKind::kGearbox) gearbox = i;
  }
  const double engine_Nm = whole_Nm / (gear * range);
  torques[0].x() += engine_Nm;
  torques[gearbox].x() += engine_Nm * (gear - 1);
  torques.back().x() += engine_Nm * gear * (range - 1);
  return torques;
}

std::vector<NamedLoads> make_loads(const build::Build& build, const CaseLine& line,
                                   const DrivetrainReport& drivetrain) {
  std::vector<NamedLoads> out{
      {"rest", "At rest", "weight", {.felt_V = {0, 0, -g}, .t_V = {}}},
      {"bump", "Bump, 3 g", "common practice", {.felt_V = {0, 0, -kBump * g}, .t_V = {}}},
      {"braking",
       "Braking, 0.8 g",
       "common practice",
       {.felt_V = {kBraking * g, 0, -g}, .t_V = {}}},
      {"left",
       "Turning left, 0.7 g",
       "common practice",
       {.felt_V = {0, -kCornering * g, -g}, .t_V = {}}},
      {"right",
       "Turning right, 0.7 g",
       "common practice",
       {.felt_V = {0, kCornering * g, -g}, .t_V = {}}}};
  if (std::isfinite(drivetrain.cases_torque_Nm)) {
    out.push_back(
        {"torque",
         "Full torque",
         drivetrain.torque_basis,
         {.felt_V = {0, 0, -g}, .t_V = share_torque(build, line, drivetrain.cases_torque_Nm)}});
  }
  return out;
}

/// Greatest bending at each flange of the makers' own line, by the case ahead and behind.
std::vector<double> made_bending(const build::Build& build, const CaseLine& planned,
                                 const DrivetrainReport& drivetrain, const CaseFrame& frame) {
  std::vector<double> out(planned.cases.empty() ? 0 : planned.cases.size() - 1, kNaN);
  for (auto& made : driveline::case_lines_from_build(build, build::Carried::kAsMade)) {
    if (!made.complete()) continue;
    made.line.frame_m_per_N = frame.under(made.line);
    const auto loads = make_loads(build, made.line, drivetrain);
    for (const NamedLoads& load : loads) {
      const auto carried = driveline::solve_cases(made.line, load.loads);
      if (!carried) return out;
      for (std::size_t m = 0; m + 1 < made.line.cases.size(); ++m) {
        for (std::size_t p = 0; p < out.size(); ++p) {
          if (planned.cases[p].id != made.line.cases[m].id) continue;
          const double bending = carried->flanges[m].bending_Nm;
          if (!(out[p] >= bending)) out[p] = bending;
        }
      }
    }
  }
  return out;
}

/// True where the makers' mounts are another set than the planned ones.
bool has_makers_mounts(const build::Drivetrain& drivetrain) {
  for (const auto& mount : drivetrain.mounts) {
    if (mount.value.fate == build::Fate::kComesOut) return true;
  }
  return false;
}

}  // namespace

std::string CasesReport::flange_words(std::size_t ahead) const {
  const auto& cases = from.line.cases;
  return fmt::format("{} to {}", cases[ahead].label, uncapitalised(cases[ahead + 1].label));
}

CasesReport solve_case_line(const build::Build& build, driveline::CaseLineFromBuild from,
                            const DrivetrainReport& drivetrain, const CaseFrame& frame,
                            Report& report) {
  CasesReport out{.from = std::move(from)};
  if (!out.from.complete()) return out;
  out.from.line.frame_m_per_N = frame.under(out.from.line);
  const CaseLine& line = out.from.line;
  for (std::size_t m = 0; m < line.mounts.size() && line.frame_m_per_N.size() > 0; ++m) {
    const auto up = static_cast<Eigen::Index>(3 * m + 2);
    out.softest_frame_N_per_m =
        std::fmin(out.softest_frame_N_per_m, 1 / line.frame_m_per_N(up, up));
  }
  std::vector<CaseLoads> all;
  for (NamedLoads& named : make_loads(build, line, drivetrain)) {
    auto carried = driveline::solve_cases(line, named.loads,
                                          out.loads.empty() ? nullptr : &out.loads[0].carried);
    if (!carried) {
      report.add_faults(carried.error());
      return out;
    }
    all.push_back(named.loads);
    out.loads.push_back({std::move(named.id), std::move(named.label), std::move(named.basis),
                         std::move(named.loads), *std::move(carried)});
  }
  if (has_makers_mounts(build.drivetrain)) {
    out.made_bending_Nm = made_bending(build, line, drivetrain, frame);
  }
  if (auto modes = driveline::solve_modes(line)) {
    out.modes = *std::move(modes);
  } else {
    for (const Diagnostic& fault : modes.error()) {
      report.missing.push_back({fault.path, "size of the cases", "how the powertrain rocks"});
    }
  }
  auto support = std::async(std::launch::async, [&] {
    return driveline::find_support_place(line, all, kTriedSupport_N_per_m);
  });
  if (auto rate = driveline::find_better_rate(line, all)) out.better_rate = *std::move(rate);
  if (auto found = support.get()) out.support = *std::move(found);
  return out;
}

std::vector<CaseShift> find_shifts(const std::vector<CasesReport>& lines,
                                   const std::string& case_id, const Vec3& p_VoP_V) {
  std::vector<CaseShift> shifts;
  for (const CasesReport& line : lines) {
    const CaseLine& cases = line.from.line;
    for (std::size_t i = 0; i < cases.cases.size(); ++i) {
      if (cases.cases[i].id != case_id || line.loads.empty()) continue;
      const auto at = [&](const CasesLoad& load) {
        return driveline::calc_case_motion(cases, load.carried, i, p_VoP_V);
      };
      const driveline::CaseMotion rest = at(line.loads.front());
      for (std::size_t l = 1; l < line.loads.size(); ++l) {
        const driveline::CaseMotion now = at(line.loads[l]);
        shifts.push_back({line.loads[l].id,
                          line.loads[l].label,
                          {now.travel_V - rest.travel_V, now.turn_V - rest.turn_V}});
      }
    }
  }
  return shifts;
}

}  // namespace rig::check
