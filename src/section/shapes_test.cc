#include "section/shapes.h"

#include <gtest/gtest.h>

#include <numbers>

#include "section/properties.h"

namespace rig::section {
namespace {

using std::numbers::pi;

double midline_length_m(const Section& section) {
  double sum = 0;
  for (const Wall& wall : section.walls) sum += wall_length_m(section, wall);
  return sum;
}

void expect_fault(const Result<Section>& made, const std::string& code, const std::string& path) {
  ASSERT_FALSE(made.has_value()) << code;
  EXPECT_EQ(made.error().front().code, code);
  EXPECT_EQ(made.error().front().path, path);
}

// Eight chords of a quarter circle are shorter than it by (pi/32)^2 / 6.
constexpr double kChords = (pi / 32) * (pi / 32) / 6;

TEST(Shapes, MidlinesAreAsLongAsTheSizesSay) {
  const auto channel = make_channel(
      {.depth_m = 0.16, .flange_m = 0.06, .thickness_m = 0.005, .inside_radius_m = 0.006});
  // Flanges and web between bends of 8.5 mm, two quarter circles.
  const double bends = pi * 0.0085;
  EXPECT_NEAR(midline_length_m(*channel), 2 * (0.0575 - 0.0085) + 0.155 - 0.017 + bends,
              bends * kChords);
  const auto hat = make_hat({.depth_m = 0.08,
                             .crown_m = 0.06,
                             .brim_m = 0.03,
                             .thickness_m = 0.003,
                             .inside_radius_m = 0.004});
  const double r = 0.0055;
  EXPECT_NEAR(midline_length_m(*hat), 0.057 + 2 * 0.077 + 2 * 0.0315 - 8 * r + 2 * pi * r,
              2 * pi * r * kChords);
  const auto tube = make_rectangular_tube(
      {.width_m = 0.05, .depth_m = 0.1, .thickness_m = 0.004, .outside_radius_m = 0.008});
  EXPECT_NEAR(midline_length_m(*tube), 2 * (0.046 + 0.096) - 8 * 0.006 + 2 * pi * 0.006,
              2 * pi * 0.006 * kChords);
  // Chords around the same area: (pi/96)^2 / 6 longer.
  const double around =
      midline_length_m(*make_round_tube({.outside_diameter_m = 0.05, .thickness_m = 0.004}));
  EXPECT_NEAR(around / (pi * 0.046), 1 + pi * pi / 96 / 96 / 6, 1e-6);
  EXPECT_DOUBLE_EQ(midline_length_m(*make_plate({.width_m = 0.1, .thickness_m = 0.006})), 0.1);
}

TEST(Shapes, ASquareTubeRoundedAllTheWayIsRound) {
  const auto tube = make_rectangular_tube(
      {.width_m = 0.05, .depth_m = 0.05, .thickness_m = 0.004, .outside_radius_m = 0.025});
  ASSERT_TRUE(tube.has_value());
  EXPECT_TRUE(check_section(*tube).empty());
  EXPECT_EQ(tube->walls.size(), 32U);
  EXPECT_EQ(tube->p_ON.size(), 32U);
}

TEST(Shapes, BoxingPlates) {
  const Channel channel{.depth_m = 0.16, .flange_m = 0.06, .thickness_m = 0.005};
  // A plate between the flanges, flush, encloses from the web's midline to its own.
  const auto flush = make_boxed_channel(channel, {.thickness_m = 0.004});
  ASSERT_TRUE(flush.has_value());
  const auto p = solve_section(*flush);
  const double width = 0.06 - 0.0025 - 0.002, height = 0.155;
  const double bredt =
      4 * width * width * height * height / (height / 0.005 + height / 0.004 + 2 * width / 0.005);
  EXPECT_NEAR(p->cells_torsion_constant_m4, bredt, 1e-12 * bredt);
  EXPECT_NEAR(p->area_m2, 0.005 * (2 * 0.0575 + height) + 0.004 * height, 1e-15);
  // Over the edges the flanges run on to the middle of the plate.
  const auto over = make_boxed_channel(channel, {.fit = PlateFit::over_tips, .thickness_m = 0.004});
  const double wide = 0.06 - 0.0025 + 0.002;
  EXPECT_NEAR(
      solve_section(*over)->cells_torsion_constant_m4,
      4 * wide * wide * height * height / (height / 0.005 + height / 0.004 + 2 * wide / 0.005),
      1e-12 * bredt);
  // Set in: less cell, with the edges of the flanges standing out.
  const auto inset = make_boxed_channel(channel, {.thickness_m = 0.004, .inset_m = 0.01});
  EXPECT_LT(solve_section(*inset)->cells_torsion_constant_m4, bredt);
  EXPECT_GE(find_wall(*inset, "plate"), 0);
}

TEST(Shapes, EachFaultHasItsCodeAndPlace) {
  const Channel channel{.depth_m = 0.16, .flange_m = 0.06, .thickness_m = 0.005};
  Channel bad = channel;
  bad.depth_m = kNotGiven;
  expect_fault(make_channel(bad), "section.size_not_positive", "/depth_m");
  bad = channel;
  bad.thickness_m = 0;
  expect_fault(make_channel(bad), "section.size_not_positive", "/thickness_m");
  bad.thickness_m = 0.08;
  expect_fault(make_channel(bad), "section.wall_too_thick", "/thickness_m");
  bad = channel;
  bad.inside_radius_m = 0.06;
  expect_fault(make_channel(bad), "section.radius_too_large", "/inside_radius_m");
  bad.inside_radius_m = -0.001;
  expect_fault(make_channel(bad), "section.radius_too_small", "/inside_radius_m");
  bad = channel;
  bad.inside_radius_m = 0.006;
  bad.flange_thickness_m = 0.006;
  expect_fault(make_channel(bad), "section.radius_needs_one_thickness", "/flange_thickness_m");
  expect_fault(make_boxed_channel(channel, {.thickness_m = 0.004, .inset_m = 0.055}),
               "section.plate_does_not_fit", "/plate");
  expect_fault(make_boxed_channel(channel, {.thickness_m = 0.004, .inset_m = -1}),
               "section.plate_does_not_fit", "/plate/inset_m");
  expect_fault(make_boxed_channel(channel, {}), "section.size_not_positive", "/plate/thickness_m");
  expect_fault(
      make_rectangular_tube(
          {.width_m = 0.05, .depth_m = 0.1, .thickness_m = 0.004, .outside_radius_m = 0.003}),
      "section.radius_too_small", "/outside_radius_m");
  expect_fault(make_rectangular_tube({.width_m = 0.05, .depth_m = 0.1, .thickness_m = 0.025}),
               "section.wall_too_thick", "/thickness_m");
  expect_fault(make_round_tube({.outside_diameter_m = 0.05, .thickness_m = 0.025}),
               "section.wall_too_thick", "/thickness_m");
  expect_fault(make_plate({.width_m = 0.1, .thickness_m = 0.1}), "section.wall_too_thick",
               "/thickness_m");
  expect_fault(make_angle({.level_leg_m = 0.05, .thickness_m = 0.005}), "section.size_not_positive",
               "/upright_leg_m");
  expect_fault(make_hat({.depth_m = 0.08,
                         .crown_m = 0.06,
                         .brim_m = 0.002,
                         .thickness_m = 0.003,
                         .inside_radius_m = 0.004}),
               "section.radius_too_large", "/inside_radius_m");
}

}  // namespace
}  // namespace rig::section
