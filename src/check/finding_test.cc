#include "check/finding.h"

#include <gtest/gtest.h>

#include "base/nan.h"
#include "check/printer.h"
#include "units/factors.h"

namespace rig::check {
namespace {

constexpr Band kBand{.low = 10, .high = 20, .close = 1};

TEST(Judge, InsideIsGoodCloseIsLookOutsideStops) {
  EXPECT_EQ(judge(15, kBand).verdict, Verdict::kGood);
  EXPECT_EQ(judge(19.5, kBand).verdict, Verdict::kLook);
  EXPECT_EQ(judge(10.5, kBand).verdict, Verdict::kLook);
  EXPECT_EQ(judge(20.1, kBand).verdict, Verdict::kStop);
  EXPECT_EQ(judge(9.9, kBand).verdict, Verdict::kStop);
}

TEST(Judge, SoftBandOnlyAsksForALook) {
  Band soft = kBand;
  soft.stops = false;
  EXPECT_EQ(judge(25, soft).verdict, Verdict::kLook);
}

TEST(Judge, DoubtThatReachesAnEdgeIsNeverGood) {
  const Judgement certain = judge(15, kBand, 4.9);
  EXPECT_EQ(certain.verdict, Verdict::kGood);
  EXPECT_FALSE(certain.in_doubt);
  const Judgement doubtful = judge(15, kBand, 5.1);
  EXPECT_EQ(doubtful.verdict, Verdict::kLook);
  EXPECT_TRUE(doubtful.in_doubt);
}

TEST(Judge, OutsideByLessThanTheDoubtIsALookNotAStop) {
  const Judgement doubtful = judge(20.5, kBand, 0.6);
  EXPECT_EQ(doubtful.verdict, Verdict::kLook);
  EXPECT_TRUE(doubtful.in_doubt);
  EXPECT_EQ(judge(9.5, kBand, 0.6).verdict, Verdict::kLook);
  EXPECT_EQ(judge(20.5, kBand, 0.4).verdict, Verdict::kStop);
}

TEST(Judge, NotANumberIsNeverGood) { EXPECT_EQ(judge(kNaN, kBand).verdict, Verdict::kStop); }

TEST(Assume, RaisesGoodToLookAndKeepsStop) {
  Finding finding;
  finding.verdict = Verdict::kGood;
  assume(finding, "The rate is an estimate.");
  EXPECT_EQ(finding.verdict, Verdict::kLook);
  EXPECT_EQ(finding.assumption, "The rate is an estimate.");
  finding.verdict = Verdict::kStop;
  assume(finding, "So is the load.");
  EXPECT_EQ(finding.verdict, Verdict::kStop);
  EXPECT_EQ(finding.assumption, "The rate is an estimate. So is the load.");
}

TEST(HalfWidth, GivenThenEstimateThenNone) {
  build::Stiffness rate;
  rate.si = 100;
  EXPECT_EQ(half_width(rate), 0);
  rate.from = build::From::kEstimate;
  EXPECT_DOUBLE_EQ(half_width(rate), 20);
  rate.plus_minus_si = 3;
  EXPECT_EQ(half_width(rate), 3);
}

TEST(ResolveLimits, FileBeforeDefaultAndOnlyTheFileStops) {
  build::Limits given;
  given.caster_change.si = 0.07;
  const Limits limits = resolve_limits(given);
  EXPECT_EQ(limits.caster_change.si, 0.07);
  EXPECT_EQ(limits.caster_change.basis, "set in the file");
  EXPECT_TRUE(at_most(limits.caster_change).stops);
  EXPECT_DOUBLE_EQ(limits.pinion_change.si, units::rad_from_deg(3));
  EXPECT_NE(limits.pinion_change.basis.find("common practice"), std::string::npos);
  EXPECT_FALSE(at_most(limits.pinion_change).stops);
}

TEST(Printer, RoundsUpToTheStepAndHidesOnlyNoise) {
  const Printer inches(build::Units{.metric = false, .fraction_of_inch = 16});
  EXPECT_EQ(inches.length_up(units::m_from_inch(0.51)), "9/16 in");
  EXPECT_EQ(inches.length_up(units::m_from_inch(-0.51)), "-9/16 in");
  EXPECT_EQ(inches.length_up(units::m_from_inch(0.5)), "1/2 in");
  EXPECT_EQ(inches.length(1e-12), "0 in");
  EXPECT_EQ(inches.length(1e-6), "0.000039 in");
  const Printer metric(build::Units{.metric = true});
  EXPECT_EQ(metric.length_up(0.0121), "13 mm");
  EXPECT_EQ(metric.frequency(1.234).text, "1.23 Hz");
  EXPECT_EQ(metric.frequency(kNaN).text, "unknown");
}

}  // namespace
}  // namespace rig::check
