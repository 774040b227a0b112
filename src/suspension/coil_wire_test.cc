#include "suspension/coil_wire.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "base/require.h"

namespace rig::suspension {
namespace {

constexpr CoilWire kWire{.diameter_m = 0.016, .mean_diameter_m = 0.130, .active_turns = 7};

// Energy against force: the wire as a bar in torsion, T = F D / 2 over a length pi D Na.
TEST(CoilWire, RateIsThatOfTheTwistedWire) {
  const double pi = std::numbers::pi, F = 5000, D = kWire.mean_diameter_m;
  const double J = pi / 32 * std::pow(kWire.diameter_m, 4);
  const double torque = F * D / 2, length = pi * D * kWire.active_turns;
  const double energy = torque * torque * length / (2 * kWire.shear_modulus_Pa * J);
  const double rate = calc_coil_rate_N_per_m(kWire);
  EXPECT_NEAR(F * F / (2 * rate), energy, 1e-9 * energy);
}

TEST(CoilWire, TwoInARowAreHalfAsStiff) {
  CoilWire longer = kWire;
  longer.active_turns *= 2;
  EXPECT_NEAR(calc_coil_rate_N_per_m(kWire) / calc_coil_rate_N_per_m(longer), 2, 1e-12);
  // And surge half as fast: the same wave over twice the wire.
  EXPECT_NEAR(calc_surge_frequency_Hz(kWire) / calc_surge_frequency_Hz(longer), 2, 1e-12);
}

TEST(CoilWire, StressOfAWideCoilIsThatOfAStraightBar) {
  const auto factors = calc_coil_stress_factors(1e6);
  EXPECT_NEAR(factors.wahl, 1, 1e-5);
  EXPECT_NEAR(factors.bergstrasser, 1, 1e-5);
  EXPECT_NEAR(factors.shear_only, 1, 1e-5);
  const double pi = std::numbers::pi;
  EXPECT_NEAR(calc_coil_stress_Pa(kWire, 5000, 1),
              (5000 * 0.130 / 2) * 0.008 / (pi / 32 * std::pow(0.016, 4)), 1);
}

TEST(CoilWire, ThickerWireIsWeaker) {
  for (const WireSteel steel : {WireSteel::kMusic, WireSteel::kOilTempered, WireSteel::kHardDrawn,
                                WireSteel::kChromeVanadium, WireSteel::kChromeSilicon}) {
    EXPECT_GT(calc_wire_strength_Pa(steel, 0.004), calc_wire_strength_Pa(steel, 0.012));
  }
}

TEST(CoilWire, RefusesASizeThatWasForgotten) {
  EXPECT_THROW(calc_coil_rate_N_per_m({.diameter_m = 0.016, .mean_diameter_m = 0.130}), LogicError);
  EXPECT_THROW(
      calc_coil_rate_N_per_m({.diameter_m = 0.2, .mean_diameter_m = 0.1, .active_turns = 5}),
      LogicError);
}

}  // namespace
}  // namespace rig::suspension
