#include "frame/beam_forces.h"

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
  const auto [odd, even] = calc_hyperbolic(h, s);
  out.bimoment_Nm2 =
      bimoment_odd_Nm2 * odd + bimoment_even_Nm2 * even + load.torque_Nm_per_m * held_end_m2;
  if (load.torque_Nm_per_m != 0) {
    out.bimoment_Nm2 += load.torque_Nm_per_m * held_rise_m2(L, h, share);
  }
  // Their slopes along x; h coth h = 1 - 4 held_end / L^2 * h^2.
  const double h_coth_h = 1 - 4 * held_end_m2 / (L * L) * h * h;
  out.torque_warping_Nm =
      2 / L * (bimoment_odd_Nm2 * h_coth_h * even + bimoment_even_Nm2 * h * tanh_h * odd) -
      load.torque_Nm_per_m * L / 2 * odd;
  out.torque_St_Venant_Nm -= out.torque_warping_Nm;
  return out;
}

}  // namespace rig::frame
