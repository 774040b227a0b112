#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <string>

#include "base/nan.h"
#include "units/factors.h"
#include "units/quantity.h"

namespace rig::units {
namespace {

constexpr UnitChoices kShop{.metric = false, .fraction_of_inch = 16};
constexpr UnitChoices kMetric{.metric = true, .fraction_of_inch = 16};

std::string inches(double value, int denominator = 16) {
  return print_quantity(m_from_inch(value), Dimension::kLength,
                        {.metric = false, .fraction_of_inch = denominator});
}
std::string millimetres(double value) {
  return print_quantity(value / 1000, Dimension::kLength, kMetric);
}

TEST(PrintLength, FractionsReduceAndCarry) {
  EXPECT_EQ(inches(41.625), "41 5/8 in");
  EXPECT_EQ(inches(10.0 / 16), "5/8 in");
  EXPECT_EQ(inches(15.99), "16 in");
  EXPECT_EQ(inches(0.97), "1 in");
  EXPECT_EQ(inches(41.64, 32), "41 5/8 in");
  EXPECT_EQ(inches(41.66, 32), "41 21/32 in");
  EXPECT_EQ(inches(41.66, 8), "41 5/8 in");
  EXPECT_EQ(inches(41.66, 64), "41 21/32 in");
}

TEST(PrintLength, NegativeAndZero) {
  EXPECT_EQ(inches(-3.5), "-3 1/2 in");
  EXPECT_EQ(inches(-0.5), "-1/2 in");
  EXPECT_EQ(inches(-15.99), "-16 in");
  EXPECT_EQ(inches(0), "0 in");
  EXPECT_EQ(inches(-0.0), "0 in");
}

TEST(PrintLength, RoundingNeverHidesANonZero) {
  EXPECT_EQ(inches(0.004), "0.004 in");
  EXPECT_EQ(inches(-0.0123), "-0.012 in");
  EXPECT_EQ(inches(3.2e-9), "3.2e-09 in");
  EXPECT_EQ(millimetres(0.04), "0.04 mm");
  EXPECT_EQ(millimetres(-0.0123), "-0.012 mm");
  EXPECT_EQ(print_quantity(1e-5, Dimension::kMass, kMetric), "0.00001 kg");
}

TEST(PrintLength, MillimetresWholeOrTenths) {
  EXPECT_EQ(millimetres(1057.4), "1057 mm");
  EXPECT_EQ(millimetres(12.34), "12.3 mm");
  EXPECT_EQ(millimetres(12), "12 mm");
  EXPECT_EQ(millimetres(99.96), "100 mm");
}

TEST(PrintQuantity, SensibleDigits) {
  EXPECT_EQ(print_quantity(kg_from_lb(4837.6), Dimension::kMass, kShop), "4838 lb");
  EXPECT_EQ(print_quantity(kg_from_lb(37.62), Dimension::kMass, kShop), "37.6 lb");
  EXPECT_EQ(print_quantity(N_per_m_from_lbf_per_inch(320), Dimension::kStiffness, kShop),
            "320 lbf/in");
  EXPECT_EQ(print_quantity(56000, Dimension::kStiffness, kMetric), "56 N/mm");
  EXPECT_EQ(print_quantity(rad_from_deg(12.5), Dimension::kAngle, kShop), "12.5 deg");
  EXPECT_EQ(print_quantity(rad_from_deg(-1.256), Dimension::kAngle, kShop), "-1.26 deg");
  EXPECT_EQ(print_quantity(21 * kGallonUS_m3, Dimension::kVolume, kShop), "21 gal");
  EXPECT_EQ(print_quantity(0.6, Dimension::kRatio, kShop), "60 %");
  EXPECT_EQ(print_quantity(2100, Dimension::kDamping, kMetric), "2100 N·s/m");
  EXPECT_EQ(print_quantity(450 * kPoundForceFoot_Nm, Dimension::kTorque, kShop), "450 lb-ft");
  EXPECT_EQ(print_quantity(36e3 * kPsi_Pa, Dimension::kStress, kShop), "36 ksi");
  EXPECT_EQ(print_quantity(355e6, Dimension::kStress, kMetric), "355 MPa");
}

TEST(PrintQuantity, UnknownAndEndless) {
  EXPECT_EQ(print_quantity(kNaN, Dimension::kMass, kShop), "unknown");
  EXPECT_EQ(print_quantity(std::numeric_limits<double>::infinity(), Dimension::kMass, kShop),
            "infinite");
  EXPECT_EQ(print_quantity(1e12, Dimension::kLength, kMetric), "1.00000e+15 mm");
  EXPECT_EQ(print_quantity(1e12, Dimension::kLength, kShop), "3.93701e+13 in");
}

TEST(PrintQuantity, UnitAndFactorAgree) {
  for (int i = 0; i <= static_cast<int>(Dimension::kRatio); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    for (const UnitChoices& choices : {kShop, kMetric}) {
      const std::string unit(unit_name(dimension, choices));
      const auto one = parse_quantity("1 " + unit, dimension);
      ASSERT_TRUE(one.has_value()) << unit;
      EXPECT_DOUBLE_EQ(one->si * per_si(dimension, choices), 1.0) << unit;
    }
  }
}

/// Half the step between neighbours as printed, in the printed unit: half a unit in the last digit,
/// or half of the finest fraction.
double half_step(const std::string& printed, int denominator) {
  const std::string number = printed.substr(0, printed.find_last_of(' '));
  if (number.find_first_of(".e") == std::string::npos) return 0.5 / denominator;
  const std::size_t e = number.find('e');
  const double scale =
      e == std::string::npos ? 1.0 : std::pow(10.0, std::stoi(number.substr(e + 1)));
  const std::string digits = number.substr(0, e);
  const std::size_t point = digits.find('.');
  const double decimals =
      point == std::string::npos ? 0 : static_cast<double>(digits.size() - point - 1);
  return 0.5 * std::pow(10.0, -decimals) * scale;
}

RC_GTEST_PROP(PrintQuantity, InchesReadBackWithinHalfAStep, ()) {
  const double value = *rc::gen::inRange(-4000000, 4000001) / 10007.0;
  const int denominator = *rc::gen::element(8, 16, 32, 64);
  const std::string printed = inches(value, denominator);
  const auto back = parse_quantity(printed, Dimension::kLength);
  RC_ASSERT(back.has_value());
  RC_ASSERT(std::abs(inch_from_m(back->si) - value) <= half_step(printed, denominator) + 1e-12);
  RC_ASSERT((value == 0) == (back->si == 0));
}

RC_GTEST_PROP(PrintQuantity, EveryDimensionReadsBackWithinHalfAStep, ()) {
  const auto dimension =
      static_cast<Dimension>(*rc::gen::inRange(0, static_cast<int>(Dimension::kRatio) + 1));
  const UnitChoices choices{.metric = *rc::gen::arbitrary<bool>(), .fraction_of_inch = 16};
  RC_PRE(dimension != Dimension::kLength || choices.metric);
  const double mantissa = *rc::gen::inRange(-99999, 100000) / 10000.0;
  const double value = mantissa * std::pow(10.0, *rc::gen::inRange(-9, 12));
  const std::string printed =
      print_quantity(value / per_si(dimension, choices), dimension, choices);
  const auto back = parse_quantity(printed, dimension);
  RC_ASSERT(back.has_value());
  // Trailing zeros are left off, so the step printed to may be finer than it looks, never coarser.
  RC_ASSERT(std::abs(back->si * per_si(dimension, choices) - value) <=
            half_step(printed, 1) + 1e-12 * std::abs(value));
  RC_ASSERT((value == 0) == (back->si == 0));
}

}  // namespace
}  // namespace rig::units
