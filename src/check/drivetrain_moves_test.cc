// The cases on a frame that gives, what moves with them, and where they would stand better.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "build/move_cases.h"
#include "build/patch.h"
#include "check/drivetrain_report.h"
#include "check/limits_drivetrain.h"
#include "check/test_builds_internal.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using testing::check_edited;
using testing::edited;
using testing::find_finding;
using testing::kCrawler;
using testing::kTowRig;
using testing::read_example;
using testing::says;
using units::kInch_m;

Report tow_rig_with(const std::string& path, const std::string& json) {
  return check_edited(kTowRig, {{"/drivetrain" + path, json}});
}

const DrivetrainReport& towed() { return *testing::example_report(kTowRig).drivetrain; }

TEST(DrivetrainMoves, TheFrameGivesUnderTheMounts) {
  const CasesReport& line = towed().lines[0];
  ASSERT_EQ(line.from.line.frame_m_per_N.rows(), 9);
  driveline::CaseLine stiff = line.from.line;
  stiff.frame_m_per_N.resize(0, 0);
  const auto modes = driveline::solve_modes(stiff);
  ASSERT_TRUE(modes.has_value());
  for (std::size_t i = 0; i < driveline::kWays; ++i) {
    EXPECT_LT(line.modes->modes[i].frequency_Hz, modes->modes[i].frequency_Hz);
    EXPECT_GT(line.modes->modes[i].frequency_Hz, 0.8 * modes->modes[i].frequency_Hz);
  }
  // A rail of this size on supports 132 in apart gives some thousandths of an inch for 100 lbf.
  EXPECT_GT(line.softest_frame_N_per_m, 1e6);
  EXPECT_LT(line.softest_frame_N_per_m, 1e8);
}

TEST(DrivetrainMoves, EveryLoadMovesTheShaftsOnce) {
  for (const ShaftReport& shaft : towed().shafts) {
    ASSERT_EQ(shaft.moved.size(), 5U);
    EXPECT_EQ((shaft.all.poses.size() - shaft.unmoved) % shaft.moved.size(), 0U);
    EXPECT_EQ(shaft.load_words(0), "");
    EXPECT_EQ(shaft.load_words(shaft.all.poses.size() - 1), "full torque");
    const auto& drawn = shaft.bump.poses[shaft.ride].motion;
    for (const ShaftUnderLoad& load : shaft.moved) {
      EXPECT_NE(load.ride.motion.joint_angle_rad[0], drawn.joint_angle_rad[0]) << load.id;
      EXPECT_NEAR(load.ride.motion.joint_angle_rad[0], drawn.joint_angle_rad[0],
                  3 * units::kDegree_rad);
    }
    // In the lowest gears it turns slower than on the road.
    EXPECT_LT(shaft.moved.back().speed_rad_per_s, 0.1 * shaft.speed_rad_per_s);
  }
}

TEST(DrivetrainMoves, TheMapShowsWhereAJointBinds) {
  const ShaftReport& free = towed().shafts[0];
  ASSERT_EQ(free.map.bump_m.size(), 41U);
  ASSERT_EQ(free.map.roll_rad.size(), 21U);
  const auto count = [](const ShaftReport& shaft, ShaftRoom room) {
    return std::count(shaft.map.rooms.begin(), shaft.map.rooms.end(), room);
  };
  EXPECT_EQ(count(free, ShaftRoom::kPast), 0);
  // Full roll is reached by one wheel in full bump and the other in full droop alone.
  EXPECT_EQ(free.map.rooms.front(), ShaftRoom::kNotReached);
  const Report report = tow_rig_with("/shafts/rear/start/bind", R"("8 deg")");
  const ShaftReport& bound = report.drivetrain->shafts[0];
  EXPECT_GT(count(bound, ShaftRoom::kPast), 0);
  EXPECT_GT(count(bound, ShaftRoom::kClose), 0);
  // It binds in droop, not in bump.
  const std::size_t middle = 10 * 41;
  EXPECT_EQ(bound.map.rooms[middle], ShaftRoom::kPast);
  EXPECT_NE(bound.map.rooms[middle + 40], ShaftRoom::kPast);
}

TEST(DrivetrainMoves, AGapToAnAxleClosesByItsBumpAndByTheMounts) {
  const auto gap = std::find_if(towed().gaps.begin(), towed().gaps.end(),
                                [](const GapReport& one) { return one.id == "pan"; });
  ASSERT_NE(gap, towed().gaps.end());
  const double bump_m = 4 * kInch_m;
  EXPECT_LT(gap->least_m, gap->drawn_m - 0.95 * bump_m);
  EXPECT_GT(gap->least_m, gap->drawn_m - bump_m - gap->moves_m - 0.1 * kInch_m);
  EXPECT_EQ(gap->least_load, "bump, 3 g");
  const Report report = tow_rig_with("/gaps/pan/to/height", R"("20 1/4 in")");
  const Finding* meets = find_finding(report, "clearance.pan");
  ASSERT_NE(meets, nullptr);
  EXPECT_EQ(meets->verdict, Verdict::kStop);
  EXPECT_TRUE(says(meets->sentence, "They meet"));
}

TEST(DrivetrainMoves, AGapWithoutAPlaceIsMissing) {
  const Report report = tow_rig_with("/gaps", R"({"pan": {"segment": "engine"}})");
  const auto is_missing = [&](const std::string& path) {
    return std::any_of(report.missing.begin(), report.missing.end(),
                       [&](const Missing& one) { return one.path == path; });
  };
  EXPECT_TRUE(is_missing("/drivetrain/gaps/pan/at"));
  EXPECT_TRUE(is_missing("/drivetrain/gaps/pan/to"));
}

// What the finding advises, done to the file: then it holds.
TEST(DrivetrainMoves, MovedAsAdvisedTheGapIsWideEnough) {
  auto read = edited(read_example(kTowRig),
                     {{"/drivetrain/gaps/pan/least", R"("2 in")"},
                      {"/drivetrain/placing",
                       R"({"up": "2 in", "least_slope": "3.5 deg", "most_slope": "3.5 deg"})"}});
  const Report before = check(read.build);
  EXPECT_EQ(find_finding(before, "clearance.pan")->verdict, Verdict::kLook);
  const Finding* placing = find_finding(before, "placing");
  ASSERT_NE(placing, nullptr);
  EXPECT_EQ(placing->verdict, Verdict::kLook);
  const auto& first = before.drivetrain->lines[0].from.line.cases[0];
  const auto end = placing->advice.find(" up)");
  ASSERT_NE(end, std::string::npos) << placing->advice;
  const auto begin = placing->advice.find('(') + 1;
  build::AskedMove move;
  move.up = placing->advice.substr(begin, end - begin);
  const auto patch = build::move_cases_patch(*read.document, move);
  ASSERT_TRUE(patch.has_value());
  const Report after = check(build::patch_build(*read.document, *patch)->build);
  // To the sixteenth of an inch in which the advice is told.
  EXPECT_GT(find_finding(after, "clearance.pan")->value->si, (2 - 1.0 / 16) * kInch_m);
  EXPECT_GT(after.drivetrain->lines[0].from.line.cases[0].p_VoF_V.z(), first.p_VoF_V.z());
  // The whole line went: the mounts carry what they carried.
  const auto& was = before.drivetrain->lines[0].loads[0].carried.mounts;
  const auto& is = after.drivetrain->lines[0].loads[0].carried.mounts;
  for (std::size_t m = 0; m < was.size(); ++m) EXPECT_NEAR(is[m].along_N, was[m].along_N, 20);
}

TEST(DrivetrainMoves, ADifferentialSharesTheTorque) {
  const Report report = tow_rig_with("/centre", R"("differential")");
  const auto& rear = report.drivetrain->shafts[0].torque;
  const auto& front = report.drivetrain->shafts[1].torque;
  ASSERT_TRUE(rear.has_value() && front.has_value());
  EXPECT_NEAR(rear->torque_Nm / front->torque_Nm, 0.55 / 0.45, 1e-9);
  EXPECT_LE(rear->torque_Nm, towed().shafts[0].torque->torque_Nm * (1 + 1e-9));
  EXPECT_LE(front->torque_Nm, towed().shafts[1].torque->torque_Nm * (1 + 1e-9));
}

TEST(DrivetrainMoves, ASplinedBarMakesItWhirlSooner) {
  const Report even = tow_rig_with("/shafts/rear/slip/stub_length", "null");
  EXPECT_LT(towed().shafts[0].critical->speed_rad_per_s,
            even.drivetrain->shafts[0].critical->speed_rad_per_s);
}

TEST(DrivetrainMoves, SplinesHardlyEngagedLimitTheTorque) {
  const auto& slip = towed().shafts[0];
  EXPECT_NEAR(slip.engaged_m, slip.all.extremes.least_out_left_m.value + 1.5 * kInch_m, 1e-9);
  EXPECT_GT(slip.teeth->torque_limit_Nm, slip.torsion->torque_limit_Nm);
  // So that 3/8 in of them are left.
  const double open_in = slip.all.extremes.longest_m[0].value / kInch_m + 0.375;
  const Report report =
      tow_rig_with("/shafts/rear/slip/open", fmt::format(R"("{:.4f} in")", open_in));
  const Finding* torque = find_finding(report, "shaft.torque.rear");
  ASSERT_NE(torque, nullptr);
  EXPECT_TRUE(says(torque->sentence, "of which 3/8 in are left engaged")) << torque->sentence;
  const auto& teeth = report.drivetrain->shafts[0].teeth;
  EXPECT_NEAR(torque->limit->si, teeth->torque_limit_Nm, 1e-9);
  // As strong as the bar with half its diameter engaged, by the same steel.
  EXPECT_NEAR(teeth->torque_limit_Nm / slip.torsion->torque_limit_Nm, 0.375 / 0.75, 1e-3);
}

TEST(DrivetrainMoves, TheTubeIsCutToTheYokes) {
  const auto& cut = towed().shafts[0].cut;
  ASSERT_TRUE(cut.has_value());
  // 46 1/2 in closed less the yokes of 3 1/4 and 8 1/2 in, and what slides at ride.
  const double ride_m =
      towed().shafts[0].bump.poses[towed().shafts[0].ride].motion.tubes[0].length_m;
  EXPECT_NEAR(cut->cut_m + (3.25 + 8.5) * kInch_m + cut->pulled_out_m, ride_m, 1e-9);
  EXPECT_NEAR(cut->left_closing_m, cut->left_opening_m, 1e-9);
}

TEST(DrivetrainMoves, TooHeavyALiftNamesThePartToTakeOff) {
  const Report report = tow_rig_with("/hoist/capacity", R"("800 lb")");
  const Finding* lift = find_finding(report, "lift.pair");
  ASSERT_NE(lift, nullptr);
  EXPECT_EQ(lift->verdict, Verdict::kStop);
  EXPECT_TRUE(says(lift->advice, "take off the gearbox"));
  const Report none = tow_rig_with("/hoist/capacity", R"("100 lb")");
  EXPECT_TRUE(says(find_finding(none, "lift.pair")->advice, "no one part"));
}

TEST(DrivetrainMoves, BounceNearAnAxlesHopAsksForALook) {
  const Report& report = testing::example_report(kCrawler);
  const Finding* hop = find_finding(report, "hop.front");
  ASSERT_NE(hop, nullptr);
  EXPECT_EQ(hop->verdict, Verdict::kLook);
  // sqrt((2 k_s + 2 k_t) / m_u) / (2 pi) of an axle lies well below a wheel's own 20 Hz.
  for (const AxleReport& axle : report.axles) {
    EXPECT_GT(axle.hop_frequency_Hz, axle.ride_frequency_Hz);
    EXPECT_LT(axle.hop_frequency_Hz, 20);
  }
}

}  // namespace
}  // namespace rig::check
