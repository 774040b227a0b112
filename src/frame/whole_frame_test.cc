#include "frame/whole_frame.h"

#include <gtest/gtest.h>

#include <numeric>

#include "frame/test_builds_internal.h"

namespace rig::frame {
namespace {

struct Made {
  Model model;
  WholeFrame whole;
};

Made measure(const testing::Json& file) {
  const Model model = testing::model_of(testing::read(file));
  const auto solver = Solver::make(model.structure);
  if (!solver) throw std::runtime_error(solver.error().front().message);
  auto whole = measure_whole_frame(model, *solver);
  if (!whole) throw std::runtime_error(whole.error().front().message);
  return {model, *std::move(whole)};
}

// [Timoshenko] simple beam under a load in its middle, with shear: w = F L^3 / (48 E I) +
// F L / (4 G A_webs), from memory. Of two box rails: a channel's would twist as well, being loaded
// on its web.
TEST(WholeFrame, BendsAsTwoBeams) {
  testing::Json file = testing::ladder();
  auto& frame = file["frame"];
  frame["rails"]["main"]["section"] = {
      {"shape", "rectangular_tube"}, {"depth", "6 in"}, {"width", "2 in"}, {"thickness", "0.2 in"}};
  for (auto& crossmember : frame["crossmembers"]) crossmember["joint"] = "butted";
  const double h = 0.1524, b = 0.0508, t = 0.00508, L = 2.54, E = 200e9, G = E / 2.6;
  const double I = (b * h * h * h - (b - 2 * t) * std::pow(h - 2 * t, 3)) / 12;
  const double sag = L * L * L / (48 * E * 2 * I) + L / (4 * G * 2 * 2 * h * t);
  EXPECT_NEAR(measure(file).whole.bending.stiffness_N_per_m * sag, 1, 0.02);
}

TEST(WholeFrame, SharesOfMembersAreAlikeOnBothSides) {
  const Made ladder = measure(testing::ladder());
  for (const auto* shares : {&ladder.whole.torsion_shares, &ladder.whole.bending_shares,
                             &ladder.whole.lozenging_shares}) {
    ASSERT_EQ(shares->size(), ladder.model.structure.members.size());
    EXPECT_NEAR((*shares)[0], (*shares)[1], 1e-9);
    const double sum = std::accumulate(shares->begin(), shares->end(), 0.0);
    EXPECT_GT(sum, 0.1);
    EXPECT_LT(sum, 1 + 1e-9);  // The rest is in the joints.
  }
  EXPECT_GT(ladder.whole.bending_shares[0], 0.45);
}

TEST(WholeFrame, TakingATubeOutSoftensIt) {
  testing::Json file = testing::ladder();
  const Made with = measure(file);
  file["frame"]["crossmembers"].erase("middle");
  const Made without = measure(file);
  EXPECT_LT(without.whole.torsion.stiffness_Nm_per_rad,
            0.95 * with.whole.torsion.stiffness_Nm_per_rad);
  EXPECT_LT(without.whole.lozenging.stiffness_N_per_m,
            0.95 * with.whole.lozenging.stiffness_N_per_m);
  // A channel that carries on its web twists, and a tube between two of them holds that.
  EXPECT_LT(without.whole.bending.stiffness_N_per_m, with.whole.bending.stiffness_N_per_m);
}

TEST(WholeFrame, SaysWhenNoRailPassesAnAxle) {
  testing::Json file = testing::ladder();
  file["axles"]["rear"]["station"] = "150 in";
  const Model model = testing::model_of(testing::read(file));
  const auto points = find_measuring_points(model);
  ASSERT_FALSE(points.has_value());
  EXPECT_EQ(points.error().front().code, "frame.no_axle_line");
  EXPECT_EQ(points.error().front().path, "/axles");
}

}  // namespace
}  // namespace rig::frame
