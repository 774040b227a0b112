#include "suspension/coil_wire.h"

#include <cmath>
#include <numbers>

#include "base/require.h"
#include "units/factors.h"

namespace rig::suspension {
namespace {

void require_sizes(const CoilWire& wire) {
  RIG_REQUIRE(wire.diameter_m > 0 && wire.mean_diameter_m > wire.diameter_m);
  RIG_REQUIRE(wire.active_turns > 0 && wire.shear_modulus_Pa > 0);
}

}  // namespace

double calc_coil_rate_N_per_m(const CoilWire& wire) {
  require_sizes(wire);
  const double d = wire.diameter_m, D = wire.mean_diameter_m;
  return wire.shear_modulus_Pa * d * d * d * d / (8 * D * D * D * wire.active_turns);
}

double calc_coil_index(const CoilWire& wire) {
  require_sizes(wire);
  return wire.mean_diameter_m / wire.diameter_m;
}

double calc_total_turns(const CoilWire& wire) {
  return wire.active_turns + (wire.ends == build::CoilEnds::kPlain ? 0 : 2);
}

double calc_solid_length_m(const CoilWire& wire) {
  require_sizes(wire);
  const double unground = wire.ends == build::CoilEnds::kSquaredGround ? 0 : 1;
  return wire.diameter_m * (calc_total_turns(wire) + unground);
}

CoilStressFactors calc_coil_stress_factors(double index) {
  const double C = index;
  RIG_REQUIRE(C > 1);
  return {.wahl = (4 * C - 1) / (4 * C - 4) + 0.615 / C,
          .bergstrasser = (4 * C + 2) / (4 * C - 3),
          .shear_only = 1 + 0.5 / C};
}

double calc_coil_stress_Pa(const CoilWire& wire, double load_N, double factor) {
  require_sizes(wire);
  const double d = wire.diameter_m;
  return factor * 8 * load_N * wire.mean_diameter_m / (std::numbers::pi * d * d * d);
}

double calc_buckling_length_m(const CoilWire& wire, CoilSeating seating) {
  require_sizes(wire);
  double alpha = 0.5;
  switch (seating) {
    case CoilSeating::kFlatBothEnds:
      break;
    case CoilSeating::kFlatAndPinned:
      alpha = 0.707;
      break;
    case CoilSeating::kPinnedBothEnds:
      alpha = 1;
      break;
    case CoilSeating::kFlatAndFree:
      alpha = 2;
      break;
  }
  return 2.63 * wire.mean_diameter_m / alpha;
}

double calc_surge_frequency_Hz(const CoilWire& wire) {
  require_sizes(wire);
  const double pi = std::numbers::pi, d = wire.diameter_m;
  const double wire_length = pi * wire.mean_diameter_m * wire.active_turns;
  const double mass = kSpringSteelDensity_kg_per_m3 * pi / 4 * d * d * wire_length;
  return 0.5 * std::sqrt(calc_coil_rate_N_per_m(wire) / mass);
}

double calc_wire_strength_Pa(WireSteel steel, double diameter_m) {
  RIG_REQUIRE(diameter_m > 0);
  struct Law {
    double A_ksi;
    double m;
  };
  Law law{};
  switch (steel) {
    case WireSteel::kMusic:
      law = {201, 0.145};
      break;
    case WireSteel::kOilTempered:
      law = {147, 0.187};
      break;
    case WireSteel::kHardDrawn:
      law = {140, 0.190};
      break;
    case WireSteel::kChromeVanadium:
      law = {169, 0.168};
      break;
    case WireSteel::kChromeSilicon:
      law = {202, 0.108};
      break;
  }
  return law.A_ksi * 1000 * units::kPsi_Pa / std::pow(units::inch_from_m(diameter_m), law.m);
}

}  // namespace rig::suspension
