#include "check/advice.h"

#include <gtest/gtest.h>

#include "check/geometry.h"
#include "check/test_builds_internal.h"
#include "check/truck.h"
#include "suspension/from_build.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using testing::edited;
using testing::example_report;
using testing::find_finding;
using testing::kCrawler;
using testing::kShopTruck;
using testing::kTowRig;
using testing::read_example;
using testing::set_length;

/// What `find_advice` says about one number of one axle, and the file changed accordingly.
struct Tried {
  std::optional<Advice> advice;
  Report after;
};

Tried try_advice(const std::string& example, const std::string& axle_id, GeometryNumber number) {
  const auto read = read_example(example);
  const Report& report = example_report(example);
  const AxleReport& axle = *report.axle(axle_id);
  const auto& entry = *build::find(read.build.axles, axle_id);
  const Evaluate evaluate = make_geometry(axle);
  const auto bands = geometry_bands(resolve_limits(read.build.limits), axle.front);
  Tried tried;
  tried.advice =
      find_advice(entry, evaluate, calc_sensitivities(entry, evaluate, list_moves(entry.value)),
                  number, bands, Printer(read.build.units));
  if (!tried.advice) return tried;
  build::Axle copy = entry.value;
  const double now_m = coordinate_of(copy, tried.advice->move).si;
  const auto changed = edited(read, {set_length(coordinate_path(entry, tried.advice->move),
                                                now_m + tried.advice->amount_m)});
  tried.after = check(changed.build);
  return tried;
}

TEST(Advice, SidewaysShiftIsCuredInTheFile) {
  const auto& before = example_report(kTowRig);
  ASSERT_EQ(find_finding(before, "lateral_shift.front")->verdict, Verdict::kStop);
  const Tried tried = try_advice(kTowRig, "front", kLateralShift);
  ASSERT_TRUE(tried.advice.has_value());
  EXPECT_TRUE(tried.advice->cures);
  const Finding* after = find_finding(tried.after, "lateral_shift.front");
  EXPECT_NE(after->verdict, Verdict::kStop) << tried.advice->words << ": " << after->sentence;
  EXPECT_NEAR(after->value->si, tried.advice->value, 1e-9);
}

TEST(Advice, AntiSquatIsCuredInTheFile) {
  const auto& before = example_report(kCrawler);
  // Outside the file's 40 %, though by less than the height is known to.
  ASSERT_EQ(find_finding(before, "anti_squat.rear")->verdict, Verdict::kLook);
  ASSERT_LT(find_finding(before, "anti_squat.rear")->value->si, 0.40);
  const Tried tried = try_advice(kCrawler, "rear", kAntiDrive);
  ASSERT_TRUE(tried.advice.has_value());
  EXPECT_TRUE(tried.advice->cures);
  const Finding* after = find_finding(tried.after, "anti_squat.rear");
  EXPECT_NE(after->verdict, Verdict::kStop) << tried.advice->words << ": " << after->sentence;
  EXPECT_GT(after->value->si, 0.40);
  EXPECT_NEAR(after->value->si, tried.advice->value, 1e-6);
}

TEST(Advice, LeafEyeCuresRollSteerInTheFile) {
  const Tried tried = try_advice(kTowRig, "rear", kRollSteer);
  ASSERT_TRUE(tried.advice.has_value());
  EXPECT_TRUE(tried.advice->cures);
  EXPECT_EQ(tried.advice->move.point, PointKind::kLeafFrontEye);
  EXPECT_LT(tried.advice->amount_m, 0);  // Down: the spring's front half then rises less forward.
  const Finding* after = find_finding(tried.after, "roll_steer.rear");
  EXPECT_NEAR(after->value->si, tried.advice->value, 1e-9);
}

TEST(Advice, TellsTheBestPartialMoveWhereNoneCures) {
  const Tried tried = try_advice(kShopTruck, "front", kAntiBrake);
  ASSERT_TRUE(tried.advice.has_value());
  EXPECT_FALSE(tried.advice->cures);
  EXPECT_GE(std::abs(tried.advice->amount_m), kFurthestMove_m - 1e-9);
  const auto& before = example_report(kShopTruck);
  EXPECT_LT(tried.advice->value, find_finding(before, "anti_dive.front")->value->si);
}

TEST(Advice, NothingToDoInsideTheBand) {
  EXPECT_FALSE(try_advice(kCrawler, "front", kNoseChange).advice.has_value());
}

TEST(Advice, AmountIsAWholeNumberOfTheBuildsFractions) {
  const Tried tried = try_advice(kTowRig, "front", kLateralShift);
  const double steps = tried.advice->amount_m / (units::kInch_m / 16);
  EXPECT_NEAR(steps, std::round(steps), 1e-9);
}

TEST(Advice, WordsNameEndsSidesAndWays) {
  const auto read = read_example(kTowRig);
  const auto& entry = *build::find(read.build.axles, "front");
  const Printer print(read.build.units);
  const Move lower_up{PointKind::kLinkAxle, 0, Way::kUp};
  EXPECT_EQ(move_words(entry, lower_up, -units::m_from_inch(0.75), print),
            "the axle ends of the lower links 3/4 in down");
  EXPECT_EQ(coordinate_path(entry, lower_up), "/axles/front/links/lower/axle/at/height");
  const Move bar{PointKind::kLinkFrame, 2, Way::kLeft};
  EXPECT_EQ(move_words(entry, bar, units::m_from_inch(1), print),
            "the frame end of the track bar 1 in to the left");
}

// Probed slopes against a wider two-sided difference: the linkage is smooth.
TEST(Sensitivities, AgreeWithATwoSidedDifference) {
  const auto read = read_example(kCrawler);
  const Report& report = example_report(kCrawler);
  const auto& entry = *build::find(read.build.axles, "rear");
  const Evaluate evaluate = make_geometry(*report.axle("rear"));
  const auto found = calc_sensitivities(entry, evaluate, list_moves(entry.value));
  for (std::size_t m = 0; m < found.moves.size(); ++m) {
    const auto at = [&](double amount_m) {
      return evaluate(suspension::axle_from_build(moved(entry, found.moves[m], amount_m))->model,
                      false);
    };
    const double step_m = 2e-3;
    const auto up = at(step_m), down = at(-step_m);
    for (const auto number : {kNoseChange, kRollSteer, kAntiDrive}) {
      const double slope = (up[number] - down[number]) / (2 * step_m);
      EXPECT_NEAR(found.slopes[m][number], slope, 0.02 * std::abs(slope) + 2e-3)
          << coordinate_path(entry, found.moves[m]) << " " << number;
    }
  }
}

TEST(PlaceDoubt, EstimatedPointLeavesTheVerdictInDoubt) {
  const auto read = read_example(kCrawler);
  const Report& sure = example_report(kCrawler);
  ASSERT_EQ(find_finding(sure, "roll_steer.front")->verdict, Verdict::kGood);
  const std::string path = "/axles/front/links/lower/frame/at/height";
  const auto doubtful =
      edited(read, {{path, R"({"value": "548 mm", "from": "estimate", "plus_minus": "60 mm"})"}});
  const Report report = check(doubtful.build);
  const Finding* finding = find_finding(report, "roll_steer.front");
  EXPECT_EQ(finding->verdict, Verdict::kLook);
  EXPECT_NE(finding->assumption.find("lower link, frame end, height"), std::string::npos)
      << finding->assumption;
}

// The seats that are told make the truck sit as drawn.
TEST(SeatAdvice, MovedSeatsSitAsDrawn) {
  // Where bushes give under the load the housing is not quite where it was drawn, though the coils
  // are as long: some 1 mm on the shop truck.
  for (const auto& [example, tolerance_m] :
       {std::pair{kCrawler, 2e-5}, std::pair{kShopTruck, 2e-3}}) {
    const Report& report = example_report(example);
    suspension::TruckModel truck = *report.ride()->truck;
    double worst_before_m = 0;
    for (auto& axle : truck.axles) {
      for (const auto& seat : report.axle(axle.id)->seats) {
        for (auto& coil : axle.coils) {
          if (coil.name != seat.coil.name) continue;
          const Vec3 lower = axle.p_VC + coil.p_AQ;
          coil.p_VP += (coil.p_VP - lower).normalized() * seat.seat.move_upper_seat_m;
          worst_before_m = std::max(worst_before_m, std::abs(seat.seat.move_upper_seat_m));
        }
      }
    }
    EXPECT_GT(worst_before_m, 0.001);
    const auto settled = suspension::settle(truck, flat_ground());
    ASSERT_TRUE(settled.has_value());
    for (std::size_t a = 0; a < truck.axles.size(); ++a) {
      for (const int side : {1, -1}) {
        EXPECT_NEAR(calc_height_error_m(truck, *settled, a, side), 0, tolerance_m) << example;
      }
    }
  }
}

// The frame eye moved as told: the shock keeps what is wanted at both ends.
TEST(ShockAdvice, MovedEyeKeepsStroke) {
  const auto read = read_example(kTowRig);
  const Report& report = example_report(kTowRig);
  const Finding* before = find_finding(report, "shock.front.shock.droop");
  ASSERT_EQ(before->verdict, Verdict::kStop);
  ASSERT_NE(before->advice.find("7/8 in down"), std::string::npos) << before->advice;
  const double height_m =
      build::find(build::find(read.build.axles, "front")->value.dampers, "shock")
          ->value.frame.height.si;
  const Report after = check(edited(read, {set_length("/axles/front/dampers/shock/frame/height",
                                                      height_m - units::m_from_inch(0.875))})
                                 .build);
  EXPECT_GE(find_finding(after, "shock.front.shock.droop")->value->si, units::m_from_inch(0.5));
  EXPECT_GE(find_finding(after, "shock.front.shock.bump")->value->si, units::m_from_inch(0.5));
}

}  // namespace
}  // namespace rig::check
