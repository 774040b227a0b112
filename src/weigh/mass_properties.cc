#include "weigh/mass_properties.h"

#include "base/require.h"

namespace rig::weigh {
namespace {

/// What a point of unit mass at `p` adds to the inertia about the origin.
Mat3 point_inertia_per_mass(const Vec3& p) {
  return p.squaredNorm() * Mat3::Identity() - p * p.transpose();
}

}  // namespace

Mat3 calc_box_inertia(double mass_kg, const Vec3& p_size_V) {
  RIG_REQUIRE(mass_kg >= 0 && p_size_V.minCoeff() >= 0);
  const Vec3 squares = p_size_V.cwiseProduct(p_size_V);
  return (mass_kg / 12.0 * (Vec3::Constant(squares.sum()) - squares)).asDiagonal();
}

Mat3 calc_cylinder_inertia(double mass_kg, double diameter_m, double length_m, int axis) {
  RIG_REQUIRE(mass_kg >= 0 && diameter_m >= 0 && length_m >= 0 && axis >= 0 && axis < 3);
  const double r = diameter_m / 2;
  Vec3 moments = Vec3::Constant(mass_kg * (3 * r * r + length_m * length_m) / 12);
  moments[axis] = mass_kg * r * r / 2;
  return moments.asDiagonal();
}

MassProperties combine(std::span<const MassProperties> bodies) {
  MassProperties sum;
  for (const MassProperties& body : bodies) {
    sum.mass_kg += body.mass_kg;
    sum.p_VoBcm_V += body.mass_kg * body.p_VoBcm_V;
  }
  RIG_REQUIRE(sum.mass_kg > 0);
  sum.p_VoBcm_V /= sum.mass_kg;
  for (const MassProperties& body : bodies) sum.I_BBcm_V += calc_inertia_about(body, sum.p_VoBcm_V);
  return sum;
}

Mat3 calc_inertia_about(const MassProperties& body, const Vec3& p_VoQ_V) {
  return body.I_BBcm_V + body.mass_kg * point_inertia_per_mass(body.p_VoBcm_V - p_VoQ_V);
}

}  // namespace rig::weigh
