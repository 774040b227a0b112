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

WallStress stress_at(const Section& section, const SectionProperties& properties,
                     const SectionForces& f, const WallPoint& at) {
  const auto w = static_cast<std::size_t>(at.wall);
  const Wall& wall = section.walls[w];
  const auto from = static_cast<std::size_t>(wall.from), to = static_cast<std::size_t>(wall.to);
  const Vec2 along = (section.p_ON[to] - section.p_ON[from]).normalized();
  const Vec2 left(-along.y(), along.x());
  const Vec2 p_OM = section.p_ON[from] + at.share * (section.p_ON[to] - section.p_ON[from]);
  const double side = at.face == WallFace::middle ? 0 : at.face == WallFace::left ? 1 : -1;
  const double off_m = side * wall.thickness_m / 2;

  const Vec2 p_CP = p_OM + off_m * left - properties.p_OC;
  Eigen::Matrix2d I;
  I << properties.I_z_m4, properties.I_yz_m4, properties.I_yz_m4, properties.I_y_m4;
  const Vec2 slope = I.inverse() * Vec2(-f.moment_z_Nm, f.moment_y_Nm);
  const double sectorial_m2 =
      properties.sectorial_m2[from] +
      at.share * (properties.sectorial_m2[to] - properties.sectorial_m2[from]) +
      off_m * along.dot(p_OM - properties.p_OS);
  const double warping_m6 = properties.warping_constant_m6 + properties.warping_across_m6;

  const WallFlows& flows = properties.flows[w];
  WallStress out{.at = at};
  out.axial_Pa = f.axial_N / properties.area_m2 + slope.dot(p_CP);
  if (f.bimoment_Nm2 != 0) out.axial_Pa += f.bimoment_Nm2 * sectorial_m2 / warping_m6;
  const double twist_N_per_m3 = f.torque_St_Venant_Nm / properties.torsion_constant_m4;
  out.shear_flow_N_per_m = f.shear_y_N * flows.shear_y_per_m.at(at.share) +
                           f.shear_z_N * flows.shear_z_per_m.at(at.share) +
                           f.torque_warping_Nm * flows.warping_per_m2.at(at.share) +
                           twist_N_per_m3 * flows.twist_m2;
  const double across_slope = 2 - wall.curvature_per_m * flows.twist_m2 / wall.thickness_m;
  out.shear_Pa = out.shear_flow_N_per_m / wall.thickness_m - off_m * across_slope * twist_N_per_m3;
  out.von_mises_Pa = std::sqrt(out.axial_Pa * out.axial_Pa + 3 * out.shear_Pa * out.shear_Pa);
  return out;
}

/// Where along the wall the total flow peaks; a quarter point again when it does not.
double peak_share(const WallFlows& flows, const SectionForces& f) {
  const auto total = [&](double share) {
    return f.shear_y_N * flows.shear_y_per_m.at(share) +
           f.shear_z_N * flows.shear_z_per_m.at(share) +
           f.torque_warping_Nm * flows.warping_per_m2.at(share);
  };
  const double slope = 4 * total(0.5) - 3 * total(0) - total(1);
  const double curve = 2 * (total(0) + total(1) - 2 * total(0.5));
  const double share = -slope / (2 * curve);
  return share > 0 && share < 1 ? share : 0.5;
}

}  // namespace

Result<WallStress> calc_wall_stress(const Section& section, const SectionProperties& properties,
                                    const SectionForces& forces, const WallPoint& at) {
  RIG_REQUIRE(properties.flows.size() == section.walls.size());
  RIG_REQUIRE(at.wall >= 0 && std::cmp_less(at.wall, section.walls.size()));
  RIG_REQUIRE(at.share >= 0 && at.share <= 1);
  if (Diagnostics faults = check_forces(section, properties, forces); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  return stress_at(section, properties, forces, at);
}

Result<WallStress> find_worst_stress(const Section& section, const SectionProperties& properties,
                                     const SectionForces& forces) {
  RIG_REQUIRE(properties.flows.size() == section.walls.size());
  if (Diagnostics faults = check_forces(section, properties, forces); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  WallStress worst{.von_mises_Pa = -1};
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    for (const double share :
         {0.0, 0.25, 0.5, 0.75, 1.0, peak_share(properties.flows[w], forces)}) {
      for (const WallFace face : {WallFace::middle, WallFace::left, WallFace::right}) {
        const WallStress stress =
            stress_at(section, properties, forces,
                      {.wall = static_cast<int>(w), .share = share, .face = face});
        if (stress.von_mises_Pa > worst.von_mises_Pa) worst = stress;
      }
    }
  }
  return worst;
}

}  // namespace rig::section
