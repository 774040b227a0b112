#include "check/printer.h"

#include <gtest/gtest.h>

#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

Printer printer(bool metric) {
  build::Units units;
  units.metric = metric;
  units.fraction_of_inch = 16;
  return Printer(units);
}

TEST(Printer, SmallLengthsReadAndResidueIsZero) {
  EXPECT_EQ(printer(false).length(units::m_from_inch(-0.0076)), "-0.008 in");
  EXPECT_EQ(printer(false).length(units::m_from_inch(0.04)), "1/16 in");
  EXPECT_EQ(printer(false).length(9e-7), "0 in");
  EXPECT_EQ(printer(false).number(-9e-7, Dimension::kLength).si, 0);
  EXPECT_EQ(printer(true).length(-0.00002), "-0.02 mm");
  EXPECT_EQ(printer(true).length(0.0163), "16.3 mm");
  // Never hidden: above the residue, below a hundredth.
  EXPECT_NE(printer(true).length(0.0000015), "0 mm");
}

TEST(Printer, BoundsAreRoundedInward) {
  const auto print = printer(false);
  const double N = units::N_from_lbf(1234.0);
  EXPECT_EQ(print.bound(N, Dimension::kForce, Toward::kUp), "1240 lbf");
  EXPECT_EQ(print.bound(N, Dimension::kForce, Toward::kDown), "1230 lbf");
  EXPECT_EQ(print.bound(N, Dimension::kForce, Toward::kNearest), "1230 lbf");
  // An exact one stays.
  EXPECT_EQ(print.bound(units::N_from_lbf(520), Dimension::kForce, Toward::kUp), "520 lbf");
  EXPECT_EQ(print.bound(units::N_from_lbf(780), Dimension::kForce, Toward::kDown), "780 lbf");
  EXPECT_EQ(print.bound(0.17749, Dimension::kRatio, Toward::kNearest), "17.7 %");
  EXPECT_EQ(print.bound(units::m_from_inch(1.03), Dimension::kLength, Toward::kUp), "1 1/16 in");
}

TEST(Printer, HalfWidthsAreRoundedUpToTheStepOfTheirValue) {
  const auto print = printer(false);
  const auto lb = [](double value) { return units::kg_from_lb(value); };
  EXPECT_EQ(print.plus_minus(lb(28.3), lb(5550), Dimension::kMass), "29 lb");
  EXPECT_EQ(print.plus_minus(lb(29), lb(5550), Dimension::kMass), "29 lb");
  EXPECT_EQ(print.plus_minus(lb(0.42), lb(12.3), Dimension::kMass), "0.5 lb");
  EXPECT_EQ(print.plus_minus(0, lb(5550), Dimension::kMass), "0 lb");
  EXPECT_EQ(print.plus_minus(units::m_from_inch(0.2), units::m_from_inch(30), Dimension::kLength),
            "1/4 in");
}

TEST(Printer, LiftedWheelReadsNothing) {
  EXPECT_EQ(printer(false).scale_reading(0.9).si, 0);
  EXPECT_EQ(printer(false).scale_reading(-0.9).text, "0 lb");
  EXPECT_NEAR(printer(false).scale_reading(9.80665).si, 1, 1e-12);
}

TEST(Printer, SizesOfSectionsInPowersOfALength) {
  const double inch = units::kInch_m;
  EXPECT_EQ(printer(false).length_power(2.3456 * inch * inch, 2).text, "2.35 in²");
  EXPECT_EQ(printer(false).length_power(0.01234 * std::pow(inch, 4), 4).text, "0.0123 in⁴");
  EXPECT_EQ(printer(false).length_power(1234.5 * std::pow(inch, 6), 6).text, "1234 in⁶");
  EXPECT_EQ(printer(true).length_power(1.5e-6, 4).text, "150 cm⁴");
  EXPECT_EQ(printer(true).length_power(0, 6).text, "0 cm⁶");
  EXPECT_EQ(printer(false).length_power(kNaN, 2).text, "unknown");
}

TEST(Printer, MassPerLength) {
  EXPECT_EQ(printer(true).mass_per_length(12.345).text, "12.3 kg/m");
  EXPECT_EQ(printer(false).mass_per_length(units::kg_from_lb(8) / (12 * units::kInch_m)).text,
            "8.00 lb/ft");
}

}  // namespace
}  // namespace rig::check
