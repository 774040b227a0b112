#include "section/holes.h"

#include <gtest/gtest.h>

#include <cmath>

#include "section/properties.h"
#include "section/shapes.h"

namespace rig::section {
namespace {

TEST(NetSection, HoleInAPlate) {
  const Section plate = *make_plate({.width_m = 0.1, .thickness_m = 0.006});
  const auto net = calc_net_section(plate, {{.wall = 0, .centre_m = 0.05, .diameter_m = 0.02}});
  ASSERT_TRUE(net.has_value());
  EXPECT_NEAR(net->area_m2, 0.006 * 0.08, 1e-18);
  EXPECT_NEAR(net->I_y_m4, 0.006 * (std::pow(0.1, 3) - std::pow(0.02, 3)) / 12, 1e-18);
  EXPECT_NEAR(net->I_z_m4, 0.08 * std::pow(0.006, 3) / 12, 1e-20);
}

TEST(NetSection, WithoutHolesItIsTheWholeSection) {
  const Section section = rotate_section(
      *make_channel(
          {.depth_m = 0.16, .flange_m = 0.06, .thickness_m = 0.005, .inside_radius_m = 0.006}),
      0.4);
  const auto whole = solve_section(section);
  const auto net = calc_net_section(section, {});
  EXPECT_NEAR(net->area_m2, whole->area_m2, 1e-15);
  EXPECT_NEAR((net->p_OC - whole->p_OC).norm(), 0, 1e-15);
  EXPECT_NEAR(net->I_y_m4, whole->I_y_m4, 1e-14 * whole->I_y_m4);
  EXPECT_NEAR(net->I_z_m4, whole->I_z_m4, 1e-14 * whole->I_y_m4);
  EXPECT_NEAR(net->I_yz_m4, whole->I_yz_m4, 1e-14 * whole->I_y_m4);
}

TEST(NetSection, SeveralHolesInAnyOrderAddUp) {
  const Section plate = *make_plate({.width_m = 0.1, .thickness_m = 0.006});
  const Hole low{.wall = 0, .centre_m = 0.02, .diameter_m = 0.01},
      high{.wall = 0, .centre_m = 0.08, .diameter_m = 0.01};
  const auto net = calc_net_section(plate, {high, low});
  EXPECT_NEAR(net->I_y_m4,
              0.006 * (std::pow(0.1, 3) / 12 - 2 * (std::pow(0.01, 3) / 12 + 0.01 * 0.03 * 0.03)),
              1e-18);
}

TEST(NetSection, EachFaultHasItsCodeAndPlace) {
  const Section plate = *make_plate({.width_m = 0.1, .thickness_m = 0.006});
  const auto code = [&](const std::vector<Hole>& holes) {
    const auto net = calc_net_section(plate, holes);
    return net.has_value() ? std::string() : net.error().front().code + net.error().front().path;
  };
  EXPECT_EQ(code({{.wall = 1, .centre_m = 0.05, .diameter_m = 0.02}}),
            "section.unknown_wall/holes/0");
  EXPECT_EQ(code({{.wall = 0, .centre_m = 0.005, .diameter_m = 0.02}}),
            "section.hole_outside_wall/holes/0");
  EXPECT_EQ(code({{.wall = 0, .centre_m = 0.05}}), "section.hole_outside_wall/holes/0");
  EXPECT_EQ(code({{.wall = 0, .centre_m = 0.05, .diameter_m = 0.02},
                  {.wall = 0, .centre_m = 0.06, .diameter_m = 0.02}}),
            "section.holes_overlap/holes/1");
}

TEST(HoleEdge, AWideStripGivesKirsch) {
  // The fit ends at 3.004, not 3.
  EXPECT_NEAR(*calc_hole_edge_stress_Pa(100e6, 0, 1e-9, 1), 300e6, 0.5e6);
  EXPECT_NEAR(*calc_hole_edge_stress_Pa(-100e6, 0, 1e-9, 1), 300e6, 0.5e6);
  EXPECT_NEAR(*calc_hole_edge_stress_Pa(0, 50e6, 1e-9, 1), 200e6, 0.4e6);
}

TEST(HoleEdge, Faults) {
  EXPECT_EQ(calc_hole_factor(0, 1).error().front().code, "section.size_not_positive");
  EXPECT_EQ(calc_hole_factor(1, 1).error().front().code, "section.hole_outside_wall");
  EXPECT_EQ(calc_hole_edge_stress_Pa(1, 1, 2, 1).error().front().code, "section.hole_outside_wall");
}

}  // namespace
}  // namespace rig::section
