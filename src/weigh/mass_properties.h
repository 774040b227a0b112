#pragma once

#include <span>

#include "geometry/pose.h"

namespace rig::weigh {

/// Mass, balance point and inertia of a body B, in chassis datum axes V.
struct MassProperties {
  double mass_kg = 0;
  Vec3 p_VoBcm_V = Vec3::Zero();  ///< Balance point as drawn, m.
  Mat3 I_BBcm_V =
      Mat3::Zero();  ///< About the balance point, kg m^2; products negated, as in a tensor.
};

/// Inertia of an evenly filled box about its middle, its sides along the axes.
///
/// @param mass_kg   Not negative.
/// @param p_size_V  Its length, width and height (m), none negative.
/// @accuracy Rounding only. @source Closed form: m (b^2 + c^2) / 12.
Mat3 calc_box_inertia(double mass_kg, const Vec3& p_size_V);

/// Inertia of an evenly filled round cylinder about its middle.
///
/// @param axis  0, 1 or 2: it lies along x, y or z.
/// @accuracy Rounding only. @source Closed form: m r^2 / 2 about the axis, m (3 r^2 + l^2) / 12
/// across it.
Mat3 calc_cylinder_inertia(double mass_kg, double diameter_m, double length_m, int axis);

/// The bodies as one: masses added, balance points weighted by mass, inertia moved by the
/// parallel-axis theorem. `bodies` must have a positive total mass.
MassProperties combine(std::span<const MassProperties> bodies);

/// Inertia of B about another point Q, in V axes (parallel-axis theorem).
Mat3 calc_inertia_about(const MassProperties& body, const Vec3& p_VoQ_V);

}  // namespace rig::weigh
