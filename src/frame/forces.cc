#include <cmath>

#include "frame/beam_internal.h"
#include "frame/index_internal.h"
#include "frame/solve.h"

namespace rig::frame {

namespace {

EndMotion end_motion(const Structure& structure, const Response& response, const Beam& beam,
                     const Element& element) {
  EndMotion out = EndMotion::Zero();
  const Mat3 R_BV = element.R_VB.transpose();
  out.segment<3>(kFromEnd) = R_BV * calc_displacement(structure, response, beam.from, beam.p_VoF_V);
  out.segment<3>(kFromEnd + 3) = R_BV * response.rotation_V[at(beam.from)];
  out.segment<3>(kToEnd) = R_BV * calc_displacement(structure, response, beam.to, beam.p_VoT_V);
  out.segment<3>(kToEnd + 3) = R_BV * response.rotation_V[at(beam.to)];
  if (beam.warp_from >= 0) out[kFromRate] = response.scalar[at(beam.warp_from)];
  if (beam.warp_to >= 0) out[kToRate] = response.scalar[at(beam.warp_to)];
  return out;
}

/// A beam with what strains it and lies on it.
struct Strained {
  Element element;
  Deformation deformation;
  EvenLoad even;
};

Strained strain(const Structure& structure, const Response& response, const Beam& beam) {
  const Element element = make_element(structure, beam);
  return {element, calc_deformation(element, end_motion(structure, response, beam, element)), {}};
}

std::vector<Strained> strain_all(const Structure& structure, const Loads& loads,
                                 const Response& response) {
  std::vector<Strained> out;
  out.reserve(structure.beams.size());
  for (const Beam& beam : structure.beams) out.push_back(strain(structure, response, beam));
  for (const LineLoad& line : loads.lines) {
    Strained& strained = out[at(line.beam)];
    add_line_load(strained.element, line, strained.even);
  }
  return out;
}

Strained strain_one(const Structure& structure, const Loads& loads, const Response& response,
                    int beam) {
  Strained out = strain(structure, response, structure.beams[at(beam)]);
  for (const LineLoad& line : loads.lines) {
    if (line.beam == beam) add_line_load(out.element, line, out.even);
  }
  return out;
}

}  // namespace

Vec3 calc_displacement(const Structure& structure, const Response& response, int joint,
                       const Vec3& p_VoP_V) {
  return response.displacement_V[at(joint)] +
         response.rotation_V[at(joint)].cross(p_VoP_V - structure.joints[at(joint)].p_VoJ_V);
}

std::vector<BeamForces> calc_all_beam_forces(const Structure& structure, const Loads& loads,
                                             const Response& response) {
  std::vector<BeamForces> out;
  out.reserve(structure.beams.size());
  for (const Strained& s : strain_all(structure, loads, response)) {
    out.push_back(calc_forces(s.element, s.deformation, s.even));
  }
  return out;
}

BeamForces calc_beam_forces(const Structure& structure, const Loads& loads,
                            const Response& response, int beam) {
  const Strained s = strain_one(structure, loads, response, beam);
  return calc_forces(s.element, s.deformation, s.even);
}

section::SectionForces calc_beam_forces(const Structure& structure, const Loads& loads,
                                        const Response& response, int beam, double share) {
  return calc_beam_forces(structure, loads, response, beam).at(share);
}

BeamEnds calc_beam_ends(const Structure& structure, const Loads& loads, const Response& response,
                        int beam) {
  const Strained s = strain_one(structure, loads, response, beam);
  const BeamForces forces = calc_forces(s.element, s.deformation, s.even);
  const Vec2 &C = s.element.p_OC, &S = s.element.p_OS;
  // On the +x face, about O.
  struct Face {
    Vec3 f_O_V, t_O_V;
    double bimoment_Nm2 = 0;
  };
  const auto face = [&](double share) {
    const section::SectionForces f = forces.at(share);
    const double torque =
        f.torque_St_Venant_Nm + f.torque_warping_Nm + S.x() * f.shear_z_N - S.y() * f.shear_y_N;
    return Face{
        s.element.R_VB * Vec3(f.axial_N, f.shear_y_N, f.shear_z_N),
        s.element.R_VB *
            Vec3(torque, f.moment_y_Nm + C.y() * f.axial_N, f.moment_z_Nm - C.x() * f.axial_N),
        f.bimoment_Nm2,
    };
  };
  const Face from = face(0), to = face(1);
  return {.f_F_V = from.f_O_V,
          .t_F_V = from.t_O_V,
          .f_T_V = -to.f_O_V,
          .t_T_V = -to.t_O_V,
          .bimoment_from_Nm2 = -from.bimoment_Nm2,
          .bimoment_to_Nm2 = to.bimoment_Nm2};
}

std::vector<double> calc_member_energy_J(const Structure& structure, const Loads& loads,
                                         const Response& response) {
  std::vector<double> out(structure.members.size(), 0);
  const std::vector<Strained> all = strain_all(structure, loads, response);
  for (std::size_t b = 0; b < all.size(); ++b) {
    out[at(structure.beams[b].member)] +=
        calc_energy_J(all[b].element, all[b].deformation, all[b].even);
  }
  return out;
}

}  // namespace rig::frame
