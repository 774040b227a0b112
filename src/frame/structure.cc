#include "frame/structure.h"

#include <cmath>

#include "frame/beam_internal.h"
#include "frame/stress_bound_internal.h"

namespace rig::frame {

namespace {

/// Integral of the product of two shear flows over thickness, along all walls; Simpson's rule on
/// halves is not enough for a product of two quadratics, Gauss's three points are exact.
double calc_shear_cross(const section::Section& section,
                        const section::SectionProperties& properties) {
  const double off = std::sqrt(0.6) / 2;
  double sum = 0;
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    const section::WallFlows& flows = properties.flows[w];
    const auto product = [&](double share) {
      return flows.shear_y_per_m.at(share) * flows.shear_z_per_m.at(share);
    };
    sum += wall_length_m(section, section.walls[w]) / section.walls[w].thickness_m *
           (5 * product(0.5 - off) + 8 * product(0.5) + 5 * product(0.5 + off)) / 18;
  }
  return sum;
}

}  // namespace

Result<BeamSection> make_beam_section(const section::Section& section, double E_Pa, double G_Pa,
                                      double density_kg_per_m3) {
  auto properties = section::solve_section(section);
  if (!properties) return Failure{properties.error()};
  const double cross = calc_shear_cross(section, *properties);
  const StressBound bound = calc_stress_bound(section, *properties);
  return BeamSection{.section = section,
                     .properties = std::move(properties).value(),
                     .E_Pa = E_Pa,
                     .G_Pa = G_Pa,
                     .density_kg_per_m3 = density_kg_per_m3,
                     .shear_cross_per_m2 = cross,
                     .stress_bound = bound};
}

void add_body_forces(const Structure& structure, const Vec3& a_V, Loads& loads) {
  for (std::size_t b = 0; b < structure.beams.size(); ++b) {
    const BeamSection& made =
        structure.sections[static_cast<std::size_t>(structure.beams[b].section)];
    const double kg_per_m = made.density_kg_per_m3 * made.properties.area_m2;
    loads.lines.push_back(
        {.beam = static_cast<int>(b), .f_per_m_V = -kg_per_m * a_V, .p_OP = made.properties.p_OC});
  }
}

Resultant calc_resultant(const Structure& structure, const Loads& loads) {
  Resultant out;
  for (const PointLoad& load : loads.points) {
    out.f_V += load.f_P_V;
    out.t_Vo_V += load.t_V + load.p_VoP_V.cross(load.f_P_V);
  }
  for (const LineLoad& line : loads.lines) {
    const Beam& beam = structure.beams[static_cast<std::size_t>(line.beam)];
    const Vec3 f_V = line.f_per_m_V * (beam.p_VoT_V - beam.p_VoF_V).norm();
    const Vec3 p_VoM_V =
        (beam.p_VoF_V + beam.p_VoT_V) / 2 + calc_axes(beam) * Vec3(0, line.p_OP.x(), line.p_OP.y());
    out.f_V += f_V;
    out.t_Vo_V += p_VoM_V.cross(f_V);
  }
  return out;
}

}  // namespace rig::frame
