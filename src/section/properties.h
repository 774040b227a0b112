#pragma once

#include <Eigen/Core>
#include <vector>

#include "base/result.h"
#include "section/section.h"

namespace rig::section {

/// A shear flow over one wall, quadratic between its ends. Positive from `from` to `to`.
struct WallFlow {
  double from = 0;
  double middle = 0;
  double to = 0;

  /// @param share  Of the wall's length from its `from` end, 0 to 1.
  double at(double share) const {
    return from + share * (4 * middle - 3 * from - to) +
           share * share * 2 * (from + to - 2 * middle);
  }
};

/// What the wall does under a unit of each action.
struct WallFlows {
  WallFlow shear_y_per_m;   ///< Under V_y = 1 N through the shear centre.
  WallFlow shear_z_per_m;   ///< Under V_z = 1 N through the shear centre.
  WallFlow warping_per_m2;  ///< Under a warping torque of 1 N m; zero where nothing warps.
  double twist_m2 = 0;      ///< Bredt's flow for G times twist rate = 1 N/m^3; zero in open walls.
};

/// Properties of a section. Axes y, z parallel to the section's own.
struct SectionProperties {
  double area_m2 = 0;
  Vec2 p_OC = Vec2::Zero();  ///< Centroid (y, z) from O, m.
  double I_y_m4 = 0;         ///< About the y axis through C: integral of z^2.
  double I_z_m4 = 0;         ///< About the z axis through C: integral of y^2.
  double I_yz_m4 = 0;        ///< Integral of y z about C.
  double I_major_m4 = 0;
  double I_minor_m4 = 0;
  double major_axis_rad = 0;       ///< Of I_major, from +y towards +z, in (-pi/2, pi/2].
  Vec2 p_OS = Vec2::Zero();        ///< Shear centre (y, z) from O, m.
  double torsion_constant_m4 = 0;  ///< J = that of the cells + sum of L t^3 / 3 (bends below).
  double cells_torsion_constant_m4 = 0;  ///< Bredt's part; zero when open.
  double warping_constant_m6 = 0;        ///< Of the midline, about S.
  double warping_across_m6 = 0;  ///< Of the thickness: all there is for a plate or an angle.
  double shear_area_y_m2 = 0;    ///< 1 / integral(q^2 / t) under V_y = 1; zero if it carries none.
  double shear_area_z_m2 = 0;
  bool flat = false;                 ///< All midlines on one line: no shear across it is carried.
  std::vector<double> sectorial_m2;  ///< Normalised sectorial coordinate about S, by node.
  std::vector<WallFlows> flows;      ///< By wall.
};

/// Properties of a thin-walled section, open, closed or both, with any number of cells.
///
/// Vlasov and Bredt: the walls keep their shape in the plane of the section (no distortion), strain
/// is even over the thickness but for St Venant's twist, corners count by their midlines. The order
/// of the error is thickness over width; numbers in docs/design/section.md. One material
/// throughout. The sectorial coordinate w is that of axial displacement u = -(twist rate) w; where
/// there are cells it holds their Bredt flow, so that it closes around each. A bend of curvature k
/// in a cell adds t^3/3 (1 - (k c)^2 / 4) for each length, with c the cell flow over t (from the
/// energy of stress linear over the thickness; 3/4 in a round tube). `I_*` hold the walls' own t^3
/// terms; shear flows rest on the midlines alone, so that they are in equilibrium to rounding.
///
/// @errors      Those of `check_section`.
/// @accuracy    Rounding, of thin-wall theory; exact for straight walls.
/// @source      [Vlasov]; [Kollbrunner] ch. 4, 5; [Pilkey] ch. 5 to 7 (all from memory).
Result<SectionProperties> solve_section(const Section& section);

}  // namespace rig::section
