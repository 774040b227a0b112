// The springs of joints against the single joints of tests/shells that they were fitted to.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "frame/bolted_joints.h"
#include "frame/joint_stiffness.h"
#include "tests/frame_model/shell_cases.h"

namespace rig::frame {
namespace {

using testing::Json;

constexpr double kE_Pa = 2.05e11;

JointWall web_of(const Json& rail) {
  const double t = rail["thickness_m"];
  return {.E_Pa = kE_Pa,
          .depth_m = rail["depth_m"].get<double>() - t,
          .flange_m = rail["flange_m"].get<double>() - t / 2,
          .thickness_m = t};
}

JointFoot foot_of(const Json& part) {
  const double t = part["thickness_m"];
  const double depth_m = part["depth_m"].get<double>() - t;
  const double flange_m = part["flange_m"].get<double>() - t / 2;
  if (part["kind"] == "flat_channel") return {flange_m, depth_m, t};
  return {depth_m, flange_m, t};
}

JointStiffness springs_of(const Json& entry) {
  JointWall wall = web_of(entry["rail"]);
  const Json& part = entry["part"];
  if (part["kind"] == "tube") {
    const double t = part["thickness_m"];
    return calc_tube_in_wall(wall, (part["outside_diameter_m"].get<double>() - t) / 2, t);
  }
  if (part["kind"] == "flat_channel") return calc_flat_channel_on_web(wall, foot_of(part));
  if (!entry.contains("box_m")) return calc_channel_on_web(wall, foot_of(part));
  const double rail_wall_m = wall.thickness_m;
  wall.thickness_m = entry["box_m"];
  return calc_channel_on_plate(wall, rail_wall_m, foot_of(part));
}

bool is_fitted(const Json& entry) {
  const Json& part = entry["part"];
  return !entry["rail"].contains("inside_radius_m") && part.value("weld", "") != "flush" &&
         (part["kind"] == "tube" || part["kind"] == "channel" || part["kind"] == "flat_channel");
}

TEST(JointFits, AreWithinTheErrorsTheyState) {
  const Json cases = testing::read_joint_cases(), results = testing::read_joint_results();
  int fitted = 0;
  for (const auto& [name, result] : results.items()) {
    const Json& entry = cases[name];
    if (!is_fitted(entry)) continue;
    const JointStiffness springs = springs_of(entry);
    const Json& part = entry["part"];
    // Stocky channels are no thin-walled beams, and are left out of the fits.
    const bool stocky = part["kind"] != "tube" &&
                        part["flange_m"].get<double>() < 6.5 * part["thickness_m"].get<double>();
    if (!springs.within_fit || stocky) continue;
    ++fitted;
    EXPECT_NEAR(springs.about_rail_Nm_per_rad * result["x_rad_per_Nm"].get<double>(), 1, 0.11)
        << name;
    EXPECT_NEAR(springs.about_upright_Nm_per_rad * result["z_rad_per_Nm"].get<double>(), 1, 0.11)
        << name;
    if (part["kind"] == "tube") continue;
    EXPECT_NEAR(springs.warping_Nm3 * result["rate_per_m_per_Nm2"].get<double>(), 1, 0.11) << name;
  }
  EXPECT_EQ(fitted, 15 + 23 + 16 + 16);
}

/// How far apart the bolts are along one of their two ways.
double bolt_range_m(const Json& part, std::size_t way) {
  double low_m = part["bolts"][0][way], high_m = low_m;
  for (const Json& bolt : part["bolts"]) {
    low_m = std::min(low_m, bolt[way].get<double>());
    high_m = std::max(high_m, bolt[way].get<double>());
  }
  return high_m - low_m;
}

TEST(JointFits, OfBoltedPlatesAreWithinTheErrorsTheyState) {
  const Json cases = testing::read_joint_cases(), results = testing::read_joint_results();
  int fitted = 0, rates = 0;
  for (const auto& [name, result] : results.items()) {
    const Json &rail = cases[name]["rail"], &part = cases[name]["part"];
    if (part["kind"] != "bolted_plate" || rail.contains("inside_radius_m")) continue;
    const JointStiffness springs =
        calc_channel_on_bolted_plate(web_of(rail), foot_of(part),
                                     {.thickness_m = part["plate"]["thickness_m"],
                                      .rise_m = bolt_range_m(part, 1),
                                      .reach_m = bolt_range_m(part, 0),
                                      .washer_m = part["washer_diameter_m"]});
    EXPECT_TRUE(springs.within_fit) << name;
    ++fitted;
    const double tilt = result["x_rad_per_Nm"], swing = result["z_rad_per_Nm"];
    EXPECT_NEAR(springs.about_rail_Nm_per_rad * tilt, 1, 0.16) << name;
    EXPECT_NEAR(springs.about_upright_Nm_per_rad * swing, 1, 0.20) << name;
    EXPECT_NEAR(springs.warping_Nm3 * result["rate_per_m_per_Nm2"].get<double>(), 1, 0.37) << name;
    if (!result.contains("rail_rate_Nm3")) continue;
    ++rates;
    EXPECT_NEAR(springs.rail_rate_Nm3 / result["rail_rate_Nm3"].get<double>(), 1, 0.30) << name;
  }
  EXPECT_EQ(fitted, 58);
  EXPECT_EQ(rates, 46);
}

TEST(JointFits, OfBoltedFlangesAreWithinTheErrorsTheyState) {
  const Json cases = testing::read_joint_cases(), results = testing::read_joint_results();
  int fitted = 0;
  for (const auto& [name, result] : results.items()) {
    const Json &rail = cases[name]["rail"], &part = cases[name]["part"];
    if (part["kind"] != "bolted_flanges" || rail.contains("inside_radius_m")) continue;
    const FlangeLap lap =
        calc_flange_lap(web_of(rail), part["thickness_m"],
                        static_cast<double>(part["bolts"].size()), part["washer_diameter_m"]);
    EXPECT_TRUE(lap.within_fit) << name;
    ++fitted;
    EXPECT_NEAR(lap.along_N_per_m / result["along_N_per_m"].get<double>(), 1, 0.12) << name;
    EXPECT_NEAR(lap.across_N_per_m / result["across_N_per_m"].get<double>(), 1, 0.25) << name;
    EXPECT_NEAR(lap.up_N_per_m / result["up_N_per_m"].get<double>(), 1, 0.37) << name;
    EXPECT_NEAR(lap.turn_Nm_per_rad / result["turn_Nm_per_rad"].get<double>(), 1, 0.17) << name;
    EXPECT_NEAR(lap.rail_rate_Nm3 / result["rail_rate_Nm3"].get<double>(), 1, 0.1) << name;
  }
  EXPECT_EQ(fitted, 14);
}

TEST(JointFits, SayWhenTheyAreLeft) {
  const JointWall web{.E_Pa = kE_Pa, .depth_m = 0.17, .flange_m = 0.06, .thickness_m = 0.005};
  EXPECT_TRUE(calc_channel_on_web(web, {0.12, 0.05, 0.005}).within_fit);
  EXPECT_FALSE(calc_channel_on_web(web, {0.03, 0.05, 0.005}).within_fit);
  EXPECT_FALSE(calc_channel_on_web(web, {0.12, 0.05, 0.02}).within_fit);
  EXPECT_FALSE(calc_foot_on_wall(web, {0.12, 0.05, 0.005}).within_fit);
  EXPECT_FALSE(calc_box_end(web, 0.02, true, true).within_fit);
  // Deeper than the wall it still is a number.
  EXPECT_TRUE(std::isfinite(calc_channel_on_web(web, {0.2, 0.05, 0.005}).across_N_per_m));
}

TEST(BoxEnds, AreMirrorImages) {
  const JointWall web{.E_Pa = kE_Pa, .depth_m = 0.17, .flange_m = 0.06, .thickness_m = 0.005};
  const BoxEnd end = calc_box_end(web, 0.005, true, true);
  // Fore and aft: the twist rate and the bending change their signs.
  const BoxEnd aft = calc_box_end(web, 0.005, false, true);
  EXPECT_EQ(aft.compliance(0, 1), -end.compliance(0, 1));
  EXPECT_EQ(aft.rise, Eigen::Vector2d(end.rise[0], -end.rise[1]));
  EXPECT_EQ(aft.bend, Eigen::Vector2d(-end.bend[0], end.bend[1]));
  // Left and right: the twist and the twist rate do.
  const BoxEnd other = calc_box_end(web, 0.005, true, false);
  EXPECT_EQ(other.compliance, end.compliance);
  EXPECT_EQ(other.rise, -end.rise);
  EXPECT_EQ(other.bend, -end.bend);
}

}  // namespace
}  // namespace rig::frame
