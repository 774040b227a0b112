#pragma once

#include <Eigen/Core>

#include "frame/beam_forces.h"
#include "frame/structure.h"
#include "frame/vlasov_internal.h"

namespace rig::frame {

/// Motion of a beam's ends in its own axes: displacement and rotation at the ends of the reference
/// line, u_F v_F w_F rx_F ry_F rz_F, the same at T, then the twist rates of both ends.
using EndMotion = Eigen::Matrix<double, 14, 1>;
inline constexpr Eigen::Index kFromEnd = 0, kToEnd = 6, kFromRate = 12, kToRate = 13;

/// What strains a beam, zero under rigid motion:
///   0     stretch of the line of centroids
///   1, 2  difference of the end rotations about y, z
///   3, 4  their mean less the turn of the chord of shear centres, about y, z
///   5     twist
///   6     with both ends tied in warping: difference of the twist rates; with one tied: its twist
///         rate less the mean twist rate; otherwise unused
///   7     with both ends tied: mean of the twist rates less the mean twist rate
using Deformation = Eigen::Matrix<double, 8, 1>;

enum class WarpEnds { free, from_tied, to_tied, tied };

/// A beam made ready: geometry and stiffness.
struct Element {
  double length_m = 0;
  Mat3 R_VB = Mat3::Identity();
  Vec2 p_OC = Vec2::Zero(), p_OS = Vec2::Zero();
  double EA_N = 0;
  Eigen::Matrix2d EI_Nm2;            ///< Of curvatures about (y, z): moments about (y, z).
  Eigen::Matrix2d compliance;        ///< Its inverse, 1/(N m2).
  Eigen::Matrix2d shear_compliance;  ///< Of shear as (V_z, -V_y), 1/N.
  Eigen::Matrix2d chord_N;           ///< Shear (V_z, -V_y) per unit of deformation 3, 4.
  VlasovBar torsion;
  WarpEnds ends = WarpEnds::free;
};

/// Axes of a beam: x along it, y as given, made square to it.
Mat3 calc_axes(const Beam& beam);

/// @param beam  Of a structure that passed `check_structure`.
Element make_element(const Structure& structure, const Beam& beam);

Deformation calc_deformation(const Element& element, const EndMotion& motion);

/// The same as a matrix, by columns of `EndMotion`.
Eigen::Matrix<double, 8, 14> calc_deformation_matrix(const Element& element);

/// Energy = 1/2 d^T stiffness d.
Eigen::Matrix<double, 8, 8> calc_stiffness(const Element& element);

/// A line load in the axes and at the lines that `EvenLoad` means, added up.
void add_line_load(const Element& element, const LineLoad& line, EvenLoad& even);

/// Forces on the ends that do the same work as an even load, exactly: the reactions of the beam
/// held at both ends with their signs turned.
EndMotion calc_end_loads(const Element& element, const EvenLoad& even);

/// What the beam carries.
BeamForces calc_forces(const Element& element, const Deformation& deformation,
                       const EvenLoad& even);

/// Elastic energy, J.
double calc_energy_J(const Element& element, const Deformation& deformation, const EvenLoad& even);

}  // namespace rig::frame
