#pragma once

#include "geometry/line.h"
#include "section/stress.h"

namespace rig::frame {

/// Even load on a beam, per metre of it, in the beam's axes.
struct EvenLoad {
  double axial_N_per_m = 0;             ///< Along the centroids.
  Vec2 shear_N_per_m = Vec2::Zero();    ///< (y, z), along the shear centres.
  Vec2 moment_Nm_per_m = Vec2::Zero();  ///< About (y, z).
  double torque_Nm_per_m = 0;           ///< About the shear centres.
};

/// What one beam carries, from end to end: closed forms around its middle, in the sense of
/// `section::SectionForces`.
struct BeamForces {
  double length_m = 0;
  EvenLoad load;
  double axial_N = 0;             ///< In the middle, as all of these.
  Vec2 shear_N = Vec2::Zero();    ///< (V_y, V_z).
  Vec2 moment_Nm = Vec2::Zero();  ///< (M_y, M_z).
  double torque_Nm = 0;           ///< St Venant's and of warping together.
  bool warps = false;             ///< If not, all torque is St Venant's and the rest is zero.
  double h = 0;                   ///< Half of the length over sqrt(E C_w / (G J)).
  double tanh_h = 0;
  double held_end_m2 = 0;        ///< Bimoment at the ends of the beam held there, per even torque.
  double bimoment_even_Nm2 = 0;  ///< Mean of those at both ends, without the even torque's.
  double bimoment_odd_Nm2 = 0;   ///< At `to`, less the mean.

  /// On the +x face.
  /// @param share  Of the length from `from`, 0 to 1.
  section::SectionForces at(double share) const;
};

}  // namespace rig::frame
