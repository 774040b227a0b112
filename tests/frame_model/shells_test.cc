// The beams against the shell models of tests/shells (CalculiX, S8R, finest mesh stored).

#include <gtest/gtest.h>

#include "tests/frame_model/shell_cases.h"

namespace rig::frame {
namespace {

// What is fair of beams for open frames, by our own shell study: 5 % of torsion, 2 % of bending,
// 10 % of lozenging (whose joints are soft, and in shells softer than in solids).
constexpr double kTorsion = 0.05, kBending = 0.02, kLozenging = 0.1;

void expect_near(const std::string& name, const std::string& load, const char* key,
                 double tolerance) {
  const auto shell_case = testing::read_case(name);
  const auto shells = testing::read_shells(name);
  ASSERT_FALSE(shells.is_null()) << name << " has no stored result";
  const build::Build build = testing::make_build(shell_case);
  const auto model = make_model(build, build::planned_parts(build.frame));
  ASSERT_TRUE(model.has_value()) << model.error().front().message;
  const auto answers = testing::solve_load_cases(shell_case, *model);
  EXPECT_NEAR(answers.stiffness.at(load) / shells[key].get<double>(), 1, tolerance)
      << name << " " << load;
}

TEST(Shells, ChannelsBetweenTheFlanges) {
  expect_near("B", "torsion", "torsion_Nm_per_rad", kTorsion);
  expect_near("B", "bending", "bending_N_per_m", kBending);
  expect_near("B", "lozenging", "lozenging_N_per_m", kLozenging);
}

TEST(Shells, TubesThroughTheWebs) {
  expect_near("C", "torsion", "torsion_Nm_per_rad", kTorsion);
  expect_near("C", "lozenging", "lozenging_N_per_m", kLozenging);
}

TEST(Shells, ChannelsOnTheWebsBend) { expect_near("A", "bending", "bending_N_per_m", kBending); }

}  // namespace
}  // namespace rig::frame
