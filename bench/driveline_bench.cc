// Three shafts over an axle's grid of poses; beside it, one shaft in one pose as one equivalent
// joint and by the vectors of its crosses stepped over a turn.

#include <benchmark/benchmark.h>

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include "driveline/shaft_speed.h"
#include "driveline/shaft_travel.h"
#include "tests/support/direct_shaft_line.h"

namespace rig::driveline {
namespace {

constexpr double kSpeed_rad_per_s = 300;
constexpr int kHeaves = 41, kRolls = 21, kShafts = 3;

/// Rear axle on a 0.9 m radius: heave by row, roll by column.
std::vector<ShaftEnds> make_grid() {
  std::vector<ShaftEnds> poses;
  for (int i = 0; i < kRolls; ++i) {
    for (int k = 0; k < kHeaves; ++k) {
      const double heave_m = -0.1 + 0.005 * k, roll_rad = -0.2 + 0.02 * i;
      const Mat3 R_VA = rotation_y(-0.4 * heave_m) * rotation_x(roll_rad);
      poses.push_back({.p_VIn = Vec3(-1.4, -0.1, 0.6),
                       .d_in_V = Vec3(-1, 0, -0.04),
                       .p_VOut = Vec3(-2.6, 0, 0.45 + heave_m) + R_VA * Vec3(0.25, -0.05, 0.02),
                       .d_out_V = R_VA * Vec3(-1, 0.02, 0.06)});
    }
  }
  return poses;
}

Shaft make_bench_shaft(int which) {
  Shaft shaft;
  shaft.spline = {.tube = 0, .closed_length_m = 0.9, .out_length_m = 1.1};
  if (which == 1) shaft.joints[0].kind = JointKind::kDoubleCardan;
  if (which == 2) {
    shaft.joint_count = 3;
    shaft.bearings[0] = {.p_VB = Vec3(-1.9, -0.08, 0.58), .joint_past_m = 0.05};
    shaft.spline->tube = 1;
  }
  return shaft;
}

void ShaftsOverGrid(benchmark::State& state) {
  const auto poses = make_grid();
  std::vector<Shaft> shafts;
  for (int which = 0; which < kShafts; ++which) shafts.push_back(make_bench_shaft(which));
  for (auto _ : state) {
    for (const Shaft& shaft : shafts) {
      const auto travel = calc_shaft_travel(shaft, poses, kSpeed_rad_per_s);
      if (!travel || travel->poses.size() != poses.size()) state.SkipWithError("poses are missing");
      benchmark::DoNotOptimize(travel);
    }
  }
  state.SetItemsProcessed(state.iterations() * kShafts * kHeaves * kRolls);
}
BENCHMARK(ShaftsOverGrid)->Unit(benchmark::kMillisecond);

ShaftLine make_bench_line() { return make_shaft_line(make_bench_shaft(2), make_grid()[100]); }

void OnePose_EquivalentJoint(benchmark::State& state) {
  const ShaftLine line = make_bench_line();
  for (auto _ : state) {
    auto motion = calc_shaft_line(line);
    benchmark::DoNotOptimize(motion);
  }
}
BENCHMARK(OnePose_EquivalentJoint);

void OnePose_CrossesOverATurn(benchmark::State& state) {
  const ShaftLine line = make_bench_line();
  double greatest = 0;
  for (auto _ : state) {
    greatest = 0;
    for (int degrees = 0; degrees < 360; ++degrees) {
      greatest =
          std::max(greatest, testing::calc_direct_ratio(line, degrees * std::numbers::pi / 180));
    }
    benchmark::DoNotOptimize(greatest);
  }
  const double missed = calc_shaft_line(line)->line.greatest_ratio - greatest;
  state.counters["missed"] = missed;
  if (!(missed >= -1e-12 && missed < 1e-4)) state.SkipWithError("the crosses turn otherwise");
}
BENCHMARK(OnePose_CrossesOverATurn);

constexpr ShaftTube kTube{.outside_diameter_m = 0.076, .wall_m = 0.0021};
constexpr double kLength_m = 1.27;

void check_speed(benchmark::State& state, double speed_rad_per_s) {
  const double exact = calc_critical_speed(kTube, kLength_m)->speed_rad_per_s;
  state.counters["error"] = speed_rad_per_s / exact - 1;
  if (!(std::abs(speed_rad_per_s / exact - 1) < 2e-6)) state.SkipWithError("the speed is off");
}

void CriticalSpeedOfATube(benchmark::State& state) {
  const ShaftBeam beam{.pieces = {{.tube = kTube, .length_m = kLength_m}},
                       .masses = {},
                       .supports = {{.at_m = 0}, {.at_m = kLength_m}}};
  for (auto _ : state) {
    const auto speed = solve_critical_speed(beam);
    benchmark::DoNotOptimize(speed);
  }
  check_speed(state, solve_critical_speed(beam)->speed_rad_per_s);
}
BENCHMARK(CriticalSpeedOfATube)->Unit(benchmark::kMicrosecond);

/// 16 elements between pinned ends: all deflections but the ends', then all slopes.
void CriticalSpeed_EigenGeneralized(benchmark::State& state) {
  constexpr int kElements = 16;
  constexpr int kFreedoms = 2 * kElements;
  const TubeSection section = calc_tube_section(kTube);
  const double h = kLength_m / kElements;
  const double k = kSteelModulus_Pa * section.second_moment_m4 / (h * h * h);
  const double m = kSteelDensity_kg_per_m3 * section.area_m2 * h / 420;
  Eigen::Matrix4d K, M;
  K << 12, 6 * h, -12, 6 * h, 6 * h, 4 * h * h, -6 * h, 2 * h * h, -12, -6 * h, 12, -6 * h, 6 * h,
      2 * h * h, -6 * h, 4 * h * h;
  M << 156, 22 * h, 54, -13 * h, 22 * h, 4 * h * h, 13 * h, -3 * h * h, 54, 13 * h, 156, -22 * h,
      -13 * h, -3 * h * h, -22 * h, 4 * h * h;
  double speed = 0;
  for (auto _ : state) {
    Eigen::MatrixXd stiffness = Eigen::MatrixXd::Zero(kFreedoms, kFreedoms), mass = stiffness;
    for (int e = 0; e < kElements; ++e) {
      const auto deflection = [](int node) { return node % kElements == 0 ? -1 : node - 1; };
      const std::array<int, 4> at{deflection(e), kElements - 1 + e, deflection(e + 1),
                                  kElements + e};
      for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t j = 0; j < 4; ++j) {
          if (at[i] < 0 || at[j] < 0) continue;
          stiffness(at[i], at[j]) += k * K(static_cast<int>(i), static_cast<int>(j));
          mass(at[i], at[j]) += m * M(static_cast<int>(i), static_cast<int>(j));
        }
      }
    }
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver(stiffness, mass,
                                                                           Eigen::EigenvaluesOnly);
    benchmark::DoNotOptimize(solver);
    speed = std::sqrt(solver.eigenvalues()[0]);
  }
  check_speed(state, speed);
}
BENCHMARK(CriticalSpeed_EigenGeneralized)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace rig::driveline
