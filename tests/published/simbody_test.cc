// The same closed linkages in Simbody [SIMBODY], a general multibody library: M. Sherman, A. Seth,
// S. Delp, "Simbody: multibody dynamics for biomedical research", Procedia IUTAM 2 (2011) 241-261.
// Bars are its rods, the A-arm is a body on a pin with a ball at its apex.

#include <gtest/gtest.h>

#include <numbers>

#include "suspension/elements.h"
#include "suspension/sweep.h"
#include "tests/published/expect_published.h"
#include "tests/support/simbody_axle.h"
#include "tests/support/test_axles.h"

namespace rig::suspension {
namespace {

struct Case {
  const char* name;
  AxleModel axle;
  bool arm;
};

std::vector<Case> cases() {
  return {{"three links and track bar", testing::make_three_link_front(), false},
          {"triangulated four-link", testing::make_triangulated_rear(), false},
          {"lower links and A-arm", testing::make_a_arm_rear(), true}};
}

TEST(Simbody, ClosedLinkagesOverTheWholeTravel) {
  for (auto& [name, axle, arm] : cases()) {
    testing::SimbodyAxle peer(axle, arm);
    const auto targets = make_targets(-0.30, 0.30, 25, -0.35, 0.35, 15);
    const auto sweep = sweep_axle(axle, {}, targets);
    ASSERT_TRUE(sweep.has_value());
    ASSERT_EQ(sweep->poses.size(), targets.size()) << name;
    double worst_m = 0, worst_rad = 0;
    // Serpentine, so that the peer too moves in small steps from drawn.
    const auto visit = [&peer, drawn_m = axle.p_VC.z()](double heave, double roll) {
      return peer.solve(drawn_m + heave, roll, 1e-11);
    };
    for (int i = 0; i <= 20; ++i) visit(-0.30 * i / 20, -0.35 * i / 20);
    for (int r = 0; r < 15; ++r) {
      for (int h = 0; h < 25; ++h) {
        const auto column = static_cast<std::size_t>(r % 2 == 0 ? h : 24 - h);
        const SweptPose& ours = sweep->poses[static_cast<std::size_t>(r) * 25 + column];
        const Pose X = visit(ours.numbers.heave_m, ours.numbers.roll_rad);
        worst_m = std::max(worst_m, (X.p_AB - ours.q.head<3>()).norm());
        // Twice the sine of half the angle between the two attitudes.
        worst_rad = std::max(worst_rad, (X.R_AB - ours.R_VA).norm() / std::numbers::sqrt2);
      }
    }
    expect_published(std::string(name) + ", worst place (m)", worst_m,
                     {.value = 0, .tolerance = 1e-7, .source = "[SIMBODY] projectQ at 1e-11"});
    expect_published(std::string(name) + ", worst attitude (rad)", worst_rad,
                     {.value = 0, .tolerance = 1e-6, .source = "[SIMBODY] projectQ at 1e-11"});
  }
}

}  // namespace
}  // namespace rig::suspension
