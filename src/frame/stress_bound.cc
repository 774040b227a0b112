#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "frame/index_internal.h"
#include "frame/stress_bound_internal.h"

namespace rig::frame {

namespace {

/// A quadratic is nowhere larger than this times the largest of its values at both ends and in the
/// middle.
constexpr double kQuadratic = 1.25;

double most(const section::WallFlow& flow) {
  return kQuadratic * std::max({std::abs(flow.from), std::abs(flow.middle), std::abs(flow.to)});
}

void raise(double& to, double value) { to = std::max(to, std::abs(value)); }

}  // namespace

double StressBound::von_mises_Pa(const section::SectionForces& f) const {
  const double sigma = axial * std::abs(f.axial_N) + moment_y * std::abs(f.moment_y_Nm) +
                       moment_z * std::abs(f.moment_z_Nm) + bimoment * std::abs(f.bimoment_Nm2);
  const double tau = shear_y * std::abs(f.shear_y_N) + shear_z * std::abs(f.shear_z_N) +
                     torque_warping * std::abs(f.torque_warping_Nm) +
                     torque_St_Venant * std::abs(f.torque_St_Venant_Nm);
  return std::sqrt(sigma * sigma + 3 * tau * tau);
}

StressBound calc_stress_bound(const section::Section& s, const section::SectionProperties& p) {
  Eigen::Matrix2d I;
  I << p.I_z_m4, p.I_yz_m4, p.I_yz_m4, p.I_y_m4;
  const Eigen::Matrix2d slope = I.inverse();
  const double warping_m6 = p.warping_constant_m6 + p.warping_across_m6;
  StressBound out{.axial = 1 / p.area_m2};
  for (std::size_t w = 0; w < s.walls.size(); ++w) {
    const section::Wall& wall = s.walls[w];
    const double t = wall.thickness_m;
    const Vec2 along = (s.p_ON[at(wall.to)] - s.p_ON[at(wall.from)]).normalized();
    // Linear along a wall and across it: most at its corners.
    for (const int node : {wall.from, wall.to}) {
      for (const double off_m : {-t / 2, t / 2}) {
        const Vec2 p_CP = s.p_ON[at(node)] + off_m * Vec2(-along.y(), along.x()) - p.p_OC;
        raise(out.moment_z, slope.col(0).dot(p_CP));
        raise(out.moment_y, slope.col(1).dot(p_CP));
        if (!(warping_m6 > 0)) continue;
        raise(
            out.bimoment,
            (p.sectorial_m2[at(node)] + off_m * along.dot(s.p_ON[at(node)] - p.p_OS)) / warping_m6);
      }
    }
    const section::WallFlows& flows = p.flows[w];
    raise(out.shear_y, most(flows.shear_y_per_m) / t);
    raise(out.shear_z, most(flows.shear_z_per_m) / t);
    raise(out.torque_warping, most(flows.warping_per_m2) / t);
    raise(out.torque_St_Venant, (std::abs(flows.twist_m2) / t +
                                 t / 2 * std::abs(2 - wall.curvature_per_m * flows.twist_m2 / t)) /
                                    p.torsion_constant_m4);
  }
  return out;
}

double calc_depth_m(const section::Section& section) {
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Vec2& p : section.p_ON) {
    low = std::min(low, p.y());
    high = std::max(high, p.y());
  }
  return high - low;
}

section::SectionForces without_shear_across(const BeamSection& beam_section,
                                            const section::SectionForces& forces) {
  if (!beam_section.properties.flat) return forces;
  const section::Section& s = beam_section.section;
  const section::Wall& wall = s.walls.front();
  const Vec2 along = (s.p_ON[at(wall.to)] - s.p_ON[at(wall.from)]).normalized();
  const Vec2 kept = along * along.dot(Vec2(forces.shear_y_N, forces.shear_z_N));
  section::SectionForces out = forces;
  out.shear_y_N = kept.x();
  out.shear_z_N = kept.y();
  return out;
}

}  // namespace rig::frame
