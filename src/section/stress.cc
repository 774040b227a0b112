#include "section/stress.h"

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>

namespace rig::section {

namespace {

/// Share of the greater shear below which shear across a flat section is rounding.
constexpr double kAcross = 1e-9;

Diagnostics check_forces(const Section& section, const SectionProperties& properties,
                         const SectionForces& f) {
  Diagnostics out;
  const std::array values{f.axial_N,           f.shear_y_N,   f.shear_z_N,
                          f.moment_y_Nm,       f.moment_z_Nm, f.torque_St_Venant_Nm,
                          f.torque_warping_Nm, f.bimoment_Nm2};
  if (!std::all_of(values.begin(), values.end(), [](double v) { return std::isfinite(v); })) {
    out.push_back({.code = "section.force_not_finite",
                   .path = "",
                   .message = "a force or moment on the section is not a number",
                   .remedy = "",
                   .at = {}});
    return out;
  }
  if (!properties.flat) return out;
  const Wall& wall = section.walls.front();
  const Vec2 along = (section.p_ON[static_cast<std::size_t>(wall.to)] -
                      section.p_ON[static_cast<std::size_t>(wall.from)])
                         .normalized();
  const Vec2 shear(f.shear_y_N, f.shear_z_N);
  if (std::abs(along.x() * shear.y() - along.y() * shear.x()) > kAcross * shear.norm()) {
    out.push_back(
        {.code = "section.shear_across_flat",
         .path = "",
         .message = "shear acts across a flat plate, which carries it along its width only",
         .remedy = "turn the plate, or make it a section with depth both ways",
         .at = {}});
  }
  return out;
}

/// Factors of 1, share and its square.
void add_flow(const WallFlow& flow, double times, std::array<double, 3>& sum) {
  sum[0] += times * flow.from;
  sum[1] += times * (4 * flow.middle - 3 * flow.from - flow.to);
  sum[2] += times * 2 * (flow.from + flow.to - 2 * flow.middle);
}

}  // namespace

StressField::StressField(const Section& section, const SectionProperties& p,
                         const SectionForces& f) {
  Eigen::Matrix2d I;
  I << p.I_z_m4, p.I_yz_m4, p.I_yz_m4, p.I_y_m4;
  const Vec2 slope = I.inverse() * Vec2(-f.moment_z_Nm, f.moment_y_Nm);
  const double warping_m6 = p.warping_constant_m6 + p.warping_across_m6;
  const double bimoment = f.bimoment_Nm2 == 0 ? 0 : f.bimoment_Nm2 / warping_m6;
  const double twist_N_per_m3 = f.torque_St_Venant_Nm / p.torsion_constant_m4;
  walls_.reserve(section.walls.size());
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    const Wall& wall = section.walls[w];
    const auto from = static_cast<std::size_t>(wall.from), to = static_cast<std::size_t>(wall.to);
    const Vec2 &p_OF = section.p_ON[from], &p_OT = section.p_ON[to];
    const Vec2 along = (p_OT - p_OF).normalized(), left(-along.y(), along.x());
    const double half_m = wall.thickness_m / 2;
    const WallFlows& flows = p.flows[w];
    OnWall on{.thickness_m = wall.thickness_m,
              .axial_Pa = {f.axial_N / p.area_m2 + slope.dot(p_OF - p.p_OC) +
                               bimoment * p.sectorial_m2[from],
                           slope.dot(p_OT - p_OF) +
                               bimoment * (p.sectorial_m2[to] - p.sectorial_m2[from])},
              .across_Pa = {half_m * (slope.dot(left) + bimoment * along.dot(p_OF - p.p_OS)),
                            half_m * bimoment * along.dot(p_OT - p_OF)},
              .flow_N_per_m = {},
              .flow_of_cells_N_per_m = twist_N_per_m3 * flows.twist_m2};
    add_flow(flows.shear_y_per_m, f.shear_y_N, on.flow_N_per_m);
    add_flow(flows.shear_z_per_m, f.shear_z_N, on.flow_N_per_m);
    add_flow(flows.warping_per_m2, f.torque_warping_Nm, on.flow_N_per_m);
    on.twist_Pa =
        half_m * (2 - wall.curvature_per_m * flows.twist_m2 / wall.thickness_m) * twist_N_per_m3;
    walls_.push_back(on);
  }
}

WallStress StressField::at(const WallPoint& at) const {
  const OnWall& on = walls_[static_cast<std::size_t>(at.wall)];
  const double side = at.face == WallFace::middle ? 0 : at.face == WallFace::left ? 1 : -1;
  WallStress out{.at = at};
  out.axial_Pa = on.axial_Pa[0] + at.share * on.axial_Pa[1] +
                 side * (on.across_Pa[0] + at.share * on.across_Pa[1]);
  out.shear_flow_N_per_m = on.flow_at(at.share);
  out.shear_Pa = out.shear_flow_N_per_m / on.thickness_m - side * on.twist_Pa;
  out.von_mises_Pa = std::sqrt(out.axial_Pa * out.axial_Pa + 3 * out.shear_Pa * out.shear_Pa);
  return out;
}

std::array<WallStress, 3> StressField::across(int wall, double share) const {
  return {at({.wall = wall, .share = share, .face = WallFace::middle}),
          at({.wall = wall, .share = share, .face = WallFace::left}),
          at({.wall = wall, .share = share, .face = WallFace::right})};
}

double StressField::bound_Pa(std::size_t wall) const {
  constexpr double kRounding = 1 + 1e-12;
  const OnWall& on = walls_[wall];
  // Axial stress is linear along the wall and across it, the flow a quadratic along it.
  const double axial_Pa = std::max(
      std::abs(on.axial_Pa[0]) + std::abs(on.across_Pa[0]),
      std::abs(on.axial_Pa[0] + on.axial_Pa[1]) + std::abs(on.across_Pa[0] + on.across_Pa[1]));
  const double flow_N_per_m = std::max(
      {std::abs(on.flow_at(0)), std::abs(on.flow_at(1)), std::abs(on.flow_at(peak_share(wall)))});
  const double shear_Pa = flow_N_per_m / on.thickness_m + std::abs(on.twist_Pa);
  return kRounding * std::sqrt(axial_Pa * axial_Pa + 3 * shear_Pa * shear_Pa);
}

double StressField::peak_share(std::size_t wall) const {
  const auto& flow = walls_[wall].flow_N_per_m;
  const double share = -flow[1] / (2 * flow[2]);
  return share > 0 && share < 1 ? share : 0.5;
}

Result<WallStress> calc_wall_stress(const Section& section, const SectionProperties& properties,
                                    const SectionForces& forces, const WallPoint& at) {
  RIG_REQUIRE(properties.flows.size() == section.walls.size());
  RIG_REQUIRE(at.wall >= 0 && std::cmp_less(at.wall, section.walls.size()));
  RIG_REQUIRE(at.share >= 0 && at.share <= 1);
  if (Diagnostics faults = check_forces(section, properties, forces); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  return StressField(section, properties, forces).at(at);
}

Result<WallStress> find_worst_stress(const Section& section, const SectionProperties& properties,
                                     const SectionForces& forces) {
  RIG_REQUIRE(properties.flows.size() == section.walls.size());
  if (Diagnostics faults = check_forces(section, properties, forces); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  const StressField field(section, properties, forces);
  WallStress worst{.von_mises_Pa = -1};
  for (std::size_t w = 0; w < field.walls(); ++w) {
    if (field.bound_Pa(w) <= worst.von_mises_Pa) continue;
    for (const double share : {0.0, 0.25, 0.5, 0.75, 1.0, field.peak_share(w)}) {
      for (const WallStress& stress : field.across(static_cast<int>(w), share)) {
        if (stress.von_mises_Pa > worst.von_mises_Pa) worst = stress;
      }
    }
  }
  return worst;
}

}  // namespace rig::section
