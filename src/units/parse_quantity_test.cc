#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "units/factors.h"
#include "units/quantity.h"

namespace rig::units {
namespace {

struct Good {
  const char* text;
  Dimension dimension;
  double si;
  const char* unit;
};

class Reads : public testing::TestWithParam<Good> {};

TEST_P(Reads, AsExpected) {
  const Good& good = GetParam();
  const auto reading = parse_quantity(good.text, good.dimension);
  ASSERT_TRUE(reading.has_value()) << good.text << ": " << reading.error().front().message;
  EXPECT_NEAR(reading->si, good.si, 1e-15 * std::abs(good.si)) << good.text;
  EXPECT_EQ(reading->unit, good.unit) << good.text;
}

INSTANTIATE_TEST_SUITE_P(
    Lengths, Reads,
    testing::Values(Good{"41 5/8 in", Dimension::kLength, 41.625 * kInch_m, "in"},
                    Good{"41-5/8\"", Dimension::kLength, 41.625 * kInch_m, "in"},
                    Good{"41 - 5/8 in.", Dimension::kLength, 41.625 * kInch_m, "in"},
                    Good{"41⅝″", Dimension::kLength, 41.625 * kInch_m, "in"},
                    Good{"41 ⅝ in", Dimension::kLength, 41.625 * kInch_m, "in"},
                    Good{"41⁵⁄₈ in", Dimension::kLength, 41.625 * kInch_m, "in"},
                    Good{"41 ⅟8 in", Dimension::kLength, 41.125 * kInch_m, "in"},
                    Good{"½ in", Dimension::kLength, 0.5 * kInch_m, "in"},
                    Good{"⅞”", Dimension::kLength, 0.875 * kInch_m, "in"},
                    Good{"9/8 in", Dimension::kLength, 1.125 * kInch_m, "in"},
                    Good{"5/8-in", Dimension::kLength, 0.625 * kInch_m, "in"},
                    Good{".5 in", Dimension::kLength, 0.5 * kInch_m, "in"},
                    Good{"41.625 inches", Dimension::kLength, 41.625 * kInch_m, "in"},
                    Good{"3' 5-5/8\"", Dimension::kLength, 41.625 * kInch_m, "ft in"},
                    Good{"3'-5 5/8\"", Dimension::kLength, 41.625 * kInch_m, "ft in"},
                    Good{"3′ 5⅝″", Dimension::kLength, 41.625 * kInch_m, "ft in"},
                    Good{"3’5’’", Dimension::kLength, 41 * kInch_m, "ft in"},
                    Good{"3 ft 5 5/8 in", Dimension::kLength, 41.625 * kInch_m, "ft in"},
                    Good{"3 feet 5.5 inches", Dimension::kLength, 41.5 * kInch_m, "ft in"},
                    Good{"-3' 6\"", Dimension::kLength, -42 * kInch_m, "ft in"},
                    Good{"3.5 ft", Dimension::kLength, 42 * kInch_m, "ft"},
                    Good{"3'", Dimension::kLength, 36 * kInch_m, "ft"},
                    Good{"\xE2\x88\x92"
                         "12 1/2 in",
                         Dimension::kLength, -12.5 * kInch_m, "in"},
                    Good{"- 1/2 in", Dimension::kLength, -0.5 * kInch_m, "in"},
                    Good{"+2 in", Dimension::kLength, 2 * kInch_m, "in"},
                    Good{"  1057\xC2\xA0mm ", Dimension::kLength, 1.057, "mm"},
                    Good{"1057mm", Dimension::kLength, 1.057, "mm"},
                    Good{"1057 MM", Dimension::kLength, 1.057, "mm"},
                    Good{"1.057e3 mm", Dimension::kLength, 1.057, "mm"},
                    Good{"105.7 cm", Dimension::kLength, 1.057, "cm"},
                    Good{"1.057 m", Dimension::kLength, 1.057, "m"},
                    Good{"0 in", Dimension::kLength, 0, "in"}));

INSTANTIATE_TEST_SUITE_P(
    Others, Reads,
    testing::Values(
        Good{"3200 lb", Dimension::kMass, 3200 * kPound_kg, "lb"},
        Good{"3200 lbs", Dimension::kMass, 3200 * kPound_kg, "lb"},
        Good{"16 oz", Dimension::kMass, kPound_kg, "oz"},
        Good{"1450 kg", Dimension::kMass, 1450, "kg"}, Good{"250 g", Dimension::kMass, 0.25, "g"},
        Good{"1.45 t", Dimension::kMass, 1450, "t"},
        Good{"600 lbf", Dimension::kForce, 600 * kPoundForce_N, "lbf"},
        Good{"600 N", Dimension::kForce, 600, "N"}, Good{"1.2 kN", Dimension::kForce, 1200, "kN"},
        Good{"10 kgf", Dimension::kForce, 98.0665, "kgf"},
        Good{"320 lbf/in", Dimension::kStiffness, 320 * kPoundForce_N / kInch_m, "lbf/in"},
        Good{"320 lb/in", Dimension::kStiffness, 320 * kPoundForce_N / kInch_m, "lbf/in"},
        Good{"320 lbs per inch", Dimension::kStiffness, 320 * kPoundForce_N / kInch_m, "lbf/in"},
        Good{"56 N/mm", Dimension::kStiffness, 56000, "N/mm"},
        Good{"56 kN / m", Dimension::kStiffness, 56000, "kN/m"},
        Good{"56000 N/m", Dimension::kStiffness, 56000, "N/m"},
        Good{"8 kg/mm", Dimension::kStiffness, 8000 * 9.80665, "kgf/mm"},
        Good{"12 lbf·s/in", Dimension::kDamping, 12 * kPoundForce_N / kInch_m, "lbf·s/in"},
        Good{"12 lbf-s/in", Dimension::kDamping, 12 * kPoundForce_N / kInch_m, "lbf·s/in"},
        Good{"2100 N·s/m", Dimension::kDamping, 2100, "N·s/m"},
        Good{"2100 N s/m", Dimension::kDamping, 2100, "N·s/m"},
        Good{"450 lb-ft", Dimension::kTorque, 450 * kPoundForceFoot_Nm, "lb-ft"},
        Good{"450 lbf·ft", Dimension::kTorque, 450 * kPoundForceFoot_Nm, "lb-ft"},
        Good{"450 ft-lb", Dimension::kTorque, 450 * kPoundForceFoot_Nm, "lb-ft"},
        Good{"450 ft lbs", Dimension::kTorque, 450 * kPoundForceFoot_Nm, "lb-ft"},
        Good{"60 lbf-in", Dimension::kTorque, 60 * kPoundForceInch_Nm, "lbf-in"},
        Good{"610 N·m", Dimension::kTorque, 610, "N·m"},
        Good{"610 Nm", Dimension::kTorque, 610, "N·m"},
        Good{"610 N.m", Dimension::kTorque, 610, "N·m"},
        Good{"90 N·m/deg", Dimension::kAngularStiffness, 90 / kDegree_rad, "N·m/deg"},
        Good{"90 N·m/°", Dimension::kAngularStiffness, 90 / kDegree_rad, "N·m/deg"},
        Good{"5000 N·m/rad", Dimension::kAngularStiffness, 5000, "N·m/rad"},
        Good{"66 lbf-ft/deg", Dimension::kAngularStiffness, 66 * kPoundForceFoot_Nm / kDegree_rad,
             "lb-ft/deg"},
        Good{"800 lbf-in/deg", Dimension::kAngularStiffness, 800 * kPoundForceInch_Nm / kDegree_rad,
             "lbf-in/deg"},
        Good{"21 gal", Dimension::kVolume, 21 * kGallonUS_m3, "gal"},
        Good{"8 qt", Dimension::kVolume, 2 * kGallonUS_m3, "qt"},
        Good{"79.5 L", Dimension::kVolume, 0.0795, "L"},
        Good{"79.5 l", Dimension::kVolume, 0.0795, "L"},
        Good{"750 ml", Dimension::kVolume, 0.00075, "ml"},
        Good{"350 in3", Dimension::kVolume, 350 * kCubicInch_m3, "in3"},
        Good{"350 in³", Dimension::kVolume, 350 * kCubicInch_m3, "in3"},
        Good{"350 in^3", Dimension::kVolume, 350 * kCubicInch_m3, "in3"},
        Good{"2 cu ft", Dimension::kVolume, 2 * kCubicFoot_m3, "ft3"},
        Good{"5 ft3", Dimension::kVolume, 5 * kCubicFoot_m3, "ft3"},
        Good{"6.1 lb/gal", Dimension::kDensity, 6.1 * kPound_kg / kGallonUS_m3, "lb/gal"},
        Good{"0.84 kg/L", Dimension::kDensity, 840, "kg/L"},
        Good{"0.84 g/cm³", Dimension::kDensity, 840, "g/cm3"},
        Good{"840 kg/m3", Dimension::kDensity, 840, "kg/m3"},
        Good{"35 psi", Dimension::kPressure, 35 * kPsi_Pa, "psi"},
        Good{"240 kPa", Dimension::kPressure, 240e3, "kPa"},
        Good{"2.4 bar", Dimension::kPressure, 240e3, "bar"},
        Good{"250 MPa", Dimension::kPressure, 250e6, "MPa"},
        Good{"36 ksi", Dimension::kStress, 36e3 * kPsi_Pa, "ksi"},
        Good{"36000 psi", Dimension::kStress, 36e3 * kPsi_Pa, "psi"},
        Good{"36000 lb/in²", Dimension::kStress, 36e3 * kPsi_Pa, "psi"},
        Good{"250 MPa", Dimension::kStress, 250e6, "MPa"},
        Good{"250 N/mm²", Dimension::kStress, 250e6, "MPa"},
        Good{"200 GPa", Dimension::kStress, 200e9, "GPa"},
        Good{"250000 kPa", Dimension::kStress, 250e6, "kPa"},
        Good{"60 mph", Dimension::kSpeed, 26.8224, "mph"},
        Good{"36 km/h", Dimension::kSpeed, 10, "km/h"},
        Good{"10 m/s", Dimension::kSpeed, 10, "m/s"},
        Good{"2400 rpm", Dimension::kAngularSpeed, 80 * std::numbers::pi, "rpm"},
        Good{"4.56", Dimension::kGearRatio, 4.56, ""},
        Good{"4.56:1", Dimension::kGearRatio, 4.56, ":1"},
        Good{"2.72 to 1", Dimension::kGearRatio, 2.72, ":1"},
        Good{"50 rad/s", Dimension::kAngularSpeed, 50, "rad/s"},
        Good{"12.5 deg", Dimension::kAngle, 12.5 * kDegree_rad, "deg"},
        Good{"12.5°", Dimension::kAngle, 12.5 * kDegree_rad, "deg"},
        Good{"12 1/2 degrees", Dimension::kAngle, 12.5 * kDegree_rad, "deg"},
        Good{"0.2 rad", Dimension::kAngle, 0.2, "rad"}, Good{"60 %", Dimension::kRatio, 0.6, "%"},
        Good{"60%", Dimension::kRatio, 0.6, "%"}, Good{"0.6", Dimension::kRatio, 0.6, ""},
        Good{"3/5", Dimension::kRatio, 0.6, ""}));

// NIST Special Publication 811 (2008), Appendix B.8, factors as printed there to seven digits.
struct Printed {
  const char* text;
  Dimension dimension;
  double factor;
};
class Nist811 : public testing::TestWithParam<Printed> {};

TEST_P(Nist811, FactorAsPrinted) {
  const Printed& printed = GetParam();
  const auto reading = parse_quantity(printed.text, printed.dimension);
  ASSERT_TRUE(reading.has_value()) << printed.text;
  const double half_of_last_digit =
      0.5 * std::pow(10.0, std::floor(std::log10(printed.factor)) - 6) * (1 + 1e-9);
  EXPECT_NEAR(reading->si, printed.factor, half_of_last_digit) << printed.text;
}

INSTANTIATE_TEST_SUITE_P(AppendixB8, Nist811,
                         testing::Values(Printed{"1 in", Dimension::kLength, 2.54e-2},
                                         Printed{"1 ft", Dimension::kLength, 3.048e-1},
                                         Printed{"1 lb", Dimension::kMass, 4.535924e-1},
                                         Printed{"1 oz", Dimension::kMass, 2.834952e-2},
                                         Printed{"1 t", Dimension::kMass, 1.0e3},
                                         Printed{"1 lbf", Dimension::kForce, 4.448222},
                                         Printed{"1 kgf", Dimension::kForce, 9.80665},
                                         Printed{"1 deg", Dimension::kAngle, 1.745329e-2},
                                         Printed{"1 lbf/in", Dimension::kStiffness, 1.751268e2},
                                         Printed{"1 lbf/ft", Dimension::kStiffness, 1.459390e1},
                                         Printed{"1 lbf-ft", Dimension::kTorque, 1.355818},
                                         Printed{"1 lbf-in", Dimension::kTorque, 1.129848e-1},
                                         Printed{"1 gal", Dimension::kVolume, 3.785412e-3},
                                         Printed{"1 qt", Dimension::kVolume, 9.463529e-4},
                                         Printed{"1 in3", Dimension::kVolume, 1.638706e-5},
                                         Printed{"1 ft3", Dimension::kVolume, 2.831685e-2},
                                         Printed{"1 lb/gal", Dimension::kDensity, 1.198264e2},
                                         Printed{"1 lb/ft3", Dimension::kDensity, 1.601846e1},
                                         Printed{"1 lb/in3", Dimension::kDensity, 2.767990e4},
                                         Printed{"1 psi", Dimension::kPressure, 6.894757e3},
                                         Printed{"1 psi", Dimension::kStress, 6.894757e3},
                                         Printed{"1 ksi", Dimension::kStress, 6.894757e6},
                                         Printed{"1 bar", Dimension::kPressure, 1.0e5},
                                         Printed{"1 mph", Dimension::kSpeed, 4.4704e-1},
                                         Printed{"1 km/h", Dimension::kSpeed, 2.777778e-1}));

struct Bad {
  const char* text;
  Dimension dimension;
  const char* code;
  const char* remedy_has;
};
class Refuses : public testing::TestWithParam<Bad> {};

TEST_P(Refuses, WithCodeAndRemedy) {
  const Bad& bad = GetParam();
  const auto reading = parse_quantity(bad.text, bad.dimension);
  ASSERT_FALSE(reading.has_value()) << bad.text;
  const Diagnostic& diagnostic = reading.error().front();
  EXPECT_EQ(diagnostic.code, bad.code) << bad.text << ": " << diagnostic.message;
  EXPECT_NE(diagnostic.remedy.find(bad.remedy_has), std::string::npos)
      << bad.text << ": " << diagnostic.remedy;
  EXPECT_TRUE(diagnostic.path.empty());
}

INSTANTIATE_TEST_SUITE_P(
    EachCode, Refuses,
    testing::Values(
        Bad{"", Dimension::kLength, "units.empty", "in, ft, mm"},
        Bad{" \t ", Dimension::kMass, "units.empty", "lb, kg"},
        Bad{"about 5 in", Dimension::kLength, "units.not_a_number", "number"},
        Bad{"in", Dimension::kLength, "units.not_a_number", "number"},
        Bad{"nan in", Dimension::kLength, "units.not_a_number", "number"},
        Bad{"--5 in", Dimension::kLength, "units.not_a_number", "number"},
        Bad{"5/0 in", Dimension::kLength, "units.not_a_number", "fraction"},
        Bad{"41 9/8 in", Dimension::kLength, "units.not_a_number", "42 1/8"},
        Bad{"1,057 mm", Dimension::kLength, "units.not_a_number", "1057"},
        Bad{"12,5 mm", Dimension::kLength, "units.not_a_number", "12.5"},
        Bad{"1 057 mm", Dimension::kLength, "units.not_a_number", "1057"},
        Bad{"41.5 5/8 in", Dimension::kLength, "units.not_a_number", "41 5/8"},
        Bad{"1.2.3 mm", Dimension::kLength, "units.not_a_number", "point"},
        Bad{"5/8/2 in", Dimension::kLength, "units.not_a_number", "fractions"},
        Bad{"1⅝⅝ in", Dimension::kLength, "units.not_a_number", "fractions"},
        Bad{"⅝5 in", Dimension::kLength, "units.not_a_number", "fractions"},
        Bad{"3.5' 2\"", Dimension::kLength, "units.not_a_number", "whole feet"},
        Bad{"41 5/8", Dimension::kLength, "units.no_unit", "in, ft, mm, cm or m"},
        Bad{"3' 5", Dimension::kLength, "units.no_unit", "inch mark"},
        Bad{"41 5/8 inn", Dimension::kLength, "units.unknown_unit", "Did you mean in?"},
        Bad{"320 lbf/im", Dimension::kStiffness, "units.unknown_unit", "Did you mean lbf/in?"},
        Bad{"21 gsl", Dimension::kVolume, "units.unknown_unit", "Did you mean gal?"},
        Bad{"2 tons", Dimension::kMass, "units.unknown_unit", "1000 kg"},
        Bad{"5 furlongs", Dimension::kLength, "units.unknown_unit", "in, ft, mm"},
        Bad{"3200 lbf", Dimension::kMass, "units.wrong_dimension", "pound of mass is lb"},
        Bad{"3200 lb", Dimension::kForce, "units.wrong_dimension", "lbf"},
        Bad{"12 deg", Dimension::kLength, "units.wrong_dimension", "in, ft, mm"},
        Bad{"36 ksi", Dimension::kPressure, "units.wrong_dimension", "psi, kPa"},
        Bad{"36 lb", Dimension::kStress, "units.wrong_dimension", "ksi, psi, MPa"},
        Bad{"36 kip", Dimension::kStress, "units.unknown_unit", "ksi"},
        Bad{"3' 5\"", Dimension::kMass, "units.wrong_dimension", "lb, kg"},
        Bad{"60 %", Dimension::kLength, "units.wrong_dimension", "a length"},
        Bad{"5 in", Dimension::kRatio, "units.wrong_dimension", "bare number"},
        Bad{"41 5/8 in tape", Dimension::kLength, "units.trailing_text", "only the number"},
        Bad{"41\" tape", Dimension::kLength, "units.trailing_text", "only the number"},
        Bad{"3' 5 mm", Dimension::kLength, "units.trailing_text", "feet and inches"},
        Bad{"1e400 in", Dimension::kLength, "units.out_of_range", "exponent"},
        Bad{"1e-400 in", Dimension::kLength, "units.out_of_range", "exponent"},
        Bad{"1e308 kN/mm", Dimension::kStiffness, "units.out_of_range", "exponent"}));

TEST(ParseQuantity, TooLongIsRefusedWithAShortMessage) {
  const auto reading = parse_quantity(std::string(5000, '9'), Dimension::kLength);
  ASSERT_FALSE(reading.has_value());
  EXPECT_EQ(reading.error().front().code, "units.trailing_text");
  EXPECT_LT(reading.error().front().message.size(), 200U);
}

TEST(ParseQuantity, WrongDimensionSaysWhatWasExpected) {
  const auto reading = parse_quantity("320 lbf/in", Dimension::kLength);
  ASSERT_FALSE(reading.has_value());
  EXPECT_EQ(reading.error().front().message,
            "\"320 lbf/in\" is a spring rate, but this should be a length.");
}

TEST(ParseQuantity, DefaultUnitStandsInForNone) {
  EXPECT_DOUBLE_EQ(parse_quantity("41 5/8", Dimension::kLength, "in")->si, 41.625 * kInch_m);
  EXPECT_DOUBLE_EQ(parse_quantity("1057 mm", Dimension::kLength, "in")->si, 1.057);
  EXPECT_DOUBLE_EQ(parse_quantity("60", Dimension::kRatio, "%")->si, 0.6);
  EXPECT_THROW((void)parse_quantity("5", Dimension::kLength, "lb"), LogicError);
}

TEST(ParseQuantity, EveryListedUnitOfTheRemedyIsRead) {
  for (int i = 0; i <= static_cast<int>(Dimension::kRatio); ++i) {
    const auto dimension = static_cast<Dimension>(i);
    const auto reading = parse_quantity("", dimension);
    ASSERT_FALSE(reading.has_value());
    std::string list = reading.error().front().remedy;
    list = list.substr(list.find(" in ") + 4);
    list = list.substr(0, list.find_last_of('.'));
    list = list.substr(0, list.find(", or as a bare number"));
    for (std::string part; !list.empty();) {
      const std::size_t comma = list.find(", ");
      const std::size_t last = list.find(" or ");
      const std::size_t end = std::min({comma, last, list.size()});
      part = list.substr(0, end);
      list.erase(0, end == list.size() ? end : end + (end == comma ? 2 : 4));
      EXPECT_TRUE(parse_quantity("2 " + part, dimension).has_value()) << part;
    }
  }
}

RC_GTEST_PROP(ParseQuantity, NeverThrowsOnAnyBytes, (const std::string& text)) {
  for (int i = 0; i <= static_cast<int>(Dimension::kRatio); ++i) {
    const auto reading = parse_quantity(text, static_cast<Dimension>(i));
    if (reading.has_value()) {
      RC_ASSERT(std::isfinite(reading->si));
    } else {
      RC_ASSERT(!reading.error().front().code.empty());
      RC_ASSERT(!reading.error().front().remedy.empty());
    }
  }
}

// Near misses find more than random bytes do.
RC_GTEST_PROP(ParseQuantity, NeverThrowsOnPiecesOfQuantities, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "41", "5/8", "⅝", " ", "-", "−", "'", "″", "in", "ft", "lb", "/", "·", ".", "e5", ",", "°",
      "%", "\xE2", "³", "⁵", "⁄", "₈", "mm", "N", "m"));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  for (int i = 0; i <= static_cast<int>(Dimension::kRatio); ++i) {
    const auto reading = parse_quantity(text, static_cast<Dimension>(i));
    if (reading.has_value()) RC_ASSERT(std::isfinite(reading->si));
  }
}

RC_GTEST_PROP(ParseQuantity, SameLengthInInchesAndMillimetres, ()) {
  // Sixty-fourths of an inch and their exact millimetres: 1/64 in = 0.396875 mm.
  const int parts = *rc::gen::inRange(1, 64 * 400);
  const std::string inches =
      std::to_string(parts / 64) + " " + std::to_string(parts % 64) + "/64 in";
  const std::string feet = std::to_string(parts / 768) + "' " + std::to_string(parts / 64 % 12) +
                           "-" + std::to_string(parts % 64) + "/64\"";
  const long long nanometres = 396875LL * parts;
  std::string decimals = std::to_string(nanometres % 1000000);
  decimals.insert(0, 6 - decimals.size(), '0');
  const std::string millimetres = std::to_string(nanometres / 1000000) + "." + decimals + " mm";
  const auto a = parse_quantity(inches, Dimension::kLength);
  const auto b = parse_quantity(feet, Dimension::kLength);
  const auto c = parse_quantity(millimetres, Dimension::kLength);
  RC_ASSERT(a.has_value() && b.has_value() && c.has_value());
  RC_ASSERT(a->si == b->si);
  RC_ASSERT(std::abs(a->si - c->si) <= 4e-16 * a->si);
}

RC_GTEST_PROP(ParseQuantity, SameMassInPoundsAndKilograms, ()) {
  // 1 lb = 0.45359237 kg exactly, so whole pounds are exact in hundredths of a milligram.
  const long long pounds = *rc::gen::inRange(1, 20000);
  const long long scaled = pounds * 45359237;
  std::string decimals = std::to_string(scaled % 100000000);
  decimals.insert(0, 8 - decimals.size(), '0');
  const auto a = parse_quantity(std::to_string(pounds) + " lb", Dimension::kMass);
  const auto b =
      parse_quantity(std::to_string(scaled / 100000000) + "." + decimals + " kg", Dimension::kMass);
  RC_ASSERT(a.has_value() && b.has_value());
  RC_ASSERT(std::abs(a->si - b->si) <= 4e-16 * a->si);
}

}  // namespace
}  // namespace rig::units
