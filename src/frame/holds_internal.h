#pragma once

#include <Eigen/Core>
#include <vector>

#include "frame/assembly_internal.h"
#include "frame/freedoms_internal.h"

namespace rig::frame {

/// The rigid motions of a structure that no spring to the ground resists, and as many freedoms,
/// far apart, that hold them: statically determinate, so that holding strains nothing.
struct Holds {
  Vec3 p_VoM_V = Vec3::Zero();  ///< The middle.
  double size_m = 1;            ///< Of the structure around it.
  /// By column: displacement of M and rotation times the size, V axes.
  Eigen::MatrixXd motions;
  std::vector<int> freedoms;
  Eigen::MatrixXd motions_from_held;  ///< From the freedoms' values to the motions'.
};

Holds make_holds(const Structure& structure, const Freedoms& freedoms);

/// Doubles the diagonal of a stiffness at the holds: stiff enough, and as scaled as the rest.
void stiffen(const Holds& holds, Skyline& stiffness);

/// Takes out the rigid motion that the holds' give has let in.
void bring_back(const Structure& structure, const Freedoms& freedoms, const Holds& holds,
                Eigen::Ref<Eigen::VectorXd> x);

/// What loads leave over along the motions that nothing resists.
struct Unbalance {
  Vec3 f_V = Vec3::Zero();
  Vec3 t_M_V = Vec3::Zero();
  double share = 0;  ///< Of the size of the loads.
};
Unbalance calc_unbalance(const Structure& structure, const Holds& holds, const Loads& loads);

}  // namespace rig::frame
