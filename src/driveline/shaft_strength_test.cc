#include "driveline/shaft_strength.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <set>
#include <string>

#include "base/require.h"
#include "tests/support/random_values.h"

namespace rig::driveline {
namespace {

constexpr double kYield_Pa = 350e6;

ShaftTube some_tube() {
  const double D = test::real(20, 150);
  return {.outside_diameter_m = D, .wall_m = D / 2 * test::real(1, 1001)};
}

// A tube is the bar less the bar that was taken out of it.
RC_GTEST_PROP(ShaftTubes, SectionIsThatOfBarLessBore, ()) {
  const ShaftTube tube = some_tube();
  const double D = tube.outside_diameter_m, d = D - 2 * tube.wall_m, pi = std::numbers::pi;
  const TubeSection section = calc_tube_section(tube);
  RC_ASSERT(std::abs(section.area_m2 - pi / 4 * (D * D - d * d)) < 1e-14 * D);
  RC_ASSERT(std::abs(section.second_moment_m4 - pi / 64 * (std::pow(D, 4) - std::pow(d, 4))) <
            1e-15 * std::pow(D, 3));
}

// The work of the torque is the strain energy of the shear stress, which rises with the radius.
RC_GTEST_PROP(TubeTorsion, WindUpStoresTheStresssEnergy, ()) {
  const ShaftTube tube = some_tube();
  const double L = test::real(200, 2000), T = test::real(-5000000, 5000000);
  const TubeTorsion torsion = *calc_tube_torsion(tube, L, T, kYield_Pa);
  const double R = tube.outside_diameter_m / 2;
  // Volume integral of tau^2 / (2 G) with tau = stress r / R, by Simpson's rule: exact for r^3.
  const auto ring = [&](double r) {
    const double tau = torsion.stress_Pa * r / R;
    return tau * tau / (2 * kSteelShear_Pa) * 2 * std::numbers::pi * r * L;
  };
  const double from = R - tube.wall_m;
  const double energy = tube.wall_m / 6 * (ring(from) + 4 * ring((from + R) / 2) + ring(R));
  RC_ASSERT(std::abs(T * torsion.wind_up_rad / 2 - energy) <= 1e-9 * energy);
  RC_ASSERT(torsion.wind_up_rad * T >= 0);
  RC_ASSERT(std::abs(torsion.utilisation * torsion.torque_limit_Nm - std::abs(T)) <=
            1e-12 * std::abs(T));
}

TEST(TubeTorsion, YieldsWhenVonMisesStressDoes) {
  const TubeTorsion torsion = *calc_tube_torsion({0.076, 0.003}, 1, 1000, kYield_Pa);
  EXPECT_NEAR(std::sqrt(3.0) * torsion.shear_yield_Pa, kYield_Pa, 1e-6);
  const TubeTorsion at_limit =
      *calc_tube_torsion({0.076, 0.003}, 1, torsion.torque_limit_Nm, kYield_Pa);
  EXPECT_NEAR(at_limit.stress_Pa, at_limit.shear_yield_Pa, 1e-6);
}

// Machinery's Handbook, Involute Splines, shear stress in the teeth, all factors 1 (from memory):
// S_s = 4 T / (D N L t), t the thickness of a tooth at the pitch line. However many teeth there
// are.
RC_GTEST_PROP(SplineShear, IsTheHandbooksForAnyNumberOfTeeth, ()) {
  const double D = test::real(15, 100), L = test::real(10, 200), T = test::real(-9000000, 9000000);
  const double N = *rc::gen::inRange(6, 60), t = std::numbers::pi * D / (2 * N);
  const SplineShear shear = *calc_spline_shear({.diameter_m = D, .engaged_m = L}, T, kYield_Pa);
  const double handbook_Pa = 4 * std::abs(T) / (D * N * L * t);
  RC_ASSERT(std::abs(shear.stress_Pa - handbook_Pa) <= 1e-12 * handbook_Pa);
  RC_ASSERT(std::abs(shear.utilisation * shear.torque_limit_Nm - std::abs(T)) <=
            1e-12 * std::abs(T));
}

// Teeth as strong as the bar they are cut on: half a diameter of them where half carry, as L = D
// where a quarter does ([Shigley], [Juvinall] on splines, from memory).
TEST(SplineShear, HalfADiameterIsAsStrongAsTheBar) {
  constexpr double kDiameter_m = 0.038;
  const SplineShear teeth = *calc_spline_shear(
      {.diameter_m = kDiameter_m, .engaged_m = kDiameter_m / 2}, 1000, kYield_Pa);
  const TubeTorsion bar = *calc_tube_torsion({kDiameter_m, kDiameter_m / 2}, 0.1, 1000, kYield_Pa);
  EXPECT_NEAR(teeth.torque_limit_Nm, bar.torque_limit_Nm, 1e-9 * bar.torque_limit_Nm);
}

TEST(SplineShear, SaysWhatItCannotUse) {
  const auto none = calc_spline_shear({.diameter_m = 0, .engaged_m = -1}, kNaN, kYield_Pa);
  ASSERT_FALSE(none.has_value());
  EXPECT_EQ(none.error().size(), 3U);
}

constexpr DriveTorque kDrive{.engine_Nm = 400,
                             .ratio_to_shaft = 10,
                             .efficiency = 0.9,
                             .friction = 0.8,
                             .axle_load_N = 15000,
                             .tyre_radius_m = 0.4,
                             .axle_ratio = 4};

TEST(ShaftTorque, IsTheLesserOfEngineAndGrip) {
  const ShaftTorque low = *calc_shaft_torque(kDrive);
  EXPECT_NEAR(low.engine_Nm, 3600, 1e-9);
  EXPECT_NEAR(low.grip_Nm, 1200, 1e-9);
  EXPECT_EQ(low.decides, TorqueLimit::kGrip);
  EXPECT_EQ(low.torque_Nm, low.grip_Nm);
  DriveTorque drive = kDrive;
  drive.ratio_to_shaft = 1;
  const ShaftTorque high = *calc_shaft_torque(drive);
  EXPECT_EQ(high.decides, TorqueLimit::kEngine);
  EXPECT_NEAR(high.torque_Nm, 360, 1e-9);
}

TEST(JointUtilisation, IsAShareOfTheRating) {
  EXPECT_EQ(*calc_joint_utilisation(-500, 2000), 0.25);
  const auto unrated = calc_joint_utilisation(500, 0);
  ASSERT_FALSE(unrated.has_value());
  EXPECT_EQ(unrated.error().front().path, "/rating");
}

std::set<std::string> paths(const Diagnostics& faults, const std::string& code) {
  std::set<std::string> out;
  for (const auto& fault : faults) {
    if (fault.code == code) out.insert(fault.path);
  }
  return out;
}

TEST(ShaftStrength, NamesAllThatIsWrong) {
  const auto torsion = calc_tube_torsion({}, 0, kNaN, -1, 0);
  ASSERT_FALSE(torsion.has_value());
  EXPECT_EQ(
      paths(torsion.error(), "driveline.size_not_positive"),
      (std::set<std::string>{"/outside_diameter", "/wall", "/length", "/yield", "/shear_modulus"}));
  EXPECT_EQ(paths(torsion.error(), "driveline.torque_unknown"), std::set<std::string>{"/torque"});
  const auto thick = calc_tube_torsion({0.05, 0.026}, 1, 1, 1);
  ASSERT_FALSE(thick.has_value());
  EXPECT_EQ(paths(thick.error(), "driveline.wall_too_thick"), std::set<std::string>{"/wall"});
  EXPECT_TRUE(calc_tube_torsion({0.05, 0.025}, 1, 1, 1).has_value());
  EXPECT_THROW(calc_tube_section({0.05, 0.026}), LogicError);

  const auto torque = calc_shaft_torque({.efficiency = 1.1});
  ASSERT_FALSE(torque.has_value());
  EXPECT_EQ(paths(torque.error(), "driveline.size_not_positive"),
            (std::set<std::string>{"/engine", "/ratio_to_shaft", "/friction", "/axle_load",
                                   "/tyre_radius", "/axle_ratio"}));
  EXPECT_EQ(paths(torque.error(), "driveline.efficiency_above_one"),
            std::set<std::string>{"/efficiency"});
}

}  // namespace
}  // namespace rig::driveline
