// Propeller shafts against published values. Keys in brackets are those of docs/references.md;
// "recomputed" means that the value was also worked out from the printed inputs by someone else's
// closed form; "from memory" that the page was not seen.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <initializer_list>
#include <numbers>
#include <string>

#include "driveline/cardan.h"
#include "driveline/shaft_line.h"
#include "driveline/shaft_speed.h"
#include "driveline/shaft_strength.h"
#include "expect_published.h"
#include "units/factors.h"

namespace rig::driveline {
namespace {

using units::deg_from_rad;
using units::rad_from_deg;

constexpr double kPi = std::numbers::pi;

double rad_per_s(double rpm) { return rpm * kPi / 30; }

std::string at(const char* what, double value, const char* unit) {
  return what + ("_at_" + std::to_string(static_cast<int>(value))) + "_" + unit;
}

/// Shafts of one side view by their slopes, yokes of each tube at one phase.
ShaftLineMotion side_view(std::initializer_list<double> slopes_deg, double phase_deg = 0) {
  ShaftLine line;
  line.joint_count = slopes_deg.size() - 1;
  const auto along = [](double deg) {
    return Vec3(std::cos(rad_from_deg(deg)), 0, std::sin(rad_from_deg(deg)));
  };
  const double* slope = slopes_deg.begin();
  line.d_in_V = along(*slope++);
  line.joints[0].p_VP = Vec3::Zero();
  for (std::size_t i = 1; i < line.joint_count; ++i) {
    line.joints[i].p_VP = line.joints[i - 1].p_VP + along(*slope++);
    line.phase_rad[i - 1] = rad_from_deg(phase_deg);
  }
  line.d_out_V = along(*slope);
  return *calc_shaft_line(line);
}

// DR-01 [ShigleyUicker], [Khurmi] ch. 9: seen in a public copy. DR-02: recomputed.
TEST(CardanJoint, SpeedRatio) {
  struct Row {
    double deg, greatest;
  };
  for (const Row& row : {Row{3, 1.00137}, Row{5, 1.00382}, Row{10, 1.01543}, Row{15, 1.03528},
                         Row{20, 1.06418}, Row{30, 1.15470}}) {
    const double b = rad_from_deg(row.deg);
    const JointMotion motion = calc_joint_motion(b);
    expect_published(
        at("greatest_ratio", row.deg, "degrees"), motion.greatest_ratio,
        {.value = row.greatest, .tolerance = 0.000005, .source = "DR-02: [Khurmi] ch. 9"});
    EXPECT_NEAR(motion.least_ratio, 1 / motion.greatest_ratio, 1e-15);
    EXPECT_NEAR(calc_speed_ratio(b, 0), 1 / std::cos(b), 1e-15);
    EXPECT_NEAR(calc_speed_ratio(b, kPi / 2), std::cos(b), 1e-15);
  }
}

// DR-03: definition from memory, recomputed.
TEST(CardanJoint, DegreeOfNonUniformity) {
  struct Row {
    double deg, U;
  };
  for (const Row& row : {Row{3, 0.00274}, Row{5, 0.00763}, Row{8, 0.01956}, Row{10, 0.03062},
                         Row{15, 0.06935}, Row{20, 0.12449}}) {
    expect_published(at("nonuniformity", row.deg, "degrees"),
                     calc_joint_motion(rad_from_deg(row.deg)).nonuniformity(),
                     {.value = row.U, .tolerance = 0.000005, .source = "DR-03: driveline texts"});
  }
}

// DR-04: DR-01 integrated, recomputed.
TEST(CardanJoint, GreatestError) {
  struct Row {
    double deg, error_deg;
  };
  for (const Row& row : {Row{5, 0.109}, Row{10, 0.439}, Row{20, 1.782}, Row{30, 4.117}}) {
    expect_published(at("error", row.deg, "degrees_deg"),
                     deg_from_rad(calc_joint_motion(rad_from_deg(row.deg)).greatest_error_rad),
                     {.value = row.error_deg, .tolerance = 0.0005, .source = "DR-04: from DR-01"});
  }
}

// DR-05 [Khurmi] ch. 9: seen in a public copy. The turn is counted as in DR-01.
TEST(CardanJoint, EqualSpeeds) {
  for (const double deg : {5.0, 20.0, 40.0}) {
    const double b = rad_from_deg(deg);
    expect_published(at("ratio", deg, "degrees"),
                     calc_speed_ratio(b, std::atan(std::sqrt(std::cos(b)))),
                     {.value = 1, .tolerance = 1e-12, .source = "DR-05: [Khurmi] ch. 9"});
  }
}

// DR-06, DR-07, as in [Khurmi] ch. 9: speeds seen in a public copy, angles recomputed (a stored
// solution prints 16.2 for the first).
TEST(CardanJoint, AngleForAFluctuation) {
  const std::string source = "DR-06: as [Khurmi] ch. 9";
  const double b = calc_joint_angle_from_nonuniformity_rad(100.0 / 1200);
  const JointMotion motion = calc_joint_motion(b);
  expect_published("angle_100_of_1200_rpm_deg", deg_from_rad(b),
                   {.value = 16.42, .tolerance = 0.005, .source = source});
  expect_published("cosine", motion.least_ratio,
                   {.value = 0.9592, .tolerance = 0.00005, .source = source});
  expect_published("fastest_rpm", 1200 * motion.greatest_ratio,
                   {.value = 1251.04, .tolerance = 0.005, .source = source});
  expect_published("slowest_rpm", 1200 * motion.least_ratio,
                   {.value = 1151.04, .tolerance = 0.005, .source = source});
  expect_published("angle_12_5_percent_deg",
                   deg_from_rad(calc_joint_angle_from_nonuniformity_rad(0.125)),
                   {.value = 20.04, .tolerance = 0.005, .source = "DR-07: as [Khurmi] ch. 9"});
}

// DR-08: slope of DR-01 in time at 3000 rpm, recomputed.
TEST(CardanJoint, PeakAcceleration) {
  struct Row {
    double deg, rad_per_s2;
  };
  for (const Row& row : {Row{3, 270.7}, Row{5, 752.6}, Row{10, 3022.7}, Row{15, 6852.8}}) {
    expect_published(
        at("acceleration", row.deg, "degrees_rad_per_s2"),
        calc_joint_motion(rad_from_deg(row.deg)).acceleration_rad_per_s2(rad_per_s(3000)),
        {.value = row.rad_per_s2, .tolerance = 0.05, .source = "DR-08: from DR-01"});
  }
}

// DR-09, DR-10: limits of SAE practice from memory; angles by the small-angle rule sqrt(limit) / w,
// recomputed. The exact acceleration allows less, by b^3 / 12 and 5 % for the next power: 0.01 deg
// at 7.3 deg and 0.04 deg at 11.5 deg.
TEST(CardanJoint, AngleForAnAcceleration) {
  const auto exact_deg = [](double limit, double rpm) {
    return deg_from_rad(solve_joint_angle_rad(limit, rad_per_s(rpm)));
  };
  const auto rule_tolerance = [](double deg) {
    return 0.005 + 1.05 * deg_from_rad(std::pow(rad_from_deg(deg), 3) / 12);
  };
  struct Row {
    double rpm, torsional_300_deg, torsional_400_deg, inertial_1000_deg, workshop_deg;
  };
  for (const Row& row : {Row{1500, 6.32, 7.30, 11.53, 11.5}, Row{2000, 4.74, 5.47, 8.65, 8.7},
                         Row{3000, 3.16, 3.65, 5.77, 5.8}, Row{4000, 2.37, 2.74, 4.33, 4.25},
                         Row{5000, 1.90, 2.19, 3.46, 3.25}}) {
    expect_published(at("angle_300_rad_s2", row.rpm, "rpm_deg"), exact_deg(300, row.rpm),
                     {.value = row.torsional_300_deg,
                      .tolerance = rule_tolerance(row.torsional_300_deg),
                      .source = "DR-09: SAE practice, small-angle rule"});
    expect_published(at("angle_400_rad_s2", row.rpm, "rpm_deg"), exact_deg(400, row.rpm),
                     {.value = row.torsional_400_deg,
                      .tolerance = rule_tolerance(row.torsional_400_deg),
                      .source = "DR-09: SAE practice, small-angle rule"});
    expect_published(at("angle_1000_rad_s2", row.rpm, "rpm_deg"), exact_deg(1000, row.rpm),
                     {.value = row.inertial_1000_deg,
                      .tolerance = rule_tolerance(row.inertial_1000_deg),
                      .source = "DR-10: SAE practice, small-angle rule"});
    // Widely reprinted, its making unknown: 5 %, but its last row is 6 % under its own curve.
    expect_published(at("workshop_angle", row.rpm, "rpm_deg"), exact_deg(1000, row.rpm),
                     {.value = row.workshop_deg,
                      .tolerance = (row.rpm == 5000 ? 0.07 : 0.05) * row.workshop_deg,
                      .source = "DR-10: workshop table"});
  }
}

// DR-11 [Khurmi], [FischerPaul]: seen in a public copy.
TEST(ShaftLines, EqualAnglesCancel) {
  expect_published("nonuniformity_Z", side_view({0, 10, 0}).line.nonuniformity(),
                   {.value = 0, .tolerance = 1e-12, .source = "DR-11: [FischerPaul]"});
  expect_published("nonuniformity_W", side_view({0, 10, 20}).line.nonuniformity(),
                   {.value = 0, .tolerance = 1e-12, .source = "DR-11: [FischerPaul]"});
}

// DR-13: sign rule of driveline texts and VDI 2722 from memory, small angles, recomputed.
TEST(ShaftLines, ResultantAngle) {
  expect_published("phased_3_and_4_deg", deg_from_rad(side_view({0, 3, -1}).line.angle_rad),
                   {.value = 2.65, .tolerance = 0.005, .source = "DR-13: VDI 2722"});
  expect_published("unphased_3_and_4_deg", deg_from_rad(side_view({0, 3, -1}, 90).line.angle_rad),
                   {.value = 5, .tolerance = 0.005, .source = "DR-13: VDI 2722"});
}

// ST-09, ST-10: from DR-01, recomputed.
TEST(ShaftLines, SteeringShafts) {
  struct Row {
    double deg, percent;
  };
  for (const Row& row : {Row{15, 3.5}, Row{20, 6.2}, Row{30, 14.4}}) {
    expect_published(at("fluctuation", row.deg, "degrees_percent"),
                     50 * calc_joint_motion(rad_from_deg(row.deg)).nonuniformity(),
                     {.value = row.percent, .tolerance = 0.05, .source = "ST-09: from DR-01"});
  }
  const JointMotion line = side_view({0, 25, 5}).line;
  expect_published("least_ratio_25_and_20", line.least_ratio,
                   {.value = 0.9645, .tolerance = 0.00005, .source = "ST-10: DR-01 twice"});
  expect_published("greatest_ratio_25_and_20", line.greatest_ratio,
                   {.value = 1.0368, .tolerance = 0.00005, .source = "ST-10: DR-01 twice"});
  // The printed 15.0 adds squares; exactly it is acos(cos 25 / cos 20).
  expect_published("resultant_25_and_20_deg", deg_from_rad(line.angle_rad),
                   {.value = 15.0, .tolerance = 0.45, .source = "ST-10: sum of squares"});
}

// DR-14: geometry. The list's 4.995 is one off in its last digit: the same formula gives 4.9942.
TEST(CardanJoint, CompoundAngle) {
  expect_published("compound_3_and_4_deg",
                   deg_from_rad(calc_compound_angle_rad(rad_from_deg(3), rad_from_deg(4))),
                   {.value = 4.995, .tolerance = 0.001, .source = "DR-14: geometry"});
}

// DR-20 power balance (seen in a public copy), DR-21 statics of the cross (from memory), per
// torque.
TEST(CardanJoint, TorqueAndSecondaryCouples) {
  const double b = rad_from_deg(20);
  const JointMotion motion = calc_joint_motion(b);
  expect_published("greatest_output_torque", 1 / motion.least_ratio,
                   {.value = 1.06418, .tolerance = 0.000005, .source = "DR-20: power balance"});
  expect_published("least_output_torque", 1 / motion.greatest_ratio,
                   {.value = 0.93969, .tolerance = 0.000005, .source = "DR-20: power balance"});
  const SecondaryCouples couples = calc_secondary_couples(b, 1);
  expect_published("driving_couple", couples.driving_Nm,
                   {.value = std::tan(b), .tolerance = 1e-12, .source = "DR-21: statics"});
  expect_published("driven_couple", couples.driven_Nm,
                   {.value = std::sin(b), .tolerance = 1e-12, .source = "DR-21: statics"});
}

/// 30e6 psi, which the list takes as 206.8 GPa.
constexpr double kModulus_Pa = 206.8e9;

double critical_rpm(double diameter_in, double wall_in, double length_in) {
  const double density = 0.283 * units::kPound_kg / units::kCubicInch_m3;
  return calc_critical_speed({units::m_from_inch(diameter_in), units::m_from_inch(wall_in)},
                             units::m_from_inch(length_in), kModulus_Pa, density)
      ->speed_rpm();
}

// DR-16 [Shigley] Eq. 7-22, Timoshenko: recomputed.
TEST(CriticalSpeed, TubesOnPinnedEnds) {
  expect_published("tube_3_in_of_50_in_rpm", critical_rpm(3, 0.083, 50),
                   {.value = 7868, .tolerance = 0.5, .source = "DR-16: [Shigley] Eq. 7-22"});
  expect_published("tube_3_5_in_of_60_in_rpm", critical_rpm(3.5, 0.083, 60),
                   {.value = 6400, .tolerance = 0.5, .source = "DR-16: [Shigley] Eq. 7-22"});
  const ShaftTube tube{units::m_from_inch(3), units::m_from_inch(0.083)};
  const double length_m = units::m_from_inch(50);
  ShaftBeam beam{.pieces = {{.tube = tube,
                             .length_m = length_m,
                             .modulus_Pa = kModulus_Pa,
                             .density_kg_per_m3 = 0.283 * units::kPound_kg / units::kCubicInch_m3}},
                 .masses = {},
                 .supports = {{.at_m = 0}, {.at_m = length_m}}};
  expect_published("elements_3_in_of_50_in_rpm", solve_critical_speed(beam)->speed_rpm(),
                   {.value = 7868, .tolerance = 0.5, .source = "DR-16: [Shigley] Eq. 7-22"});
}

// DR-18: the handbook's constant, recomputed; 1 % for its E and density.
TEST(CriticalSpeed, HandbookConstant) {
  const double D = 3, d = 3 - 2 * 0.083;
  expect_published("constant_for_inches", critical_rpm(3, 0.083, 50) * 2500 / std::hypot(D, d),
                   {.value = 4.77e6, .tolerance = 4.77e4, .source = "DR-18: handbook"});
  expect_published("constant_for_millimetres",
                   critical_rpm(3, 0.083, 50) * 2500 * 25.4 / std::hypot(D, d),
                   {.value = 1.21e8, .tolerance = 1.21e6, .source = "DR-18: handbook"});
}

// SP-73 [Boresi] Ex. 6.1, SP-74 [Gere] Ex. 3-6: seen in a public copy.
TEST(TubeTorsion, HollowShafts) {
  const TubeTorsion boresi = *calc_tube_torsion({0.050, 0.003}, 1, 500, 1, 77e9);
  expect_published("stress_MPa", boresi.stress_Pa / 1e6,
                   {.value = 50.89, .tolerance = 0.005, .source = "SP-73: [Boresi] Ex. 6.1"});
  expect_published("twist_of_1_m_rad", boresi.wind_up_rad,
                   {.value = 0.0264, .tolerance = 0.00005, .source = "SP-73: [Boresi] Ex. 6.1"});
  expect_published("stress_80_by_60_MPa",
                   calc_tube_torsion({0.080, 0.010}, 1, 4000, 1)->stress_Pa / 1e6,
                   {.value = 58.2, .tolerance = 0.05, .source = "SP-74: [Gere] Ex. 3-6"});
}

}  // namespace
}  // namespace rig::driveline
