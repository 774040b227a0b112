// Loads on scalars: what does work on a twist rate.

#include <gtest/gtest.h>

#include <cmath>

#include "frame/solve.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

// A bar held against warping at its root, under F on the twist rate of its free end: no torque,
// theta' = a sinh(k x), and F = E C_w theta''(L), so that theta'(L) = F tanh(k L) / (E C_w k) and
// theta(L) = F / (E C_w k^2) (1 - 1 / cosh(k L)).
TEST(ScalarLoads, WorkOnTwistRates) {
  const double length_m = 1.3, F = 20;
  const Structure s = testing::make_cantilever(testing::make_steel(testing::make_rail()), length_m);
  const section::SectionProperties& p = s.sections[0]->properties;
  const double EC = testing::kSteelE_Pa * (p.warping_constant_m6 + p.warping_across_m6);
  const double k = std::sqrt(testing::kSteelG_Pa * p.torsion_constant_m4 / EC);
  const Loads loads{.scalars = {{.scalar = 1, .force = F}}};
  const auto answers = Solver::make(s)->solve({&loads, 1});
  ASSERT_TRUE(answers.has_value());
  const Response& r = answers->front();
  const double rate = F * std::tanh(k * length_m) / (EC * k);
  const double turn = F / (EC * k * k) * (1 - 1 / std::cosh(k * length_m));
  EXPECT_NEAR(r.scalar[1], rate, 1e-7 * rate);
  EXPECT_NEAR(r.rotation_V[1].x(), turn, 1e-7 * turn);
  // The sign of the load: the bimoment of the face at the end is its negative.
  EXPECT_NEAR(calc_beam_forces(s, loads, r, 0, 1).bimoment_Nm2, -F, 1e-7 * F);
}

TEST(ScalarLoads, TellWhatIsNotThere) {
  const Structure s = testing::make_cantilever(testing::make_steel(testing::make_rail()), 1);
  const auto fault = [&](const ScalarLoad& load) {
    const Loads loads{.scalars = {load}};
    const auto answers = Solver::make(s)->solve({&loads, 1});
    return answers ? std::string()
                   : answers.error().front().code + " " + answers.error().front().path;
  };
  EXPECT_EQ(fault({.scalar = 7, .force = 1}), "frame.unknown_scalar /0/scalars/0/scalar");
  EXPECT_EQ(fault({.scalar = 1, .force = kNaN}), "frame.not_finite /0/scalars/0");
}

}  // namespace
}  // namespace rig::frame
