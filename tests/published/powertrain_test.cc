// Cases on their mounts, their modes and what hangs on a hoist against published values. Keys in
// brackets are those of docs/references.md; EM and HO are rows of the reference list: "from memory
// + recomputed" unless said otherwise.

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>

#include "build/drivetrain_lookup.h"
#include "driveline/hoist.h"
#include "driveline/modes.h"
#include "expect_published.h"
#include "units/factors.h"

namespace rig::driveline {
namespace {

using units::deg_from_rad;
using units::rad_from_deg;

/// A body of 250 kg on four mounts, its mass centre at the datum.
CaseLine four_mounts(double height_m, double lateral_N_per_m) {
  CaseLine line;
  Case body{.id = "body", .p_VoF_V = {0.5, 0, 0}, .p_VoR_V = {-0.5, 0, 0}, .mass_kg = 250};
  body.I_Cm_V = Vec3(8, 20, 18).asDiagonal();
  line.cases = {body};
  for (const double x : {0.35, -0.35}) {
    for (const double y : {0.25, -0.25}) {
      CaseMount mount{.p_VoM_V = {x, y, height_m}};
      mount.K_V = build::mount_stiffness(mount.axis_V, 150e3, lateral_N_per_m, 60e3);
      line.mounts.push_back(mount);
    }
  }
  return line;
}

/// Frequency of the mode with most of its energy in one way.
double frequency_Hz(const PowertrainModes& modes, std::size_t way) {
  const RigidMode* best = &modes.modes[0];
  for (const RigidMode& mode : modes.modes) {
    if (mode.energy_share[way] > best->energy_share[way]) best = &mode;
  }
  return best->frequency_Hz;
}

// EM-01 [Harris], rigid body on four mounts in the plane of its mass centre.
TEST(EngineMounts, UncoupledModes) {
  const auto modes = solve_modes(four_mounts(0, 60e3));
  ASSERT_TRUE(modes.has_value());
  expect_published("bounce_Hz", frequency_Hz(*modes, 2), {7.797, 0.0005, "EM-01 [Harris]"});
  expect_published("roll_Hz", frequency_Hz(*modes, 3), {10.897, 0.0005, "EM-01 [Harris]"});
  expect_published("pitch_Hz", frequency_Hz(*modes, 4), {9.648, 0.0005, "EM-01 [Harris]"});
}

// EM-02: recomputed as a 2-dof eigenproblem.
TEST(EngineMounts, LateralAndRollTogether) {
  const auto modes = solve_modes(four_mounts(-0.15, 60e3));
  ASSERT_TRUE(modes.has_value());
  expect_published("lateral_Hz", frequency_Hz(*modes, 1), {4.5504, 0.00005, "EM-02"});
  expect_published("roll_Hz", frequency_Hz(*modes, 3), {11.8087, 0.00005, "EM-02"});
}

// EM-06 [JeongSingh00]: definition seen in a public copy, numbers recomputed.
TEST(EngineMounts, TorqueRollAxis) {
  CaseLine line = four_mounts(0, 60e3);
  line.cases[0].I_Cm_V << 8, 0, 1.5, 0, 20, 0, 1.5, 0, 18;
  const auto modes = solve_modes(line);
  ASSERT_TRUE(modes.has_value());
  const std::string source = "EM-06 [JeongSingh00]";
  expect_published("along_x_m", modes->torque_roll_axis_V.x(), {0.99655, 0.000005, source});
  expect_published("along_z_m", modes->torque_roll_axis_V.z(), {-0.08305, 0.000005, source});
  expect_published("from_crank_deg", deg_from_rad(modes->torque_roll_angle_rad),
                   {4.764, 0.0005, source});
}

// EM-08 [Harris] ch. 3: an inclined pair turns a side push into no roll at one height.
TEST(EngineMounts, ElasticCentreOfAnInclinedPair) {
  const double lean = rad_from_deg(45);
  Mat3 sum = Mat3::Zero();
  double roll_per_push = 0;
  for (const double side : {1.0, -1.0}) {
    const Vec3 axis(0, -side * std::sin(lean), std::cos(lean));
    const Mat3 K = build::mount_stiffness(axis, 5, 1, 1);
    sum += K;
    // Roll moment about the middle of the mount plane of one unit moved sideways.
    roll_per_push += Vec3(0, side * 0.250, 0).cross(K.col(1)).x();
  }
  expect_published("height_mm", -1000 * roll_per_push / sum(1, 1), {166.7, 0.05, "EM-08 [Harris]"});
}

// EM-09: order analysis, recomputed. EM-05 [Harris].
TEST(EngineMounts, FiringAndTransmission) {
  const double rpm = std::numbers::pi / 30;
  expect_published("four_cylinders_Hz", calc_firing_frequency_Hz(4, 700 * rpm),
                   {23.33, 0.005, "EM-09"});
  expect_published("eight_cylinders_Hz", calc_firing_frequency_Hz(8, 650 * rpm),
                   {43.33, 0.005, "EM-09"});
  EXPECT_NEAR(calc_transmissibility(3, 1), 0.125, 1e-12);  // EM-05
}

/// Two bending spans of 1 m on three supports that differ in their upright rates.
CaseLine two_spans(double EI, double middle_N_per_m, double end_N_per_m) {
  CaseLine line;
  for (int i = 0; i < 2; ++i) {
    Case span{.id = "span", .p_VoF_V = {-1.0 * i, 0, 0}, .p_VoR_V = {-1.0 * (i + 1), 0, 0}};
    span.bending_Nm2 = EI;
    span.p_VoCm_V = {-1.0 * i - 0.5, 0, 0};
    line.cases.push_back(span);
  }
  for (int i = 0; i < 3; ++i) {
    // Two a hand apart at each place hold it upright against roll as well.
    for (const double y : {0.1, -0.1}) {
      CaseMount mount{.on = i == 2 ? 1U : 0U, .p_VoM_V = {-1.0 * i, y, 0}};
      mount.K_V = build::mount_stiffness(mount.axis_V, (i == 1 ? middle_N_per_m : end_N_per_m) / 2,
                                         1e3, 1e3);
      line.mounts.push_back(mount);
    }
  }
  return line;
}

double reaction_N(const CasesAtRest& rest, std::size_t place) {
  return rest.mounts[2 * place].f_V.z() + rest.mounts[2 * place + 1].f_V.z();
}

// AISC Manual Table 3-23, continuous beam of two equal spans, load in the middle of one span:
// 13/32, 22/32 and -3/32 of the load; from memory.
TEST(CasesOnThreeSupports, AreAContinuousBeamWhereTheSupportsAreStiff) {
  CaseLine line = two_spans(1e5, 1e11, 1e11);
  line.cases[0].mass_kg = 1000 / units::g;
  const auto rest = solve_cases(line, {.felt_V = {0, 0, -units::g}});
  ASSERT_TRUE(rest.has_value());
  const std::string source = "AISC Manual Table 3-23 (from memory)";
  expect_published("near_end_N", reaction_N(*rest, 0), {406.25, 0.005, source});
  expect_published("middle_N", reaction_N(*rest, 1), {687.5, 0.005, source});
  expect_published("far_end_N", reaction_N(*rest, 2), {-93.75, 0.005, source});
  expect_published("moment_at_middle_Nm", rest->flanges[0].bending_Nm, {93.75, 0.005, source});
}

// Load on the middle of a beam with a spring there: the spring takes k / (k + 48 E I / L^3).
TEST(CasesOnThreeSupports, AMiddleThatGivesTakesItsShare) {
  const double EI = 1e5, k = 4e5;
  CaseLine line = two_spans(EI, k, 1e11);
  line.cases[0].mass_kg = 1000 / units::g;
  line.cases[0].p_VoCm_V.x() = -1;
  const auto rest = solve_cases(line, {.felt_V = {0, 0, -units::g}});
  ASSERT_TRUE(rest.has_value());
  const double beam = 48 * EI / 8;
  EXPECT_NEAR(reaction_N(*rest, 1), 1000 * k / (k + beam), 0.01);
}

// HO-01 ASME B30.9 load-angle tables: seen in a public copy. HO-06: statics, recomputed.
TEST(Hoist, SlingsAndHangAttitude) {
  struct Row {
    double deg, factor;
  };
  for (const Row& row : {Row{75, 1.035}, Row{60, 1.155}, Row{45, 1.414}, Row{30, 2.000}}) {
    expect_published("factor_at_" + std::to_string(static_cast<int>(row.deg)) + "_deg",
                     calc_sling_factor(rad_from_deg(row.deg)),
                     {row.factor, 0.0005, "HO-01 ASME B30.9"});
  }
  expect_published("tilt_deg", deg_from_rad(calc_hang_tilt_rad(0.050, 0.900)),
                   {3.18, 0.005, "HO-06"});
}

}  // namespace
}  // namespace rig::driveline
