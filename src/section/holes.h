#pragma once

#include <vector>

#include "base/nan.h"
#include "base/result.h"
#include "section/section.h"

namespace rig::section {

/// A round hole through a wall, or the stretch of it that a cut-out takes away.
struct Hole {
  int wall = -1;
  double centre_m = kNaN;  ///< Along the wall from `from`.
  double diameter_m = kNaN;
};

/// What is left where holes are, for axial force and bending. Torsion, shear centre and warping
/// work over lengths far beyond a hole's: for them use the whole section.
struct NetSection {
  double area_m2 = 0;
  Vec2 p_OC = Vec2::Zero();  ///< Centroid (y, z) from O, m.
  double I_y_m4 = 0;         ///< As in `SectionProperties`, about the net centroid.
  double I_z_m4 = 0;
  double I_yz_m4 = 0;
};

/// Net section through the middle of all the holes given.
///
/// Straight through the holes; staggered ones are for the caller to choose. Plane sections stay
/// plane.
/// @errors    Those of `check_section`; section.unknown_wall, section.hole_outside_wall,
///            section.holes_overlap; the path names the hole.
/// @accuracy  Rounding.
Result<NetSection> calc_net_section(const Section& section, const std::vector<Hole>& holes);

/// Stress at the edge of a round hole in the middle of a strip in tension, over the mean stress of
/// the net section: 2 + 0.284 (1 - d/w) - 0.600 (1 - d/w)^2 + 1.32 (1 - d/w)^3.
///
/// For a hole nearer to one edge take w as twice the distance to that edge.
/// @errors    section.size_not_positive, section.hole_outside_wall (d not below w).
/// @accuracy  0.5 % of Howland's solution for d/w up to 0.5.
/// @source    [Peterson] chart 4.1 (Pilkey's fit of Howland and Heywood), from memory.
Result<double> calc_hole_factor(double diameter_m, double width_m);

/// Greatest stress around the edge of a round hole in a strip under axial stress and shear.
///
/// Without bounds it is 3 s1 - s2 of the principal stresses that would be there without the hole
/// (Kirsch); the strip's width raises it by what `calc_hole_factor` gives over 3, which for the
/// part from shear is an estimate.
///
/// @param axial_Pa  Along the strip, where the hole is, of the whole section; either sign.
/// @param shear_Pa  Over the thickness, of the whole section.
/// @return          The greatest by size, Pa, >= 0.
/// @errors          As `calc_hole_factor`.
/// @source          [Kirsch], [Peterson] chart 4.1, from memory.
Result<double> calc_hole_edge_stress_Pa(double axial_Pa, double shear_Pa, double diameter_m,
                                        double width_m);

}  // namespace rig::section
