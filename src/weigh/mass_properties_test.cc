#include "weigh/mass_properties.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Eigenvalues>
#include <vector>

#include "base/require.h"
#include "tests/support/random_values.h"

namespace rig::weigh {
namespace {

MassProperties random_body() {
  using test::real;
  const double mass_kg = real(1, 900000);
  return {.mass_kg = mass_kg,
          .p_VoBcm_V = {real(-5000, 2000), real(-1200, 1200), real(0, 2500)},
          .I_BBcm_V = calc_box_inertia(mass_kg, {real(0, 3000), real(0, 2000), real(0, 1500)})};
}

std::vector<MassProperties> random_bodies() {
  std::vector<MassProperties> bodies(static_cast<std::size_t>(*rc::gen::inRange(1, 20)));
  for (MassProperties& body : bodies) body = random_body();
  return bodies;
}

TEST(Inertia, BoxAndCylinderClosedForms) {
  const Mat3 box = calc_box_inertia(12, {1, 2, 3});
  EXPECT_TRUE(box.isApprox(Vec3(13, 10, 5).asDiagonal().toDenseMatrix()));
  const Mat3 upright = calc_cylinder_inertia(12, 2, 3, 2);
  EXPECT_TRUE(upright.isApprox(Vec3(12, 12, 6).asDiagonal().toDenseMatrix()));
  const Mat3 crosswise = calc_cylinder_inertia(12, 2, 3, 1);
  EXPECT_TRUE(crosswise.isApprox(Vec3(12, 6, 12).asDiagonal().toDenseMatrix()));
}

TEST(Inertia, BoxOfTwoHalvesIsTheWholeBox) {
  const std::vector<MassProperties> halves{
      {.mass_kg = 6, .p_VoBcm_V = {0.25, 0, 1}, .I_BBcm_V = calc_box_inertia(6, {0.5, 2, 3})},
      {.mass_kg = 6, .p_VoBcm_V = {0.75, 0, 1}, .I_BBcm_V = calc_box_inertia(6, {0.5, 2, 3})}};
  const MassProperties whole = combine(halves);
  EXPECT_TRUE(whole.p_VoBcm_V.isApprox(Vec3(0.5, 0, 1)));
  EXPECT_TRUE(whole.I_BBcm_V.isApprox(calc_box_inertia(12, {1, 2, 3}), 1e-14));
}

TEST(Inertia, ProductHasItsSignFromTheTensor) {
  // Two points on the line x = z: Ixz = -sum(m x z).
  const std::vector<MassProperties> points{
      {.mass_kg = 1, .p_VoBcm_V = {1, 0, 1}, .I_BBcm_V = Mat3::Zero()},
      {.mass_kg = 1, .p_VoBcm_V = {-1, 0, -1}, .I_BBcm_V = Mat3::Zero()}};
  const Mat3 I = combine(points).I_BBcm_V;
  EXPECT_DOUBLE_EQ(I(0, 2), -2);
  EXPECT_DOUBLE_EQ(I(1, 1), 4);
}

TEST(Inertia, BrokenContractsThrow) {
  EXPECT_THROW((void)calc_box_inertia(-1, {1, 1, 1}), LogicError);
  EXPECT_THROW((void)calc_cylinder_inertia(1, 1, 1, 3), LogicError);
  EXPECT_THROW((void)combine({}), LogicError);
}

RC_GTEST_PROP(Inertia, IsThatOfRealMatter, ()) {
  const MassProperties sum = combine(random_bodies());
  const Eigen::SelfAdjointEigenSolver<Mat3> solver(sum.I_BBcm_V);
  const Vec3 principal = solver.eigenvalues();
  const double slack = 1e-9 * (1 + principal[2]);
  RC_ASSERT(sum.I_BBcm_V.isApprox(sum.I_BBcm_V.transpose()));
  RC_ASSERT(principal[0] >= -slack);
  // Triangle inequality of principal moments.
  RC_ASSERT(principal[0] + principal[1] >= principal[2] - slack);
}

RC_GTEST_PROP(Inertia, ParallelAxisTwoWays, ()) {
  // About any point: the sum of the parts' equals the whole's.
  const auto bodies = random_bodies();
  const Vec3 p_VoQ_V(0.3, -0.7, 1.1);
  Mat3 parts = Mat3::Zero();
  for (const MassProperties& body : bodies) parts += calc_inertia_about(body, p_VoQ_V);
  const Mat3 whole = calc_inertia_about(combine(bodies), p_VoQ_V);
  RC_ASSERT((parts - whole).norm() <= 1e-12 * (1 + parts.norm()));
}

RC_GTEST_PROP(Inertia, ShiftingTheDatumShiftsOnlyThePlace, ()) {
  auto bodies = random_bodies();
  const MassProperties before = combine(bodies);
  const Vec3 shift(1.25, -0.5, 0.75);
  for (MassProperties& body : bodies) body.p_VoBcm_V += shift;
  const MassProperties after = combine(bodies);
  RC_ASSERT((after.p_VoBcm_V - before.p_VoBcm_V - shift).norm() < 1e-12);
  RC_ASSERT((after.I_BBcm_V - before.I_BBcm_V).norm() <= 1e-11 * (1 + before.I_BBcm_V.norm()));
}

RC_GTEST_PROP(Inertia, OrderAndGroupingDoNotMatter, ()) {
  const auto bodies = random_bodies();
  RC_PRE(bodies.size() >= 2);
  const std::size_t half = bodies.size() / 2;
  const std::vector<MassProperties> groups{combine(std::span(bodies).subspan(half)),
                                           combine(std::span(bodies).first(half))};
  const MassProperties a = combine(bodies);
  const MassProperties b = combine(groups);
  RC_ASSERT((a.p_VoBcm_V - b.p_VoBcm_V).norm() < 1e-12);
  RC_ASSERT((a.I_BBcm_V - b.I_BBcm_V).norm() <= 1e-11 * (1 + a.I_BBcm_V.norm()));
}

}  // namespace
}  // namespace rig::weigh
