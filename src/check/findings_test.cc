#include "check/findings.h"

#include <gtest/gtest.h>

#include "check/test_builds_internal.h"
#include "units/factors.h"
#include "units/quantity.h"

namespace rig::check {
namespace {

using testing::check_edited;
using testing::edited;
using testing::example_report;
using testing::find_finding;
using testing::kCrawler;
using testing::kShopTruck;
using testing::kTowRig;
using testing::read_example;
using testing::says;

/// A finding of an example with values changed in its file.
Finding told(const char* example, const std::vector<build::Edit>& edits, const std::string& id) {
  const Report report = check_edited(example, edits);
  const Finding* finding = find_finding(report, id);
  if (finding != nullptr) return *finding;
  ADD_FAILURE() << "no " << id;
  return {};
}

TEST(RatingFindings, OverTheRatingStopsAndNamesWhatToLeaveBehind) {
  const auto finding = told(kTowRig, {{"/axles/rear/rating", "\"3700 lb\""}}, "rating.axle.rear");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_TRUE(says(finding.sentence, "Towing the crew trailer")) << finding.sentence;
  EXPECT_TRUE(says(finding.advice, "Take ")) << finding.advice;
  EXPECT_TRUE(says(finding.advice, "tools")) << finding.advice;
  EXPECT_GT(finding.value->si, finding.limit->si);
}

TEST(RatingFindings, WithinWhatTheMassesAreKnownToIsDoubtful) {
  // Estimated at 5672 lb ± 71 lb in its heaviest state; close is a tenth, so take the scales' word
  // away.
  const auto finding =
      told(kShopTruck, {{"/ratings/gross_vehicle", "\"5700 lb\""}}, "rating.gross");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
}

// 10 % of 5200 lb is 520 lbf: 120 lbf more than 400.
TEST(TongueShare, LightTongueIsToldByHowMuch) {
  const auto finding = told(kTowRig, {{"/load_states/towing/trailer/tongue_load", "\"400 lbf\""}},
                            "tongue_share.towing");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_TRUE(says(finding.advice, "120 lbf more")) << finding.advice;
}

TEST(Scales, MassThatIsNotOnTheListIsLookedForWhereItWouldBe) {
  const auto finding =
      told(kTowRig, {{"/masses/engine", ""}, {"/frame", ""}, {"/drivetrain", ""}}, "scales.total");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_TRUE(says(finding.advice, "not on the list")) << finding.advice;
  EXPECT_NEAR(finding.value->si, units::kg_from_lb(760 - 10.1), 1);
}

// The engine listed 40 in too far forward: 760 lb x 40 in / 5970.1 lb.
TEST(Scales, PlaceIsJudgedToo) {
  const auto agreed = told(kTowRig, {}, "scales.place");
  EXPECT_EQ(agreed.verdict, Verdict::kGood);
  EXPECT_EQ(told(kCrawler, {}, "scales.place").verdict, Verdict::kGood);
  const auto finding = told(kTowRig, {{"/masses/engine/at/station", "\"-26 in\""}}, "scales.place");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_NEAR(finding.value->si - agreed.value->si, units::m_from_inch(760 * 40 / 5970.1),
              units::m_from_inch(0.001));
  EXPECT_TRUE(says(finding.sentence, "further back")) << finding.sentence;
}

// The engine listed 12 1/2 in too far right: 760 lb x 12 1/2 in / 5970.1 lb = 1.59 in.
TEST(Scales, OffsetIsJudgedToo) {
  const auto agreed = told(kTowRig, {}, "scales.offset");
  EXPECT_EQ(agreed.verdict, Verdict::kGood);
  const auto finding = told(kTowRig, {{"/masses/engine/at/offset", "\"-12 in\""}}, "scales.offset");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_NEAR(finding.value->si - agreed.value->si, units::m_from_inch(760 * 12.5 / 5970.1),
              units::m_from_inch(0.001));
  EXPECT_TRUE(says(finding.sentence, "to the left")) << finding.sentence;
  // 5960 lb x 1.61 in / 66 in.
  EXPECT_TRUE(says(finding.advice, "145 lb")) << finding.advice;
}

TEST(SpringFindings, SolidBeforeTheWantedBumpStops) {
  const auto finding = told(kTowRig, {{"/axles/front/coils/coil/solid_length", "\"10 in\""}},
                            "coil_solid.front.coil");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_LT(finding.value->si, 0);
  EXPECT_TRUE(says(finding.advice, "solid at 9 ")) << finding.advice;
}

TEST(SpringFindings, LooseCoilGetsOneThatIsNot) {
  const std::string id = "coil_loose.front.coil";
  const auto loose = told(kTowRig, {{"/axles/front/droop_travel", "\"6 1/2 in\""}}, id);
  EXPECT_EQ(loose.verdict, Verdict::kLook);
  EXPECT_LT(loose.value->si, 0);
  // "... or use one 20 5/16 in long free and 185 lbf/in, which sits the same."
  const auto at = loose.advice.find("use one ");
  ASSERT_NE(at, std::string::npos) << loose.advice;
  const std::string rest = loose.advice.substr(at + 8);
  const std::string free_length = rest.substr(0, rest.find(" long"));
  const auto from = rest.find("and ") + 4;
  const std::string rate = rest.substr(from, rest.find(",", from) - from);
  const auto cured = told(kTowRig,
                          {{"/axles/front/droop_travel", "\"6 1/2 in\""},
                           {"/axles/front/coils/coil/free_length", "\"" + free_length + "\""},
                           {"/axles/front/coils/coil/rate", "\"" + rate + "\""}},
                          id);
  EXPECT_GT(cured.value->si, 0.004) << free_length << ", " << rate;
}

TEST(StopFindings, SteelBeforeRubberStops) {
  const auto finding =
      told(kTowRig, {{"/axles/front/dampers/shock/closed_length", "\"19 1/2 in\""}},
           "stop_order.front.stop");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_TRUE(says(finding.sentence, "shock bottoms")) << finding.sentence;
}

TEST(StopFindings, NoStopIsAskedFor) {
  const auto finding = told(kTowRig, {{"/axles/front/bump_stops", ""}}, "stop_missing.front");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_TRUE(says(finding.advice, "no later than 4 in")) << finding.advice;
}

TEST(JointFindings, SwingPastItsLimitStopsAndIsToldWhatWould) {
  const auto finding = told(kCrawler, {{"/axles/rear/links/lower/axle/swing_limit", "\"3 deg\""}},
                            "swing.rear.lower.axle");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_TRUE(says(finding.advice, "Use a joint that swings ")) << finding.advice;
}

// Links too short for the travel: it stops where they end, and says which.
TEST(JointFindings, LockedLinkageStops) {
  const auto finding =
      told(kTowRig, {{"/axles/front/droop_travel", "\"45 in\""}}, "lock.travel.front");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_TRUE(says(finding.sentence, "the axle can")) << finding.sentence;
  EXPECT_LT(finding.value->si, 0);
  ASSERT_EQ(finding.working.size(), 1U);
  EXPECT_TRUE(says(finding.working.front().with_values, finding.value->text + " by the "));
  EXPECT_TRUE(says(finding.working.front().with_values, "45 in of droop"));
}

TEST(BindFindings, DoubtfulBushesAreNeverGood) {
  const std::string id = "bind.front";
  EXPECT_EQ(told(kShopTruck, {}, id).verdict, Verdict::kGood);
  const auto doubtful =
      told(kShopTruck,
           {{"/axles/front/arms/radius_arm/first/bushing/radial",
             R"({"value": "9000 lbf/in", "from": "estimate", "plus_minus": "300000 lbf/in"})"}},
           id);
  EXPECT_EQ(doubtful.verdict, Verdict::kLook);
  EXPECT_FALSE(doubtful.assumption.empty());
}

// Softer springs of the rate that is told give the frequency that is told.
TEST(RideFindings, AdvisedRateGivesTheFrequency) {
  const auto slow = told(kCrawler, {}, "frequency.front");
  ASSERT_EQ(slow.verdict, Verdict::kLook);
  const auto at = slow.advice.find("Coils of ");
  ASSERT_NE(at, std::string::npos) << slow.advice;
  const std::string rate = slow.advice.substr(at + 9, slow.advice.find(" make") - at - 9);
  const auto cured =
      told(kCrawler, {{"/axles/front/coils/coil/rate", "\"" + rate + "\""}}, "frequency.front");
  // The wheel rate also holds what bushes and load add, which a rate in proportion counts twice.
  EXPECT_NEAR(cured.value->si, 1.25, 0.02) << rate;
}

TEST(ArticulationFindings, RigidFrameIsAnAssumption) {
  EXPECT_EQ(told(kCrawler, {}, "articulation.cross").verdict, Verdict::kGood);
  const auto rigid = told(kCrawler, {{"/frame", ""}}, "articulation.cross");
  EXPECT_EQ(rigid.verdict, Verdict::kLook);
  EXPECT_TRUE(says(rigid.assumption, "rigid"));
}

TEST(HeightFindings, DoubtThatReachesTheLimitIsSaidToDecide) {
  const std::string id = "height.rear.right";
  const auto sure = told(kCrawler, {{"/limits/height_error", "\"40 mm\""}}, id);
  EXPECT_EQ(sure.verdict, Verdict::kGood);
  const auto doubtful = told(
      kCrawler,
      {{"/limits/height_error", "\"40 mm\""},
       {"/axles/rear/coils/coil/rate", R"({"value": "23.5 N/mm", "from": "estimate"})"},
       {"/axles/rear/coils/coil/free_length", R"({"value": "510 mm", "plus_minus": "40 mm"})"}},
      id);
  EXPECT_EQ(doubtful.verdict, Verdict::kLook);
  EXPECT_FALSE(doubtful.assumption.empty());
}

// 39.8 % of at least 40 %, with a height known to 12 in 791 mm: 1.5 % of the value.
TEST(GeometryFindings, AntiSquatOutsideByLessThanTheHeightsDoubtIsALook) {
  const auto doubtful = told(kCrawler, {}, "anti_squat.rear");
  EXPECT_EQ(doubtful.verdict, Verdict::kLook);
  EXPECT_TRUE(says(doubtful.assumption, "balance point's height")) << doubtful.assumption;
  EXPECT_TRUE(says(doubtful.advice, "Move ")) << doubtful.advice;
  const auto sure = told(kCrawler, {{"/limits/anti_squat_min", "\"45 %\""}}, "anti_squat.rear");
  EXPECT_EQ(sure.verdict, Verdict::kStop);
  EXPECT_TRUE(sure.assumption.empty()) << sure.assumption;
}

TEST(StabilityFindings, LimitOfTheFileStops) {
  const auto finding = told(kTowRig, {{"/limits/side_slope", "\"46 deg\""}}, "side_slope");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_TRUE(says(finding.advice, "wider")) << finding.advice;
}

TEST(ShockFindings, ItsOwnLengthIsTheLimitItIsPast) {
  const auto finding = told(kTowRig, {}, "shock.front.shock.droop");
  ASSERT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_EQ(finding.limit->si, 0);
  EXPECT_TRUE(says(finding.basis, "own open length in the file")) << finding.basis;
  EXPECT_EQ(finding.edge, Edge::kLeast);
}

TEST(SpringFindings, SolidIsHeldAgainstItsOwnLength) {
  const auto finding = told(kTowRig, {{"/axles/front/coils/coil/solid_length", "\"10 in\""}},
                            "coil_solid.front.coil");
  EXPECT_EQ(finding.limit->si, 0);
  EXPECT_TRUE(says(finding.basis, "own solid length in the file")) << finding.basis;
}

TEST(SpringFindings, TravelThatNoCoilAllowsIsNotPossible) {
  const auto finding = told(kTowRig,
                            {{"/axles/front/coils/coil/solid_length", "\"5 in\""},
                             {"/axles/front/bump_travel", "\"13 in\""}},
                            "coil_solid.front.coil");
  ASSERT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_TRUE(says(finding.advice, "not possible with this layout")) << finding.advice;
  EXPECT_TRUE(says(finding.advice, " of bump and 5 in of droop")) << finding.advice;
}

TEST(SpringFindings, LooseAsDrawnIsToldInsteadOfTheRide) {
  const auto report = check_edited(kTowRig, {{"/axles/front/coils/coil/free_length", "\"13 in\""}});
  const Finding* loose = find_finding(report, "coil_drawn.front.coil");
  ASSERT_NE(loose, nullptr);
  EXPECT_EQ(loose->verdict, Verdict::kStop);
  for (const char* id : {"frequency.front", "damping.front", "flat_ride"}) {
    EXPECT_EQ(find_finding(report, id), nullptr) << id;
  }
  EXPECT_NE(find_finding(report, "frequency.rear"), nullptr);
  for (const auto& row : report.axle("front")->rows) EXPECT_NE(row.id, "ride_frequency");
}

TEST(JointFindings, SwappedEndsAreAskedFor) {
  EXPECT_EQ(find_finding(example_report(kTowRig), "ends.front.lower"), nullptr);
  const auto finding = told(kTowRig, {{"/axles/front/links/lower/frame/at/station", "\"-20 in\""}},
                            "ends.front.lower");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_TRUE(says(finding.advice, "swapped")) << finding.advice;
}

TEST(RideFindings, StifferRearIsOnlyForTrucksThatTow) {
  EXPECT_TRUE(says(told(kTowRig, {}, "flat_ride").advice, "tows"));
  const auto alone = told(kTowRig, {{"/load_states/towing/trailer", ""}}, "flat_ride");
  EXPECT_FALSE(says(alone.advice, "tows")) << alone.advice;
}

TEST(RideFindings, EstimateIsSaidToBeOne) {
  const auto finding = told(kTowRig, {}, "damping.rear");
  EXPECT_TRUE(says(finding.assumption, "an estimate, taken as ±20 %")) << finding.assumption;
}

TEST(RideFindings, InsideAndCloseNeedsNothing) {
  const auto finding = told(kTowRig, {}, "frequency.front");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_TRUE(says(finding.advice, "Inside ")) << finding.advice;
  EXPECT_FALSE(says(finding.advice, " make it ")) << finding.advice;
}

TEST(GeometryFindings, TrackBarIsKeptParallelToTheDragLink) {
  const auto finding = told(kTowRig, {}, "lateral_shift.front");
  EXPECT_TRUE(says(finding.advice, "parallel to the drag link")) << finding.advice;
}

TEST(GeometryFindings, SentenceAndCureTellSteerTheSameWay) {
  const auto finding = told(kTowRig, {}, "roll_steer.front");
  EXPECT_TRUE(says(finding.sentence, "towards oversteer")) << finding.sentence;
  EXPECT_TRUE(says(finding.advice, "% towards oversteer")) << finding.advice;
  EXPECT_GT(finding.value->si, 0);
}

// Every limit says which way it holds, in every example.
TEST(Findings, EveryLimitSaysWhichWayItHolds) {
  for (const char* example : testing::kExamples) {
    for (const auto& finding : example_report(example).findings) {
      const bool said = !finding.limit || finding.edge != Edge::kUnsaid;
      EXPECT_TRUE(said) << example << " " << finding.id;
    }
  }
}

// A row is judged by the finding it names: the same quantity, inside or outside the same band.
TEST(Rows, ShowWhatTheirFindingJudges) {
  for (const char* example : testing::kExamples) {
    const Report& report = example_report(example);
    for (const auto& axle : report.axles) {
      for (const auto& row : axle.rows) {
        const Finding* finding = find_finding(report, row.finding);
        if (finding == nullptr) continue;
        EXPECT_NEAR(std::abs(row.value.si), std::abs(finding->value->si), 1e-12) << finding->id;
        ASSERT_TRUE(row.low || row.high) << finding->id;
        const double limit = finding->limit->si;
        EXPECT_TRUE((row.low && std::abs(std::abs(row.low->si) - limit) < 1e-12) ||
                    (row.high && std::abs(row.high->si - limit) < 1e-12))
            << finding->id;
      }
    }
  }
}

// Without a resting place every state and the seats fail alike: told once, with a place.
TEST(Findings, TippingIsToldOnce) {
  const auto read = edited(
      read_example(kCrawler),
      {{"/corner_weighings", ""}, {"/masses/anvil", R"({"mass": "3000 kg", "at": {"station": "4 m",
                                                 "offset": "0 m", "height": "0.8 m"}})"}});
  const Report report = check(read.build);
  ASSERT_EQ(report.diagnostics.size(), 1U);
  EXPECT_EQ(report.diagnostics[0].code, "suspension.tips_over");
  EXPECT_EQ(report.diagnostics[0].path, "/load_states/bare");
}

TEST(Summaries, AreAtMostThreeWorstFirst) {
  for (const char* example : testing::kExamples) {
    const Report& report = example_report(example);
    for (const auto* summary : {&report.weigh_summary, &report.axles_summary}) {
      EXPECT_LE(summary->size(), 3U) << example;
      EXPECT_GE(summary->size(), 2U) << example;
      for (const auto& sentence : *summary) EXPECT_LT(sentence.size(), 140U) << sentence;
    }
  }
  const Report& report = example_report(kTowRig);
  EXPECT_EQ(report.axles_summary.front(),
            "Stops the work: sideways shift, front axle, and 1 more.");
  EXPECT_TRUE(says(report.axles_summary[1], "front 11 5/8 in (left) and 11 11/16 in (right)"))
      << report.axles_summary[1];
  EXPECT_TRUE(says(report.weigh_summary[1], "5960 lb ± 20 lb")) << report.weigh_summary[1];
}

/// The length that follows `before` in an advice, m.
double length_after(const std::string& text, const std::string& before) {
  const auto at = text.find(before);
  if (at == std::string::npos) {
    ADD_FAILURE() << before << ": " << text;
    return 0;
  }
  const auto begin = at + before.size();
  const auto reading = units::parse_quantity(
      text.substr(begin, text.find(" in", begin) + 3 - begin), units::Dimension::kLength);
  return reading ? reading->si : 0;
}

// The example's one truck, its offset made bigger: each way that is told, put into tan(slope) =
// (T/2 - o)/h, gives a tenth over the limit, rounded up to 1/16 in.
TEST(SideSlope, TellsWhichSideAndHowFar) {
  const auto read = edited(read_example(kTowRig), {{"/limits/side_slope", "\"43 deg\""},
                                                   {"/corner_weighings", ""},
                                                   {"/masses/engine/at/offset", "\"22 in\""}});
  const Report report = check(read.build);
  const Finding* finding = find_finding(report, "side_slope");
  ASSERT_NE(finding, nullptr);
  ASSERT_NE(finding->verdict, Verdict::kGood);
  const weigh::Stability* worst = nullptr;
  for (const auto& state : report.states) {
    const auto& s = *state.standing()->stability;
    if (worst == nullptr || s.side_slope_rad < worst->side_slope_rad) worst = &s;
  }
  const double aim = std::tan(1.1 * 43 * units::kDegree_rad);
  const double h = worst->cg_height_m, T = worst->track_at_cg_m;
  const double o = T / 2 - h * std::tan(worst->side_slope_rad);
  const double step = units::m_from_inch(1.0 / 16);
  const double down_m = length_after(finding->advice, "bring the balance point ");
  const double wider_m = length_after(finding->advice, "make the tracks ");
  const double across_m = length_after(finding->advice, "Move the balance point ");
  EXPECT_TRUE(says(finding->advice, "to the right")) << finding->advice;
  EXPECT_GE((T / 2 - o) / (h - down_m), aim);
  EXPECT_LT((T / 2 - o) / (h - down_m + step), aim);
  EXPECT_GE(((T + wider_m) / 2 - o) / h, aim);
  EXPECT_LT(((T + wider_m - step) / 2 - o) / h, aim);
  EXPECT_NEAR(across_m, std::min(o, h * aim - (T / 2 - o)), step);
}

// 620 lbf on a ball 42 in behind the axle of a 132 in wheelbase press the rear axle by 1 + 42/132
// of themselves: with so much less on the coupling the axle carries its rating.
TEST(RatingFindings, OverTheRearAxleTheHitchTellsHowMuch) {
  const auto finding = told(kTowRig, {{"/axles/rear/rating", "\"3700 lb\""}}, "rating.axle.rear");
  const double over_lb = (finding.value->si - finding.limit->si) / units::kg_from_lb(1);
  const double off_lb = over_lb / (1 + 42.0 / 132);
  char words[64];
  std::snprintf(words, sizeof words, "move %.1f lb on the trailer", off_lb);
  EXPECT_TRUE(says(finding.advice, words)) << words << ": " << finding.advice;
  // The ball nearer by over x L / T.
  const double nearer_in = length_after(finding.advice, "bring the ball ") / 0.0254;
  EXPECT_NEAR(nearer_in, over_lb * 132 / 620, 1.0 / 16) << finding.advice;
}

TEST(RatingFindings, HeavyTongueTellsTheMassToMove) {
  const auto finding = told(kTowRig, {{"/hitch/tongue_rating", "\"550 lbf\""}}, "rating.tongue");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_TRUE(says(finding.advice, "Move 70 lb on the trailer")) << finding.advice;
}

TEST(HeightFindings, BothCornersOfAnAxleAreMovedTogether) {
  const auto read =
      edited(read_example(kTowRig), {{"/axles/front/coils/coil/free_length", "\"21 in\""}});
  const Report report = check(read.build);
  const Finding* left = find_finding(report, "height.front.left");
  const Finding* right = find_finding(report, "height.front.right");
  ASSERT_TRUE(left != nullptr && right != nullptr);
  EXPECT_EQ(left->advice, right->advice);
  EXPECT_TRUE(says(left->advice, "Move both front upper seats up 1 ")) << left->advice;
}

}  // namespace
}  // namespace rig::check
