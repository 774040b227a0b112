#include "suspension/from_build.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "suspension/arm_internal.h"
#include "suspension/axle_entries_internal.h"
#include "suspension/sweep.h"

namespace rig::suspension {
namespace {

using testing::add_coil;
using testing::add_leaves;
using testing::add_link;
using testing::at;
using testing::AxleEntry;
using testing::ball;
using testing::bushed;
using testing::make_bare;
using testing::make_radius_arms;
using testing::make_three_link;
using testing::missing_paths;
using testing::must_build;

const Bar& bar_named(const AxleModel& model, const std::string& name) {
  const auto bar = std::find_if(model.bars.begin(), model.bars.end(),
                                [&](const Bar& b) { return b.name == name; });
  EXPECT_NE(bar, model.bars.end()) << name;
  return bar == model.bars.end() ? model.bars.front() : *bar;
}

Eigen::Index index_of(const AxleModel& model, const std::string& name) {
  return &bar_named(model, name) - model.bars.data();
}

TEST(FromBuild, PlacesTheAxleAndItsBars) {
  AxleEntry axle = make_three_link();
  axle.value.station.si = 2.6;
  axle.value.end = build::End::kRear;
  for (auto& link : axle.value.links) {
    link.value.frame.at.station.si += 1.5;
    link.value.axle.at.station.si += 2.6;
  }
  axle.value.links[0].value.frame.swing_limit.si = 0.5;
  const AxleFromBuild made = must_build(axle);
  const AxleModel& model = made.model;
  EXPECT_FALSE(model.front);
  EXPECT_EQ(model.p_VC, Vec3(-2.6, 0, 0.45));
  EXPECT_EQ(model.track_m, 1.6);
  EXPECT_EQ(model.loaded_radius_m, 0.45);
  EXPECT_EQ(model.bars.size(), 4U);
  EXPECT_TRUE(made.has_linkage);
  EXPECT_FALSE(made.has_springs);
  EXPECT_FALSE(made.ready_to_settle);
  EXPECT_TRUE(made.missing.empty());
  EXPECT_TRUE(model.compliance_m_per_N.isZero(0));
  const Bar& left = bar_named(model, "lower.left");
  EXPECT_LT((left.p_VP - Vec3(-2.45, 0.36, 0.56)).norm(), 1e-12);
  EXPECT_LT((left.p_AQ - Vec3(-0.06, 0.46, -0.05)).norm(), 1e-12);
  EXPECT_EQ(left.swing_limit_frame_rad, 0.5);
  EXPECT_TRUE(std::isnan(left.swing_limit_axle_rad));
  EXPECT_EQ(left.path, "/axles/front/links/lower");
  EXPECT_NEAR(left.length_m, (model.p_VC + left.p_AQ - left.p_VP).norm(), 1e-15);
}

TEST(FromBuild, MirrorsWhatIsGivenForBothSides) {
  AxleEntry axle = make_three_link();
  add_coil(axle);
  const AxleFromBuild made = must_build(axle);
  const Bar& left = bar_named(made.model, "lower.left");
  const Bar& right = bar_named(made.model, "lower.right");
  EXPECT_EQ(right.p_VP, Vec3(left.p_VP.x(), -left.p_VP.y(), left.p_VP.z()));
  EXPECT_EQ(right.p_AQ, Vec3(left.p_AQ.x(), -left.p_AQ.y(), left.p_AQ.z()));
  ASSERT_EQ(made.model.coils.size(), 2U);
  EXPECT_EQ(made.model.coils[0].name, "coil.left");
  EXPECT_EQ(made.model.coils[0].side, 1);
  EXPECT_EQ(made.model.coils[1].side, -1);
  EXPECT_EQ(made.model.coils[1].p_VP.y(), -0.44);
  EXPECT_TRUE(made.ready_to_settle);
  // Neither suffix on a link given once.
  EXPECT_EQ(bar_named(made.model, "bar").p_VP.y(), 0.47);
}

TEST(FromBuild, RadiusArmHasItsApexOnTheFrameAndAnAArmOnTheAxle) {
  AxleEntry axle = make_radius_arms(true);
  const AxleModel arms = must_build(axle).model;
  EXPECT_LT((bar_named(arms, "arm.left.first").p_VP - Vec3(-0.9, 0.40, 0.55)).norm(), 1e-12);
  EXPECT_EQ(bar_named(arms, "arm.left.second").p_VP, bar_named(arms, "arm.left.first").p_VP);
  EXPECT_LT((bar_named(arms, "arm.right.second").p_AQ - Vec3(-0.08, -0.44, 0.09)).norm(), 1e-12);

  axle = make_bare();
  add_link(axle, "lower", build::LinkRole::kLower, true, ball(0.95, 0.36, 0.56),
           ball(0.06, 0.46, 0.40));
  axle.value.arms.push_back({.id = "wishbone",
                             .path = "/axles/front/arms/wishbone",
                             .value = {.label = "",
                                       .kind = build::ArmKind::kAArm,
                                       .both_sides = false,
                                       .apex = ball(0.02, 0, 0.68),
                                       .first = ball(0.75, 0.34, 0.73),
                                       .second = ball(0.75, -0.34, 0.73)}});
  axle.value.arms[0].value.apex.swing_limit.si = 0.6;
  axle.value.arms[0].value.first.swing_limit.si = 0.4;
  const AxleFromBuild made = must_build(axle);
  EXPECT_TRUE(made.has_linkage);
  const Bar& first = bar_named(made.model, "wishbone.first");
  EXPECT_LT((first.p_VP - Vec3(-0.75, 0.34, 0.73)).norm(), 1e-12);
  EXPECT_LT((first.p_AQ - Vec3(-0.02, 0, 0.23)).norm(), 1e-12);
  EXPECT_EQ(first.swing_limit_frame_rad, 0.4);
  EXPECT_EQ(first.swing_limit_axle_rad, 0.6);
}

TEST(FromBuild, TheTwoBarsOfAnArmGiveTogether) {
  AxleEntry axle = make_radius_arms(true);
  axle.value.arms[0].value.apex.bushing->axial.si = 1e6;
  axle.value.arms[0].value.apex.bushing->conical.si = 500;
  const AxleModel model = must_build(axle).model;
  const auto i = index_of(model, "arm.right.first"), j = index_of(model, "arm.right.second");
  ArmJoints joints{.p_VApex = Vec3(-0.9, -0.40, 0.55),
                   .p_VFeet = {Vec3(-0.10, -0.44, 0.36), Vec3(-0.08, -0.44, 0.54)},
                   .apex_compliance = Vec3(1 / 8e6, 1 / 1e6, 1 / 8e6).asDiagonal()};
  joints.feet_compliance[0] = joints.feet_compliance[1] = Mat3::Identity() / 8e6;
  const Eigen::Matrix2d expected = calc_arm_compliance(joints);
  EXPECT_NEAR(model.compliance_m_per_N(i, i), expected(0, 0), 1e-18);
  EXPECT_NEAR(model.compliance_m_per_N(i, j), expected(0, 1), 1e-18);
  EXPECT_NEAR(model.compliance_m_per_N(j, j), expected(1, 1), 1e-18);
  const Eigen::MatrixXd& C = model.compliance_m_per_N;
  EXPECT_LT((C - C.transpose()).norm(), 1e-15 * C.norm());
  // The two arms share nothing with each other.
  EXPECT_EQ(model.compliance_m_per_N(i, index_of(model, "arm.left.first")), 0);
  // One rotational bush an arm, on the frame.
  ASSERT_EQ(model.bush_moments.size(), 2U);
  EXPECT_FALSE(model.bush_moments[0].on_axle);
  EXPECT_EQ(model.bush_moments[0].conical_Nm_per_rad, 500);
}

TEST(FromBuild, BushAndTubeGiveInSeries) {
  AxleEntry axle = make_three_link();
  build::Link& upper = axle.value.links[1].value;
  upper.tube = build::Tube{};
  upper.tube->outside_diameter.si = 0.044;
  upper.tube->wall.si = 0.006;
  // Without a bush the link is rigid, tube or not.
  EXPECT_TRUE(must_build(axle).model.compliance_m_per_N.isZero(0));
  upper.frame = bushed(0.80, -0.30, 0.74, 6e6);
  upper.axle = bushed(0.03, -0.28, 0.63, 9e6);
  const AxleModel model = must_build(axle).model;
  const auto i = index_of(model, "upper");
  const double area = std::numbers::pi / 4 * (0.044 * 0.044 - 0.032 * 0.032);
  const double stretch = model.bars[static_cast<std::size_t>(i)].length_m / (207e9 * area);
  EXPECT_NEAR(model.compliance_m_per_N(i, i), 1 / 6e6 + 1 / 9e6 + stretch, 1e-18);
  EXPECT_EQ(model.compliance_m_per_N.sum(), model.compliance_m_per_N(i, i));
}

TEST(FromBuild, BoltDirectionDecidesWhichRateAcrossTheBar) {
  AxleEntry axle = make_three_link();
  build::Link& bar = axle.value.links[2].value;
  bar.frame = ball(-0.12, 0.5, 0.6);
  bar.axle = bushed(-0.12, -0.4, 0.6, 5e6);  // A bar straight across.
  bar.axle.bushing->axial.si = 1e6;
  const auto give = [&](build::Axis bolt) {
    bar.axle.bushing->bolt = bolt;
    const AxleModel model = must_build(axle).model;
    const auto i = index_of(model, "bar");
    return model.compliance_m_per_N(i, i);
  };
  EXPECT_NEAR(give(build::Axis::kLengthwise), 1 / 5e6, 1e-18);
  EXPECT_NEAR(give(build::Axis::kUpright), 1 / 5e6, 1e-18);
  EXPECT_NEAR(give(build::Axis::kCrosswise), 1 / 1e6, 1e-18);
  bar.axle.bushing->axial = {};
  EXPECT_NEAR(give(build::Axis::kCrosswise), 1 / 5e6, 1e-18);
}

TEST(FromBuild, LeafPacksAreALinkageAndSprings) {
  AxleEntry axle = make_bare();
  add_leaves(axle);
  const AxleFromBuild made = must_build(axle);
  EXPECT_TRUE(made.ready_to_settle);
  EXPECT_EQ(made.model.bars.size(), 2U);
  ASSERT_EQ(made.model.leaf_halves.size(), 4U);
  EXPECT_EQ(made.model.leaf_halves[0].name, "pack.left.front");
  EXPECT_EQ(made.model.leaf_halves[3].name, "pack.right.rear");
  EXPECT_EQ(made.model.leaf_halves[3].side, -1);
  EXPECT_TRUE(made.model.compliance_m_per_N.isZero(0));
  axle.value.leaf_packs[0].value.eye_radial_rate.si = 4e6;
  EXPECT_EQ(must_build(axle).model.compliance_m_per_N(1, 1), 1 / 4e6);
}

TEST(FromBuild, CarriesStopsShocksAndRollBars) {
  AxleEntry axle = make_three_link();
  build::BumpStop stop;
  stop.both_sides = true;
  stop.frame = at(0, 0.40, 0.70);
  stop.axle = at(0, 0.40, 0.53);
  stop.free_height.si = 0.09;
  stop.rate.si = 50000;
  axle.value.bump_stops.push_back({"stop", "/axles/front/bump_stops/stop", stop});
  stop.end_rate.si = 400000;
  stop.end_travel.si = 0.05;
  axle.value.bump_stops.push_back({"tall", "/axles/front/bump_stops/tall", stop});
  build::Damper shock;
  shock.frame = at(0.1, -0.40, 0.95);
  shock.axle = at(0.1, -0.48, 0.45);
  shock.closed_length.si = 0.36;
  shock.open_length.si = 0.60;
  shock.gas_force.si = 180;
  shock.damping.si = 3000;
  axle.value.dampers.push_back({"shock", "/axles/front/dampers/shock", shock});
  build::AntiRollBar roll_bar;
  roll_bar.span.si = 0.9;
  roll_bar.rate.si = 20000;
  axle.value.anti_roll_bars.push_back({"sway", "/axles/front/anti_roll_bars/sway", roll_bar});
  const AxleFromBuild made = must_build(axle);
  EXPECT_TRUE(made.missing.empty());
  ASSERT_EQ(made.model.stops.size(), 4U);
  EXPECT_EQ(made.model.stops[0].end_rate_N_per_m, 50000);  // No end given: it stays.
  EXPECT_EQ(made.model.stops[3].end_rate_N_per_m, 400000);
  EXPECT_EQ(made.model.stops[3].side, -1);
  ASSERT_EQ(made.model.shocks.size(), 1U);
  EXPECT_EQ(made.model.shocks[0].side, -1);
  EXPECT_EQ(made.model.shocks[0].gas_force_N, 180);
  EXPECT_EQ(made.model.shocks[0].damping_Ns_per_m, 3000);
  ASSERT_EQ(made.model.roll_bars.size(), 1U);
  EXPECT_EQ(made.model.roll_bars[0].span_m, 0.9);
}

TEST(FromBuildWire, GivesRateAndSolidLengthWhenTheyAreNotGiven) {
  AxleEntry axle = make_three_link();
  add_coil(axle);
  build::Coil& coil = axle.value.coils[0].value;
  coil.free_length.si = 0.44;
  coil.wire = build::CoilWire{};
  coil.wire->diameter.si = 0.0165;
  coil.wire->mean_diameter.si = 0.130;
  coil.wire->active_turns.si = 7.5;
  coil.wire->ends = build::CoilEnds::kSquared;

  AxleFromBuild made = must_build(axle);
  EXPECT_EQ(made.model.coils[0].rate_N_per_m, 42000);  // What is given stands.
  EXPECT_EQ(made.model.coils[0].solid_length_m, 0.19);
  EXPECT_TRUE(made.worked_out.empty());

  coil.rate = {};
  coil.solid_length = {};
  made = must_build(axle);
  const double rate = 79.3e9 * std::pow(0.0165, 4) / (8 * std::pow(0.130, 3) * 7.5);
  EXPECT_NEAR(made.model.coils[1].rate_N_per_m, rate, 1e-6);
  EXPECT_NEAR(made.model.coils[1].solid_length_m, 0.0165 * 10.5, 1e-15);
  EXPECT_TRUE(made.missing.empty());
  ASSERT_EQ(made.worked_out.size(), 2U);
  EXPECT_EQ(made.worked_out[0].path, "/axles/front/coils/coil/solid_length");
  EXPECT_EQ(made.worked_out[1].path, "/axles/front/coils/coil/rate");
  EXPECT_NEAR(made.worked_out[1].si, rate, 1e-6);
  EXPECT_NE(made.worked_out[1].formula.find("G d^4"), std::string::npos);
  EXPECT_TRUE(made.worked_out[1].cautions.empty()) << made.worked_out[1].cautions.front();
}

TEST(FromBuildWire, SaysWhatMakesItDoubtful) {
  AxleEntry axle = make_three_link();
  add_coil(axle);
  build::Coil& coil = axle.value.coils[0].value;
  coil.rate = {};
  coil.solid_length = {};
  const auto cautions = [&](double d, double D, double turns, double free) {
    coil.wire = build::CoilWire{};
    coil.wire->diameter.si = d;
    coil.wire->mean_diameter.si = D;
    coil.wire->active_turns.si = turns;
    coil.free_length.si = free;
    return must_build(axle).worked_out.back().cautions;
  };
  EXPECT_EQ(cautions(0.010, 0.130, 10, 0.30).size(), 1U);    // Index 13.
  EXPECT_EQ(cautions(0.0165, 0.130, 2.5, 0.12).size(), 1U);  // Turns.
  EXPECT_EQ(cautions(0.016, 0.070, 14, 0.38).size(), 1U);    // Slender: 5.26 diameters.
  const auto stressed = cautions(0.0165, 0.110, 5, 0.50);    // Solid only by setting.
  ASSERT_EQ(stressed.size(), 1U);
  EXPECT_NE(stressed[0].find("chrome-silicon"), std::string::npos);
}

TEST(FromBuildWire, ListsWhatTheWireLacks) {
  AxleEntry axle = make_three_link();
  add_coil(axle);
  build::Coil& coil = axle.value.coils[0].value;
  coil.wire = build::CoilWire{};
  coil.rate = {};
  const AxleFromBuild made = must_build(axle);
  EXPECT_FALSE(made.has_springs);
  EXPECT_TRUE(made.model.coils.empty());
  const std::string wire = "/axles/front/coils/coil/wire";
  EXPECT_EQ(missing_paths(made), (std::set<std::string>{wire + "/diameter", wire + "/mean_diameter",
                                                        wire + "/active_turns"}));
}

TEST(FromBuildLeaves, GiveTheRateWhenItIsNotGiven) {
  AxleEntry axle = make_bare();
  add_leaves(axle);
  build::LeafPack& pack = axle.value.leaf_packs[0].value;
  pack.leaves = build::Leaves{};
  pack.leaves->count = 5;
  pack.leaves->full_length_leaves = 2;
  pack.leaves->width.si = 0.0635;
  pack.leaves->thickness.si = 0.0074;
  EXPECT_TRUE(must_build(axle).worked_out.empty());
  pack.rate = {};
  const AxleFromBuild made = must_build(axle);
  EXPECT_TRUE(made.ready_to_settle);
  ASSERT_EQ(made.worked_out.size(), 1U);
  EXPECT_EQ(made.worked_out[0].path, "/axles/front/leaf_packs/pack/rate");
  // SPR-12, SPR-16 with SF (3 + 8) / 10.
  const double EI = 207e9 * 5 * 0.0635 * std::pow(0.0074, 3) / 12;
  const double rate = 2 * EI * 1.1 * 1.3 / (0.36 * 0.49);
  EXPECT_NEAR(made.worked_out[0].si, rate, 1e-6);
  // The two halves carry it in heave.
  const auto sweep = sweep_axle(made.model, {}, std::vector<Target>{{0, 0}});
  EXPECT_NEAR(sweep->poses[0].numbers.wheel_rate_N_per_m, rate, 0.05 * rate);

  pack.leaves->width = {};
  pack.leaves->thickness = {};
  const AxleFromBuild lacking = must_build(axle);
  EXPECT_FALSE(lacking.has_linkage);
  const std::string path = "/axles/front/leaf_packs/pack/leaves";
  EXPECT_EQ(missing_paths(lacking), (std::set<std::string>{path + "/width", path + "/thickness"}));
}

}  // namespace
}  // namespace rig::suspension
