#include "frame/beam_forces.h"

#include <cmath>

#include "frame/vlasov_internal.h"

namespace rig::frame {

section::SectionForces BeamForces::at(double share) const {
  const double L = length_m, s = 2 * share - 1, x = s * L / 2;  // From the middle.
  const Vec2 slope = Vec2(load.shear_N_per_m.y(), -load.shear_N_per_m.x());
  const Vec2 turned_shear(shear_N.y(), -shear_N.x());
  const Vec2 M = moment_Nm + (turned_shear - load.moment_Nm_per_m) * x - slope * (x * x / 2);
  section::SectionForces out{
      .axial_N = axial_N - load.axial_N_per_m * x,
      .shear_y_N = shear_N.x() - load.shear_N_per_m.x() * x,
      .shear_z_N = shear_N.y() - load.shear_N_per_m.y() * x,
      .moment_y_Nm = M.x(),
      .moment_z_Nm = M.y(),
      .torque_St_Venant_Nm = torque_Nm - load.torque_Nm_per_m * x,
  };
  if (!warps) return out;
  const double h = half_length_ratio;
  const double odd = sinh_ratio(h, s), even = cosh_ratio(h, s);
  out.bimoment_Nm2 = bimoment_odd_Nm2 * odd + bimoment_even_Nm2 * even +
                     load.torque_Nm_per_m * held_bimoment_m2(L, h, share);
  // Their slopes along x.
  out.torque_warping_Nm = 2 / L *
                              (bimoment_odd_Nm2 * (1 + h * h * vlasov_g(h)) * even +
                               bimoment_even_Nm2 * h * std::tanh(h) * odd) -
                          load.torque_Nm_per_m * L / 2 * odd;
  out.torque_St_Venant_Nm -= out.torque_warping_Nm;
  return out;
}

}  // namespace rig::frame
