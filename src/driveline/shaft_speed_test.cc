#include "driveline/shaft_speed.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "tests/support/random_values.h"

namespace rig::driveline {
namespace {

constexpr ShaftTube kTube{.outside_diameter_m = 0.076, .wall_m = 0.0021};

ShaftBeam pinned(std::vector<ShaftPiece> pieces) {
  double length_m = 0;
  for (const auto& piece : pieces) length_m += piece.length_m;
  return {.pieces = std::move(pieces), .masses = {}, .supports = {{.at_m = 0}, {.at_m = length_m}}};
}

double speed_of(const ShaftBeam& beam) { return solve_critical_speed(beam)->speed_rad_per_s; }

/// 16 elements: (pi / 16)^4 / 1440 of the speed.
constexpr double kElementError = 1.1e-6;

TEST(CriticalSpeed, ElementsGiveTheClosedForm) {
  const double exact = calc_critical_speed(kTube, 1.27)->speed_rad_per_s;
  const double found = speed_of(pinned({{.tube = kTube, .length_m = 1.27}}));
  EXPECT_GT(found, exact);
  EXPECT_LT(found, exact * (1 + kElementError));
  EXPECT_NEAR(CriticalSpeed{100}.speed_rpm(), 954.93, 0.005);
}

TEST(CriticalSpeed, PiecesOfOneTubeAreThatTube) {
  const double whole = speed_of(pinned({{.tube = kTube, .length_m = 1.2}}));
  const double parts = speed_of(pinned({{.tube = kTube, .length_m = 0.013},
                                        {.tube = kTube, .length_m = 0.8},
                                        {.tube = kTube, .length_m = 0.387}}));
  EXPECT_NEAR(parts / whole, 1, kElementError);
}

// Tubes that hinge on a bearing that doesn't give do not feel each other.
TEST(CriticalSpeed, JointOnARigidBearingPartsTheTubes) {
  ShaftBeam beam{.pieces = {{.tube = kTube, .length_m = 0.8, .joint_after = true},
                            {.tube = kTube, .length_m = 1.2}},
                 .masses = {},
                 .supports = {{.at_m = 0}, {.at_m = 0.8}, {.at_m = 2}}};
  const double longer = calc_critical_speed(kTube, 1.2)->speed_rad_per_s;
  EXPECT_NEAR(speed_of(beam) / longer, 1, 1e-5);
  // Without the joint they hold each other.
  beam.pieces[0].joint_after = false;
  EXPECT_GT(speed_of(beam), 1.1 * longer);
  // On rubber both bow out together, slower the softer it is.
  beam.pieces[0].joint_after = true;
  double before = longer * (1 + 1e-5);
  for (const double stiffness : {1e8, 1e7, 1e6, 1e5}) {
    beam.supports[1].stiffness_N_per_m = stiffness;
    EXPECT_LT(speed_of(beam), before);
    before = speed_of(beam);
  }
}

// A mass in the middle of an even tube: 4 = (m k / rho A) (tan - tanh)(k L / 2), k the wave number.
TEST(CriticalSpeed, MassInTheMiddle) {
  const double L = 1.2;
  const TubeSection section = calc_tube_section(kTube);
  const double line_kg_per_m = kSteelDensity_kg_per_m3 * section.area_m2;
  for (const double mass_kg : {0.1, 1.0, 10.0}) {
    double low = 0.01 / L, high = std::numbers::pi / L;
    for (int i = 0; i < 100; ++i) {
      const double k = (low + high) / 2, x = k * L / 2;
      (mass_kg * k / line_kg_per_m * (std::tan(x) - std::tanh(x)) < 4 ? low : high) = k;
    }
    const double exact =
        low * low * std::sqrt(kSteelModulus_Pa * section.second_moment_m4 / line_kg_per_m);
    ShaftBeam beam = pinned({{.tube = kTube, .length_m = L}});
    beam.masses = {{.at_m = L / 2, .mass_kg = mass_kg}};
    EXPECT_NEAR(speed_of(beam) / exact, 1, kElementError);
  }
}

// Bearings so soft that the tube does not bend: a mass on two springs.
TEST(CriticalSpeed, OnSoftBearingsItSwingsWhole) {
  ShaftBeam beam = pinned({{.tube = kTube, .length_m = 1.2}});
  for (auto& support : beam.supports) support.stiffness_N_per_m = 1000;
  const double mass_kg = kSteelDensity_kg_per_m3 * calc_tube_section(kTube).area_m2 * 1.2;
  EXPECT_NEAR(speed_of(beam) / std::sqrt(2000 / mass_kg), 1, 1e-3);
}

// A mass that has a node to itself, one a little away from a step, and on it.
TEST(CriticalSpeed, MassBesideAStepIsWhereItIs) {
  ShaftBeam beam = pinned({{.tube = kTube, .length_m = 0.4}, {.tube = kTube, .length_m = 0.8}});
  beam.masses = {{.at_m = 0.4, .mass_kg = 2}};
  const double on_step = speed_of(beam);
  for (const double away_m : {1e-9, 1e-5, 1e-3, 0.0119, 0.0121}) {
    ShaftBeam other = pinned({{.tube = kTube, .length_m = 1.2}});
    beam.masses[0].at_m = other.masses.emplace_back(ShaftMass{0.4 + away_m, 2}).at_m;
    EXPECT_NEAR(speed_of(beam) / speed_of(other), 1, 2 * kElementError) << away_m;
    EXPECT_LT(speed_of(beam), on_step);
  }
}

/// Determinant of the pinned ends' conditions from each piece's own waves at a speed; its sign
/// turns at the exact speeds.
double end_condition(const std::vector<ShaftPiece>& pieces, double speed_rad_per_s) {
  Eigen::Matrix4d whole = Eigen::Matrix4d::Identity();
  for (const auto& piece : pieces) {
    const TubeSection section = calc_tube_section(piece.tube);
    const double EI = piece.modulus_Pa * section.second_moment_m4;
    const double k = std::pow(
        piece.density_kg_per_m3 * section.area_m2 * speed_rad_per_s * speed_rad_per_s / EI, 0.25);
    const double x = k * piece.length_m;
    const double a = (std::cosh(x) + std::cos(x)) / 2, b = (std::sinh(x) + std::sin(x)) / 2;
    const double c = (std::cosh(x) - std::cos(x)) / 2, d = (std::sinh(x) - std::sin(x)) / 2;
    Eigen::Matrix4d T;                                      // Of (w, w', EI w'', EI w''').
    T << a, b / k, c / (k * k * EI), d / (k * k * k * EI),  //
        k * d, a, b / (k * EI), c / (k * k * EI),           //
        k * k * EI * c, k * EI * d, a, b / k,               //
        k * k * k * EI * b, k * k * EI * c, k * d, a;       //
    whole = (T * whole).eval();
  }
  return whole(0, 1) * whole(2, 3) - whole(0, 3) * whole(2, 1);
}

std::vector<ShaftPiece> some_pieces() {
  std::vector<ShaftPiece> pieces;
  const int count = *rc::gen::inRange(1, 5);
  for (int i = 0; i < count; ++i) {
    pieces.push_back(
        {.tube = {.outside_diameter_m = test::real(40, 90), .wall_m = test::real(2, 15)},
         .length_m = test::real(50, 900)});
  }
  return pieces;
}

RC_GTEST_PROP(CriticalSpeed, SteppedTubeIsThatOfItsWaves, ()) {
  const auto pieces = some_pieces();
  const double found = speed_of(pinned(pieces));
  const double below = end_condition(pieces, found * (1 - 2e-5));
  RC_ASSERT(below * end_condition(pieces, found) < 0);
  for (int i = 1; i < 40; ++i) {
    RC_ASSERT(below * end_condition(pieces, found * i / 40) > 0);
  }
}

RC_GTEST_PROP(CriticalSpeed, IsTheSameTurnedRoundAndNeverFasterWithMoreMass, ()) {
  const auto pieces = some_pieces();
  ShaftBeam beam = pinned(pieces);
  const double bare = speed_of(beam);
  const double length_m = beam.supports.back().at_m, at = length_m * test::real(0, 1000);
  beam.masses = {{.at_m = at, .mass_kg = test::real(100, 5000)}};
  const double loaded = speed_of(beam);
  RC_ASSERT(loaded <= bare * (1 + 1e-5));
  std::reverse(beam.pieces.begin(), beam.pieces.end());
  beam.masses[0].at_m = length_m - at;
  // Rounding decides whether a mass just as far from an end as that has a node to itself.
  RC_ASSERT(std::abs(speed_of(beam) / loaded - 1) < kElementError);
}

void expect_beam_fault(const ShaftBeam& beam, const std::string& code, const std::string& path) {
  const auto speed = solve_critical_speed(beam);
  ASSERT_FALSE(speed.has_value()) << code;
  EXPECT_EQ(speed.error().front().code, code);
  EXPECT_EQ(speed.error().front().path, path);
}

TEST(CriticalSpeed, NamesWhatIsWrong) {
  const ShaftBeam good = pinned({{.tube = kTube, .length_m = 1.2}});
  expect_beam_fault({}, "driveline.no_pieces", "/pieces");
  ShaftBeam beam = good;
  beam.pieces[0].tube.wall_m = 0.05;
  expect_beam_fault(beam, "driveline.wall_too_thick", "/pieces/0/wall");
  beam = good;
  beam.pieces[0].length_m = 0;
  expect_beam_fault(beam, "driveline.size_not_positive", "/pieces/0/length");
  beam = good;
  beam.pieces.push_back({.tube = kTube, .length_m = 1e-5});
  expect_beam_fault(beam, "driveline.piece_too_short", "/pieces/1/length");
  beam = good;
  beam.masses = {{.at_m = 1.3, .mass_kg = 1}};
  expect_beam_fault(beam, "driveline.place_outside", "/masses/0/at");
  beam = good;
  beam.masses = {{.at_m = 0.3}};
  expect_beam_fault(beam, "driveline.size_not_positive", "/masses/0/mass");
  beam = good;
  beam.supports[1].at_m = -0.1;
  expect_beam_fault(beam, "driveline.place_outside", "/supports/1/at");
  beam = good;
  beam.supports[1].stiffness_N_per_m = 0;
  expect_beam_fault(beam, "driveline.size_not_positive", "/supports/1/stiffness");
  EXPECT_FALSE(calc_critical_speed(kTube, -1).has_value());
  EXPECT_FALSE(calc_critical_speed({0.05, 0}, 1).has_value());
}

TEST(CriticalSpeed, NamesWhatIsNotHeld) {
  ShaftBeam beam = pinned({{.tube = kTube, .length_m = 1.2}});
  beam.supports.pop_back();
  expect_beam_fault(beam, "driveline.shaft_not_held", "/supports");
  beam.supports.clear();
  expect_beam_fault(beam, "driveline.shaft_not_held", "/supports");
  // Two tubes with a joint between that hangs on nothing.
  beam = pinned(
      {{.tube = kTube, .length_m = 0.6, .joint_after = true}, {.tube = kTube, .length_m = 0.7}});
  expect_beam_fault(beam, "driveline.shaft_not_held", "/supports");
}

}  // namespace
}  // namespace rig::driveline
