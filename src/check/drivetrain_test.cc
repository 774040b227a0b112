// The drivetrain in the report: the tow rig's, and what is said when something of it is wrong.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "check/drivetrain_report.h"
#include "check/drivetrain_steps.h"
#include "check/json_internal.h"
#include "check/report_json.h"
#include "check/scene_json.h"
#include "check/test_builds_internal.h"
#include "frame/weights.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using testing::edited;
using testing::find_finding;
using testing::kTowRig;
using testing::read_example;
using testing::says;

/// The tow rig with one value of its drivetrain written anew.
Report with(const std::string& path, const std::string& json) {
  const auto read = read_example(kTowRig);
  return check(edited(read, {{"/drivetrain" + path, json}}).build);
}

const Report& tow_rig() { return testing::example_report(kTowRig); }

TEST(Drivetrain, MountsCarryTheCasesAndFlangesAreJudged) {
  ASSERT_NE(tow_rig().drivetrain, nullptr);
  const DrivetrainReport& drivetrain = *tow_rig().drivetrain;
  ASSERT_EQ(drivetrain.lines.size(), 1U);
  const CasesReport& line = drivetrain.lines[0];
  ASSERT_EQ(line.loads.size(), 6U);
  Vec3 sum = Vec3::Zero();
  for (const auto& mount : line.loads[0].carried.mounts) sum += mount.f_V;
  const double weight_N = units::kg_from_lb(760 + 165 + 128) * units::g;
  EXPECT_NEAR(sum.z(), weight_N, 1e-6 * weight_N);
  EXPECT_NEAR(sum.head<2>().norm(), 0, 1e-6 * weight_N);
  const Finding* flange = find_finding(tow_rig(), "flange.gearbox");
  ASSERT_NE(flange, nullptr);
  EXPECT_EQ(flange->work, "drivetrain");
  EXPECT_NEAR(flange->limit->si, 900 * units::kPoundForceFoot_Nm, 1e-6);
  // Of the engine's own flange no limit is known: never good.
  EXPECT_EQ(find_finding(tow_rig(), "flange.engine")->verdict, Verdict::kLook);
}

// The same truck by two ways: the frame's own sharing out, and the cases' balance on a frame that
// stands still.
TEST(Drivetrain, TheFrameGetsWhatTheMountsCarry) {
  const build::Build build = read_example(kTowRig).build;
  const auto model = frame::make_model(build, build::planned_parts(build.frame));
  ASSERT_TRUE(model.has_value());
  const CasesReport& line = tow_rig().drivetrain->lines[0];
  std::vector<frame::Burden> burdens;
  for (const auto& one : line.from.line.cases) {
    const auto* segment = build::find(build.drivetrain.segments, one.id);
    burdens.push_back(
        {.id = segment->value.mass.id, .mass_kg = one.mass_kg, .p_VoCm_V = one.p_VoCm_V});
  }
  driveline::CaseLine stiff = line.from.line;
  stiff.frame_m_per_N.resize(0, 0);
  const auto rest = driveline::solve_cases(stiff, line.loads[0].loads);
  int compared = 0;
  for (const CasesLoad& load : line.loads) {
    const auto solved = driveline::solve_cases(stiff, load.loads, &*rest);
    const auto& carried = solved->mounts;
    const bool at_stop = std::any_of(carried.begin(), carried.end(),
                                     [](const auto& mount) { return mount.snubbed; });
    // The frame has no stops, and gets the torque elsewhere.
    if (at_stop || !load.loads.t_V.empty()) continue;
    ++compared;
    const auto laid = frame::lay_burdens(
        *model, build, burdens,
        {.a_V = -load.loads.felt_V, .alpha_V = Vec3::Zero(), .p_VoO_V = Vec3::Zero()});
    for (std::size_t m = 0; m < line.from.line.mounts.size(); ++m) {
      Vec3 f = Vec3::Zero();
      for (const auto& point : laid.loads.points) {
        if ((point.p_VoP_V - line.from.line.mounts[m].p_VoM_V).norm() < 1e-6) f += point.f_P_V;
      }
      EXPECT_LT((f + carried[m].f_V).norm(), 1e-6 * f.norm()) << load.id << " " << m;
    }
  }
  EXPECT_GE(compared, 2);
}

TEST(Drivetrain, TheFullTorqueIsTheLesserOfGearsAndGrip) {
  const DrivetrainReport& drivetrain = *tow_rig().drivetrain;
  const double gears_Nm = 420 * units::kPoundForceFoot_Nm * 5.61 * 2.72;
  EXPECT_LT(drivetrain.cases_torque_Nm, gears_Nm);
  EXPECT_EQ(drivetrain.torque_basis, "where all driven tyres slip");
  const Report weak = with("/engine/torque", R"("100 lb-ft")");
  EXPECT_NEAR(weak.drivetrain->cases_torque_Nm, gears_Nm * 100 / 420, 1e-6 * gears_Nm);
  double rolled_Nm = 0;
  for (const Vec3& t : weak.drivetrain->lines[0].loads.back().loads.t_V) rolled_Nm += t.x();
  EXPECT_NEAR(rolled_Nm, gears_Nm * 100 / 420, 1e-6 * gears_Nm);
}

TEST(Drivetrain, ShaftsAreFollowedThroughTheTravel) {
  for (const ShaftReport& shaft : tow_rig().drivetrain->shafts) {
    ASSERT_TRUE(shaft.solved());
    EXPECT_GT(shaft.bump.poses.size(), 5U);
    EXPECT_NEAR(shaft.bump_m[shaft.ride], 0, 1e-9);
    // As drawn, the ends are where the file has them.
    EXPECT_TRUE(shaft.bump_ends[shaft.ride].p_VOut.isApprox(shaft.from.drawn.p_VOut, 1e-6));
    EXPECT_GT(shaft.all.extremes.longest_m[0].value, shaft.all.extremes.shortest_m[0].value);
    EXPECT_FALSE(shaft.rows.empty());
    EXPECT_FALSE(shaft.curves.empty());
  }
}

TEST(Drivetrain, AShaftCutTooLongBottomsAndSaysByHowMuch) {
  const Report report = with("/shafts/rear/slip/closed", R"("48 5/8 in")");
  const Finding* slip = find_finding(report, "shaft.slip_in.rear");
  ASSERT_NE(slip, nullptr);
  EXPECT_EQ(slip->verdict, Verdict::kStop);
  EXPECT_TRUE(says(slip->sentence, "bottoms"));
  EXPECT_TRUE(says(slip->advice, "shorter"));
}

TEST(Drivetrain, AJointPastItsBindStops) {
  const Report report = with("/shafts/front/end/bind", R"("3 deg")");
  const Finding* bind = find_finding(report, "shaft.bind.front");
  ASSERT_NE(bind, nullptr);
  EXPECT_EQ(bind->verdict, Verdict::kStop);
  EXPECT_TRUE(says(bind->sentence, "binds"));
}

TEST(Drivetrain, TurningThePinionAsAdvisedQuietensTheShaft) {
  const auto read = read_example(kTowRig);
  const auto steep = edited(read, {{"/axles/rear/pinion", R"("10 deg")"}});
  const Report before = check(steep.build);
  const Finding* shake = find_finding(before, "shaft.torsional.rear");
  ASSERT_NE(shake, nullptr);
  EXPECT_TRUE(says(shake->advice, "Pinion nose down"));
  const auto& pinion = before.drivetrain->shafts[0].pinion;
  ASSERT_TRUE(pinion.has_value());
  EXPECT_LT(pinion->motion.line.angle_rad, before.drivetrain->shafts[0]
                                               .bump.poses[before.drivetrain->shafts[0].ride]
                                               .motion.line.angle_rad);
}

TEST(Drivetrain, FacesThatDoNotMatchStop) {
  const Report report = with("/segments/gearbox/front_pattern", R"("other")");
  const Finding* pattern = find_finding(report, "flange_pattern.gearbox");
  ASSERT_NE(pattern, nullptr);
  EXPECT_EQ(pattern->verdict, Verdict::kStop);
}

TEST(Drivetrain, MountsThatDoNotHoldAreAFault) {
  const Report report = with("/mounts", R"({"middle": {"segment": "engine",
    "at": {"station": "10 in", "offset": "0 in", "height": "27 in"}, "compression": "900 lbf/in"}})");
  bool told = false;
  for (const Diagnostic& fault : report.diagnostics) {
    told = told || fault.code == "driveline.not_held";
  }
  EXPECT_TRUE(told);
  EXPECT_EQ(find_finding(report, "flange.gearbox"), nullptr);
}

TEST(Drivetrain, AHoistThatIsTooSmallSaysWhatToTakeOff) {
  const Report report = with("/hoist/capacity", R"("800 lb")");
  const Finding* lift = find_finding(report, "lift.pair");
  ASSERT_NE(lift, nullptr);
  EXPECT_EQ(lift->verdict, Verdict::kStop);
  EXPECT_TRUE(says(lift->advice, "125 lb"));
}

TEST(Drivetrain, WhatIsNotToldIsMissingAndTheRestIsTold) {
  const Report report = with("/mounts/gearbox/compression", "null");
  EXPECT_TRUE(report.drivetrain->lines[0].loads.empty());
  bool asked = false;
  for (const Missing& missing : report.missing) {
    asked = asked || missing.path == "/drivetrain/mounts/gearbox/compression";
  }
  EXPECT_TRUE(asked);
  EXPECT_TRUE(report.drivetrain->shafts[0].solved());
}

TEST(Drivetrain, StepsHoldAtTheMountsAndBeforeTheTubeIsCut) {
  const auto steps = list_mock_up_steps(*tow_rig().drivetrain, Printer({}));
  ASSERT_EQ(steps.size(), 6U);
  for (const MockUpStep& step : steps) EXPECT_FALSE(step.hold.empty());
  EXPECT_TRUE(says(steps[3].hold, "joint to joint"));
  EXPECT_TRUE(says(steps[4].hold, "weld to weld"));
}

// docs/api.md, "drivetrain".
TEST(Drivetrain, HasTheShapeOfTheContract) {
  const auto build = read_example(kTowRig).build;
  const Json json = Json::parse(report_json(build, tow_rig()))["drivetrain"];
  for (const char* key : {"rows", "cases", "loads", "modes", "shafts", "gears", "road_speed",
                          "lifts", "gaps", "steps"}) {
    ASSERT_TRUE(json.contains(key)) << key;
    EXPECT_FALSE(json[key].empty()) << key;
  }
  EXPECT_EQ(json.size(), 10U);
  EXPECT_EQ(json["loads"][0]["mounts"].size(), 3U);
  EXPECT_EQ(json["loads"][0]["flanges"].size(), 2U);
  EXPECT_EQ(json["modes"].size(), 6U);
  // 5.61 x 2.72 x 4.1, the slowest first.
  EXPECT_EQ(json["gears"][0]["overall"]["text"], "62.6:1");
  int cases = 0, shafts = 0, mounts = 0;
  const Json scene = Json::parse(scene_json(build, tow_rig()));
  for (const auto& part : scene["parts"]) {
    cases += part["kind"] == "case" ? 1 : 0;
    shafts += part["kind"] == "shaft" ? 1 : 0;
    mounts += part["kind"] == "mount" ? 1 : 0;
  }
  EXPECT_EQ(cases, 3);
  EXPECT_EQ(shafts, 2);
  EXPECT_EQ(mounts, 3);
}

}  // namespace
}  // namespace rig::check
