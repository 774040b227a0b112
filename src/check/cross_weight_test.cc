#include "check/cross_weight.h"

#include <gtest/gtest.h>

#include <cmath>

#include "check/test_builds_internal.h"
#include "check/truck.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using testing::check_edited;
using testing::edited;
using testing::example_report;
using testing::find_finding;
using testing::kTowRig;
using testing::read_example;
using testing::says;

using units::g;

/// The tow rig with so many pounds more on the left front and right rear scale, less on the others.
build::ReadBuild tow_rig_crossed(double lb) {
  const auto set = [lb](const char* corner, double reading_lb, double sign) {
    char text[96];
    std::snprintf(text, sizeof text, "{\"value\": \"%.12g lb\", \"plus_minus\": \"10 lb\"}",
                  reading_lb + sign * lb);
    return build::Edit{std::string("/corner_weighings/public_scale/") + corner, text};
  };
  return edited(read_example(kTowRig), {set("front_left", 1600, 1),
                                        set("front_right", 1560, -1),
                                        set("rear_left", 1395, -1),
                                        set("rear_right", 1405, 1),
                                        // The closed form knows no twist of the frame.
                                        {"/frame/twist_stiffness", "\"100000000 N·m/rad\""}});
}

// (1600 + 1405) / 5960; four readings of ± 10 lb move it by sqrt(2 s^2 + 2 (1 - s)^2) 10 / 5960.
TEST(CrossWeight, IsTheReadingsWithTheirOwnDoubt) {
  const Report& report = example_report(kTowRig);
  const Finding* finding = find_finding(report, "cross_weight");
  ASSERT_NE(finding, nullptr);
  const double s = 3005.0 / 5960;
  EXPECT_NEAR(finding->value->si, s, 1e-12);
  EXPECT_EQ(finding->verdict, Verdict::kGood);
  EXPECT_NEAR(report.ride()->weigh.scaled->weighed.cross_weight_plus_minus,
              std::sqrt(2 * s * s + 2 * (1 - s) * (1 - s)) * 10 / 5960, 1e-12);
  // 56 lb more on the diagonal: 51.36 %, inside by less than the readings' 0.17 %.
  const Report near = check(tow_rig_crossed(28).build);
  EXPECT_EQ(find_finding(near, "cross_weight")->verdict, Verdict::kLook);
  EXPECT_TRUE(says(find_finding(near, "cross_weight")->assumption, "readings leave it"));
}

// However far out, it asks for a look only; and the seat that it tells to move, moved in a model of
// its own, takes what is over half the weight off.
TEST(CrossWeight, TellsTheSeatAndHowFar) {
  const Report report = check(tow_rig_crossed(120).build);
  const Finding* finding = find_finding(report, "cross_weight");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, Verdict::kLook);
  EXPECT_TRUE(says(finding->advice, "that brings it to 50")) << finding->advice;
  const StateReport& ride = *report.ride();
  const double now = calc_cross_weight(*ride.settled);
  const double over = finding->value->si - 0.5;
  const auto cure =
      find_cross_weight_cure(*ride.truck, *ride.settled, now - over, units::m_from_inch(1.0 / 16));
  ASSERT_TRUE(cure.has_value() && cure->reaches);
  const auto again = suspension::settle(moved(*ride.truck, cure->move), flat_ground());
  ASSERT_TRUE(again.has_value());
  EXPECT_NEAR(calc_cross_weight(*again), cure->cross_weight, 1e-9);
  // Rounded to 1/16 in.
  EXPECT_NEAR(calc_cross_weight(*again) - now, -over, 0.002);
}

TEST(CrossWeight, SwappedScalesAreAskedForWhereNoSeatIsSoFarOut) {
  const Report report = check(tow_rig_crossed(800).build);
  const Finding* finding = find_finding(report, "cross_weight");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->verdict, Verdict::kLook);
  EXPECT_TRUE(says(finding->advice, "It would take ")) << finding->advice;
  EXPECT_TRUE(says(finding->advice, "swapped or misread scales")) << finding->advice;
}

// Closed form. A coil at offset s on an axle with roll stiffness K1 (tyres Kt1), the body held by
// the rear's K2 and tipped by its height over the roll axis, G: raising the stand by d turns the
// front by a = k d s / K1; the front then passes on m = (a - phi) / (1/K1 + 1/Kt1), the rear K2
// phi, with phi = m / (K2 - G). Both over the track, over the weight.
TEST(CrossWeight, OfAMovedSeatIsTheSpringsInARow) {
  build::Build build = read_example(kTowRig).build;
  build.frame.twist_stiffness.si = 1e8;  // The closed form knows no twist of the frame.
  const Report report = check(build);
  const StateReport& ride = *report.ride();
  const auto& front = report.axles[0];
  const auto& coil = front.model.coils.front();
  const double T = front.model.track_m, d = 0.003;
  const auto tyres = [&](std::size_t a) { return ride.truck->tyres[a].rate_N_per_m * T * T / 2; };
  const double K1 = front.drawn->numbers.roll_rate_Nm_per_rad, Kt1 = tyres(0);
  const double Kr = report.axles[1].drawn->numbers.roll_rate_Nm_per_rad;
  const double K2 = Kr * tyres(1) / (Kr + tyres(1));
  const auto& sprung = *ride.standing()->sprung;
  const double share_rear = -sprung.p_VoBcm_V.x() / front.truck.wheelbase_m;
  const double axis_m = (1 - share_rear) * front.drawn->numbers.roll_centre_height_m +
                        share_rear * report.axles[1].drawn->numbers.roll_centre_height_m;
  const double G = sprung.mass_kg * g * (sprung.p_VoBcm_V.z() - axis_m);
  const double s = (coil.p_VP.y() + coil.p_AQ.y()) / 2;
  const double a = coil.rate_N_per_m * d * s / K1;
  const double c = 1 / K1 + 1 / Kt1;
  const double phi = a / c / (K2 - G + 1 / c);
  const double m = (a - phi) / c;
  const double weight_N = ride.standing()->truck.mass_kg * g;
  const double wanted = (m + K2 * phi) / T / weight_N;
  const CornerMove move{.axle = 0, .coil = true, .index = 0, .side = 1, .raise_m = d};
  const auto settled = suspension::settle(moved(*ride.truck, move), flat_ground());
  ASSERT_TRUE(settled.has_value());
  const double told = calc_cross_weight(*settled) - calc_cross_weight(*ride.settled);
  // Slanted coils, link angles, the lean of the shackle side: second order beside a 20th.
  EXPECT_NEAR(told, wanted, 0.05 * wanted) << told / wanted;
  EXPECT_GT(told, 0);
}

TEST(CrossWeight, IsTheSettledLoadsWithoutScales) {
  const Report report = check_edited(kTowRig, {{"/corner_weighings", ""}});
  const Finding* finding = find_finding(report, "cross_weight");
  ASSERT_NE(finding, nullptr);
  const auto& axles = report.ride()->settled->axles;
  const double total_N = axles[0].wheel_loads_N[0] + axles[0].wheel_loads_N[1] +
                         axles[1].wheel_loads_N[0] + axles[1].wheel_loads_N[1];
  EXPECT_NEAR(finding->value->si, (axles[0].wheel_loads_N[0] + axles[1].wheel_loads_N[1]) / total_N,
              1e-12);
  EXPECT_TRUE(says(finding->sentence, "as it settles"));
}

// 1700 lb on one scale is more than any settled or split load: the tyre is judged on it, to the
// reading's own ± 10 lb.
TEST(CrossWeight, RatingsAreJudgedOnTheHeaviestWheel) {
  const auto read = edited(tow_rig_crossed(100), {{"/tyres/all_terrain/rating", "\"1705 lb\""},
                                                  {"/load_states/full", ""},
                                                  {"/load_states/towing", ""}});
  const Report report = check(read.build);
  const Finding* tyre = find_finding(report, "rating.tyre.front");
  ASSERT_NE(tyre, nullptr);
  EXPECT_NEAR(tyre->value->si, units::kg_from_lb(1700), 1e-6);
  EXPECT_TRUE(says(tyre->working.front().source, "by the scales"));
  EXPECT_EQ(tyre->verdict, Verdict::kLook);
  EXPECT_NEAR(corner_load_half_width_N(*report.ride(), true, 1), units::kg_from_lb(10) * g, 1e-9);
}

}  // namespace
}  // namespace rig::check
