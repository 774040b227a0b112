#include "suspension/leaf_rate.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/require.h"

namespace rig::suspension {
namespace {

LeafStack stack(int count, int full_length) {
  return make_leaf_stack(count, full_length, 0.0635, 0.0075);
}

TEST(LeafRate, GrowsWithTheLeavesThatReachTheEyes) {
  double last = 0;
  for (const int full : {1, 2, 3, 4, 5, 6}) {
    const double factor = calc_leaf_stiffening_factor(stack(6, full));
    EXPECT_GT(factor, last);
    EXPECT_GE(factor, 1);
    EXPECT_LE(factor, 1.5);
    last = factor;
  }
}

TEST(LeafRate, GoesWithTheCubeOfThicknessAndLength) {
  const LeafStack thin = stack(5, 2);
  LeafStack thick = thin;
  thick.thickness_m *= 2;
  EXPECT_NEAR(
      calc_leaf_pack_rate_N_per_m(thick, 0.6, 0.7) / calc_leaf_pack_rate_N_per_m(thin, 0.6, 0.7), 8,
      1e-12);
  EXPECT_NEAR(
      calc_leaf_pack_rate_N_per_m(thin, 0.3, 0.35) / calc_leaf_pack_rate_N_per_m(thin, 0.6, 0.7), 8,
      1e-12);
}

// Two routes: energy of both halves, bent by the forces that balance at a seat free to turn.
TEST(LeafRate, UnequalHalvesStoreTheWorkDone) {
  const double a = 0.55, b = 0.75, load = 4000;
  const double front = load * b / (a + b), rear = load * a / (a + b);
  const double energy = front * front / (2 * calc_leaf_cantilever_rate_N_per_m(stack(5, 2), a)) +
                        rear * rear / (2 * calc_leaf_cantilever_rate_N_per_m(stack(5, 2), b));
  EXPECT_NEAR(load * load / (2 * calc_leaf_pack_rate_N_per_m(stack(5, 2), a, b)), energy, 1e-9);
  EXPECT_DOUBLE_EQ(calc_leaf_pack_rate_N_per_m(stack(5, 2), a, b),
                   calc_leaf_pack_rate_N_per_m(stack(5, 2), b, a));
}

TEST(LeafRate, RefusesCountsThatCanNotBe) {
  EXPECT_THROW(stack(3, 4), LogicError);
  EXPECT_THROW(stack(0, 0), LogicError);
  EXPECT_THROW(calc_leaf_cantilever_rate_N_per_m({.graduated = 3}, 0.6), LogicError);
}

}  // namespace
}  // namespace rig::suspension
