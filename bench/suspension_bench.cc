// Poses of an ideal four-link: the general solver, a Newton iteration written by hand for four
// bars, and Simbody on the same linkage, all walking the same heave path from warm starts. Then a
// redundant bushed layout, a swept pose with all its numbers, and the whole truck at rest.

#include <benchmark/benchmark.h>

#include <Eigen/LU>
#include <cmath>

#include "suspension/elements.h"
#include "suspension/pose.h"
#include "suspension/settle.h"
#include "suspension/sweep.h"
#include "tests/support/simbody_axle.h"
#include "tests/support/test_axles.h"

namespace rig::suspension {
namespace {

constexpr double kAccuracy_m = 1e-9;
constexpr double kStep_m = 0.002;
constexpr int kPathSteps = 100;

/// Heave of the n-th pose on a path that goes up and down without a jump.
double path_heave(int n) {
  const int phase = n % (2 * kPathSteps);
  return -0.1 + kStep_m * (phase < kPathSteps ? phase : 2 * kPathSteps - phase);
}

double misfit(const AxleModel& axle, const Vec3& p_VC, const Mat3& R_VA) {
  double worst = 0;
  for (const auto& bar : axle.bars) {
    const double length = (p_VC + R_VA * bar.p_AQ - bar.p_VP).norm();
    worst = std::max(worst, std::abs(length - bar.length_m));
  }
  return worst;
}

void check_misfit(benchmark::State& state, double residual_m) {
  state.counters["misfit_m"] = residual_m;
  if (!(residual_m < kAccuracy_m)) state.SkipWithError("the pose does not fit the bars");
}

void general_solver(benchmark::State& state, const AxleModel& axle) {
  const Linkage linkage = Linkage::make(axle);
  LinkagePose pose = linkage.drawn();
  int n = 0;
  for (auto _ : state) {
    if (!linkage.solve(axle.p_VC.z() + path_heave(n++), 0.05, pose)) {
      state.SkipWithError("no pose");
      break;
    }
    benchmark::DoNotOptimize(pose.q);
  }
  const AxleAxes axes = axes_from_coordinates(pose.q);
  if (axle.compliance_m_per_N.isZero(0)) check_misfit(state, misfit(axle, axes.p_VC, axes.R_VA));
}

/// Newton for exactly four bars and nothing else, straight from the constraint equations.
struct FourBars {
  Eigen::Matrix<double, 3, 4> P, Q;
  Eigen::Vector4d length_squared;

  explicit FourBars(const AxleModel& axle) {
    for (int i = 0; i < 4; ++i) {
      const Bar& bar = axle.bars[static_cast<std::size_t>(i)];
      P.col(i) = bar.p_VP;
      Q.col(i) = bar.p_AQ;
      length_squared[i] = bar.length_m * bar.length_m;
    }
  }

  /// x, y, pitch, yaw at a given z and roll.
  void solve(double z, double roll, Eigen::Vector4d& u) const {
    Mat3 R_roll = Mat3::Identity();
    R_roll(1, 1) = R_roll(2, 2) = std::cos(roll);
    R_roll(2, 1) = std::sin(roll);
    R_roll(1, 2) = -R_roll(2, 1);
    const Eigen::Matrix<double, 3, 4> rolled = R_roll * Q;
    for (int iteration = 0; iteration < 20; ++iteration) {
      const double cp = std::cos(u[2]), sp = std::sin(u[2]), cy = std::cos(u[3]),
                   sy = std::sin(u[3]);
      Mat3 R;
      R << cy * cp, -sy, cy * sp, sy * cp, cy, sy * sp, -sp, 0, cp;
      const Eigen::Matrix<double, 3, 4> r = R * rolled;
      const Eigen::Matrix<double, 3, 4> d = (r - P).colwise() + Vec3(u[0], u[1], z);
      Eigen::Matrix4d J;
      Eigen::Vector4d misfit;
      for (int i = 0; i < 4; ++i) {
        const Vec3 pitching(cy * r(2, i), sy * r(2, i), -sy * r(1, i) - cy * r(0, i));
        J.row(i) << d(0, i), d(1, i), d.col(i).dot(pitching), d(1, i) * r(0, i) - d(0, i) * r(1, i);
        misfit[i] = 0.5 * (length_squared[i] - d.col(i).squaredNorm());
      }
      const Eigen::Vector4d step = J.inverse() * misfit;
      u += step;
      if (step.cwiseAbs().maxCoeff() < 1e-8) return;
    }
  }
};

void FourLinkPose_General(benchmark::State& state) {
  general_solver(state, testing::make_triangulated_rear());
}
BENCHMARK(FourLinkPose_General);

void FourLinkPose_HandWritten(benchmark::State& state) {
  const AxleModel axle = testing::make_triangulated_rear();
  const FourBars bars(axle);
  Eigen::Vector4d u(axle.p_VC.x(), axle.p_VC.y(), 0, 0);
  double z = 0;
  int n = 0;
  for (auto _ : state) {
    z = axle.p_VC.z() + path_heave(n++);
    bars.solve(z, 0.05, u);
    benchmark::DoNotOptimize(u);
  }
  check_misfit(state,
               misfit(axle, Vec3(u[0], u[1], z), rotation_from_yaw_pitch_roll(u[3], u[2], 0.05)));
}
BENCHMARK(FourLinkPose_HandWritten);

void FourLinkPose_Simbody(benchmark::State& state) {
  const AxleModel axle = testing::make_triangulated_rear();
  testing::SimbodyAxle peer(axle, false);
  Pose pose;
  int n = 0;
  for (auto _ : state) {
    pose = peer.solve(axle.p_VC.z() + path_heave(n++), 0.05, kAccuracy_m);
    benchmark::DoNotOptimize(pose);
  }
  check_misfit(state, misfit(axle, pose.p_AB, pose.R_AB));
}
BENCHMARK(FourLinkPose_Simbody);

void BushedFiveBarPose(benchmark::State& state) {
  general_solver(state, testing::make_parallel_rear());
}
BENCHMARK(BushedFiveBarPose);

void SweepWithAllNumbers(benchmark::State& state) {
  AxleModel axle = testing::make_triangulated_rear();
  testing::add_coils(axle, 40000, 0.5);
  const auto targets = make_targets(-0.1, 0.1, 41, -0.2, 0.2, 21);
  for (auto _ : state) {
    const auto sweep = sweep_axle(axle, {}, targets);
    if (!sweep || sweep->poses.size() != targets.size()) state.SkipWithError("poses are missing");
    benchmark::DoNotOptimize(sweep);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(targets.size()));
}
BENCHMARK(SweepWithAllNumbers)->Unit(benchmark::kMillisecond);

void SettleTruckFromDrawn(benchmark::State& state) {
  TruckModel truck;
  truck.axles = {testing::make_three_link_front(), testing::make_triangulated_rear()};
  for (auto& axle : truck.axles) testing::add_coils(axle, 40000, 0.49);
  truck.tyres = {{0.47, 300000}, {0.47, 300000}};
  truck.masses = {{1500, {-1.1, 0.02, 0.8}, -1}, {250, {0, 0, 0.45}, 0}, {220, {-2.6, 0, 0.45}, 1}};
  for (auto _ : state) {
    const auto settled = settle(truck, {{0.1, 0}, {0, 0}});
    if (!settled || settled->residual_N > 1e-6) state.SkipWithError("not at rest");
    benchmark::DoNotOptimize(settled);
  }
}
BENCHMARK(SettleTruckFromDrawn)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace rig::suspension
