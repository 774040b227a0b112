// Weights, balance points and stability against published values. Keys in brackets are those of
// docs/references.md; "recomputed" there means that the value was also worked out from the printed
// inputs by someone else's closed form.

#include "weigh/weigh.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "expect_published.h"
#include "units/factors.h"
#include "units/quantity.h"

namespace rig {
namespace {

weigh::Stability stability_of(double track_m, double cg_height_m) {
  const weigh::MassProperties truck{
      .mass_kg = 2000, .p_VoBcm_V = {-1.5, 0, cg_height_m}, .I_BBcm_V = Mat3::Zero()};
  const auto stability = weigh::calc_stability(
      truck, {.front_x_m = 0, .rear_x_m = -3, .front_track_m = track_m, .rear_track_m = track_m},
      std::nullopt);
  return stability.value();
}

// SU-25: static stability factor SSF = T / 2h. NHTSA, 49 CFR 575 rulemaking (2000-2001): definition
// seen in a public copy, values recomputed.
TEST(NhtsaStaticStabilityFactor, TrackOverTwiceTheHeight) {
  const auto check = [](const char* name, double T, double h, double printed) {
    expect_published(name, stability_of(T, h).static_stability_factor,
                     {.value = printed, .tolerance = 0.0005, .source = "SU-25: 49 CFR 575"});
  };
  check("ssf_160_080", 1.60, 0.80, 1.000);
  check("ssf_150_070", 1.50, 0.70, 1.071);
  check("ssf_165_095", 1.65, 0.95, 0.868);
}

// SU-27: tilt angle of a rigid vehicle, atan(T / 2h). Statics, recomputed.
TEST(RigidVehicleTilt, AngleFromTheFactor) {
  const auto check = [](const char* name, const weigh::Stability& stability, double printed,
                        double tolerance) {
    expect_published(name, units::deg_from_rad(stability.tilt_rad),
                     {.value = printed, .tolerance = tolerance, .source = "SU-27: statics"});
    EXPECT_DOUBLE_EQ(stability.left_side_down_rad, stability.tilt_rad);
    EXPECT_DOUBLE_EQ(stability.right_side_down_rad, stability.tilt_rad);
  };
  check("tilt_ssf_1_deg", stability_of(1.60, 0.80), 45, 1e-9);
  check("tilt_ssf_1071_deg", stability_of(1.50, 0.70), 46.97, 0.005);
}

// SU-28, SU-30: rear axle lifted, front axle weighed. ISO 10392; Milliken: formula seen in a public
// copy, values recomputed. Printed in millimetres and kilograms.
TEST(Iso10392, HeightByLiftingTheRearAxle) {
  const weigh::LiftedTruck truck{.mass_kg = {.value = 2000},
                                 .wheelbase_m = {.value = 2.743},
                                 .scale_axle_height_m = {.value = 0.380},
                                 .lifted_axle_height_m = {.value = 0.380}};
  weigh::AxleLift lift{.lift_m = {.value = 0.600},
                       .level_reading_kg = {.value = 1100},
                       .lifted_reading_kg = {.value = 1152.303}};
  const auto height = weigh::solve_cg_height(truck, std::vector{lift});
  ASSERT_TRUE(height.has_value()) << height.error().front().message;
  expect_published("cg_height_mm", height->cg_height_m * 1000,
                   {.value = 700.0, .tolerance = 0.05, .source = "SU-28: ISO 10392"});
  expect_published("lift_angle_deg", units::deg_from_rad(height->lifts.front().angle_rad),
                   {.value = 12.635, .tolerance = 0.0005, .source = "SU-28: ISO 10392"});
  expect_published("sensitivity_mm_per_kg", height->lifts.front().sensitivity_m_per_kg * 1000,
                   {.value = 6.12, .tolerance = 0.005, .source = "SU-30: derivative of SU-28"});
  lift.lifted_reading_kg.value += 1;
  const auto heavier = weigh::solve_cg_height(truck, std::vector{lift});
  // Printed to 0.1 mm with a tolerance of 1 %.
  expect_published("change_for_1_kg_mm", (heavier->cg_height_m - height->cg_height_m) * 1000,
                   {.value = 6.1, .tolerance = 0.061, .source = "SU-30: derivative of SU-28"});
}

// SU-31: balance point from the rear axle, b = L W_f / W. Statics, recomputed; printed in
// millimetres.
TEST(LongitudinalBalance, FromAxleWeights) {
  const weigh::Footing footing{
      .front_x_m = 0, .rear_x_m = -2.743, .front_track_m = 1.5, .rear_track_m = 1.5};
  const auto scaled = weigh::calc_weighed(
      footing,
      {.front_left_kg = 550, .front_right_kg = 550, .rear_left_kg = 450, .rear_right_kg = 450}, {},
      {});
  ASSERT_TRUE(scaled.has_value());
  expect_published("ahead_of_rear_axle_mm", (scaled->x_m - footing.rear_x_m) * 1000,
                   {.value = 1508.7, .tolerance = 0.05, .source = "SU-31: statics"});
}

// WT-06, WT-07: axle loads from a hitch load. Statics, from memory and recomputed. The printed
// numbers carry no unit: any unit of force.
TEST(HitchLoad, OnTheAxles) {
  const weigh::Footing footing{
      .front_x_m = 0, .rear_x_m = -3.2, .front_track_m = 1.6, .rear_track_m = 1.6};
  const std::vector<weigh::VerticalLoad> tongue{{.force_N = 600, .p_VoP_V = {-3.2 - 1.2, 0, 0.5}}};
  const auto axles = weigh::calc_axle_loads(footing, tongue);
  ASSERT_TRUE(axles.has_value());
  expect_published("rear_share_of_600", axles->rear_N,
                   {.value = 825, .tolerance = 1e-9, .source = "WT-07: statics"});
  expect_published("front_share_of_600", axles->front_N,
                   {.value = -225, .tolerance = 1e-9, .source = "WT-07: statics"});
  // WT-06 in letters: rear T (1 + c/L), front -T c/L.
  expect_published("rear_by_formula", axles->rear_N / 600,
                   {.value = 1 + 1.2 / 3.2, .tolerance = 1e-12, .source = "WT-06: statics"});
  expect_published("front_by_formula", axles->front_N / 600,
                   {.value = -1.2 / 3.2, .tolerance = 1e-12, .source = "WT-06: statics"});
}

double si(const char* text, units::Dimension dimension) {
  return units::parse_quantity(text, dimension).value().si;
}

double density_kg_per_m3(build::Liquid liquid) {
  return weigh::find_usual_density(liquid).value().density_kg_per_m3;
}

double density_lb_per_gal(build::Liquid liquid) {
  return units::lb_per_gal_from_kg_per_m3(density_kg_per_m3(liquid));
}

// WT-11: water, physical constants, seen in a public copy; tolerance of the table 0.1 %.
TEST(Water, DensityAndGallon) {
  expect_published("water_60F_lb_per_gal", density_lb_per_gal(build::Liquid::kWater),
                   {.value = 8.33, .tolerance = 0.005, .source = "WT-11: water at 60 F"});
  // The usual density is that of 60 F; at 4 C water is 0.17 % denser, inside the stated half-width.
  const auto usual = weigh::find_usual_density(build::Liquid::kWater);
  EXPECT_LE(units::kg_per_m3_from_lb_per_gal(8.345),
            usual->density_kg_per_m3 + usual->plus_minus_kg_per_m3);
  const double gallon_m3 = si("1 gal", units::Dimension::kVolume);
  expect_published("gallon_L", gallon_m3 * 1000,
                   {.value = 3.785412, .tolerance = 5e-7, .source = "WT-11"});
  expect_published("gallon_in3", gallon_m3 / si("1 in3", units::Dimension::kVolume),
                   {.value = 231, .tolerance = 1e-9, .source = "WT-11"});
}

// WT-12: gasoline 0.71-0.78 g/cm3 at 15 C, ASTM D4052 range and EN 228; range seen in a public
// copy.
TEST(Gasoline, UsualDensityInItsRange) {
  expect_published("gasoline_g_per_cm3", density_kg_per_m3(build::Liquid::kGasoline) / 1000,
                   {.value = 0.745, .tolerance = 0.035, .source = "WT-12: ASTM D4052 range"});
  expect_published("gasoline_lb_per_gal", density_lb_per_gal(build::Liquid::kGasoline),
                   {.value = 6.15, .tolerance = 0.05, .source = "WT-12: use 6.1-6.2"});
  expect_published("lightest_lb_per_gal", units::lb_per_gal_from_kg_per_m3(710),
                   {.value = 5.93, .tolerance = 0.005, .source = "WT-12"});
  expect_published("heaviest_lb_per_gal", units::lb_per_gal_from_kg_per_m3(780),
                   {.value = 6.51, .tolerance = 0.005, .source = "WT-12"});
}

// WT-13: diesel, specific gravity 0.84-0.85; EN 590, seen in a public copy.
TEST(Diesel, UsualDensityInItsRange) {
  expect_published("diesel_lb_per_gal", density_lb_per_gal(build::Liquid::kDiesel),
                   {.value = 7.05, .tolerance = 0.04, .source = "WT-13: 7.01-7.09"});
}

// WT-14: handbook densities, from memory; tolerance of the table 3 %.
TEST(OtherFluids, UsualDensities) {
  expect_published("engine_oil_lb_per_gal", density_lb_per_gal(build::Liquid::kEngineOil),
                   {.value = 7.3, .tolerance = 0.03 * 7.3, .source = "WT-14 (from memory)"});
  expect_published("engine_oil_g_per_cm3", density_kg_per_m3(build::Liquid::kEngineOil) / 1000,
                   {.value = 0.88, .tolerance = 0.03 * 0.88, .source = "WT-14 (from memory)"});
  expect_published("coolant_lb_per_gal", density_lb_per_gal(build::Liquid::kCoolant),
                   {.value = 8.9, .tolerance = 0.03 * 8.9, .source = "WT-14 (from memory)"});
  expect_published("coolant_g_per_cm3", density_kg_per_m3(build::Liquid::kCoolant) / 1000,
                   {.value = 1.07, .tolerance = 0.03 * 1.07, .source = "WT-14 (from memory)"});
}

// WT-15: steel, AISC Manual; seen in a public copy; tolerance of the table 0.1 %. Holds the density
// units together, which the file's own densities go through.
TEST(Steel, DensityInThreeUnits) {
  const double density = si("490 lb/ft3", units::Dimension::kDensity);
  expect_published("steel_kg_per_m3", density,
                   {.value = 7850, .tolerance = 7.85, .source = "WT-15: AISC Manual"});
  expect_published("steel_lb_per_in3", density / si("1 lb/in3", units::Dimension::kDensity),
                   {.value = 0.2836, .tolerance = 0.00005, .source = "WT-15: AISC Manual"});
  const double in2_ft_m3 = units::kInch_m * units::kInch_m * units::kFoot_m;
  expect_published("bar_1_in2_lb_per_ft", units::lb_from_kg(density * in2_ft_m3),
                   {.value = 3.403, .tolerance = 0.0005, .source = "WT-15: AISC Manual"});
}

// WT-16: standard occupant, 49 CFR 571.110 (from memory): 150 lb, printed as 68 kg.
TEST(StandardOccupant, PoundsAndKilograms) {
  expect_published("occupant_kg", si("150 lb", units::Dimension::kMass),
                   {.value = 68, .tolerance = 0.5, .source = "WT-16: 49 CFR 571.110"});
}

}  // namespace
}  // namespace rig
