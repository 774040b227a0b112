// A powertrain on its mounts: rest under a load, and its six modes beside Eigen's general
// eigenvalue solver on the same matrices.

#include <benchmark/benchmark.h>

#include <Eigen/Dense>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "build/drivetrain_lookup.h"
#include "driveline/modes.h"
#include "driveline/support.h"
#include "geometry/cross.h"

namespace rig::driveline {
namespace {

/// Engine, gearbox and two cases on five mounts; with `bending`, each a beam.
CaseLine make_line(bool bending) {
  CaseLine line;
  const double lengths_m[] = {0.8, 0.65, 0.25, 0.4}, masses_kg[] = {340, 80, 40, 60};
  double front_m = 0;
  for (int i = 0; i < 4; ++i) {
    Case one{.id = "case", .p_VoF_V = {-front_m, 0, 0}, .mass_kg = masses_kg[i]};
    front_m += lengths_m[i];
    one.p_VoR_V = {-front_m, 0, 0};
    one.p_VoCm_V = 0.5 * (one.p_VoF_V + one.p_VoR_V) + Vec3(0, 0.01, 0.05);
    one.I_Cm_V = Vec3(0.03, 0.05, 0.05).asDiagonal() * masses_kg[i];
    if (bending) one.bending_Nm2 = 4e6;
    line.cases.push_back(one);
  }
  const auto add = [&](std::size_t on, double x, double y) {
    CaseMount mount{.on = on, .p_VoM_V = {x, y, -0.1}};
    mount.K_V = build::mount_stiffness(mount.axis_V, 300e3, 90e3, 90e3);
    line.mounts.push_back(mount);
  };
  for (const double y : {0.28, -0.28}) add(0, -0.35, y);
  add(1, -1.3, 0);
  for (const double y : {0.15, -0.15}) add(3, -1.9, y);
  return line;
}

void CasesUnderLoad(benchmark::State& state) {
  const CaseLine line = make_line(state.range(0) != 0);
  for (auto _ : state) {
    const auto rest = solve_cases(line, {.felt_V = {0, 0, -9.8}});
    if (!rest) state.SkipWithError("not held");
    benchmark::DoNotOptimize(rest);
  }
}
BENCHMARK(CasesUnderLoad)->Arg(0)->Arg(1)->ArgName("bending");

void SixModes(benchmark::State& state) {
  const CaseLine line = make_line(false);
  for (auto _ : state) {
    const auto modes = solve_modes(line);
    if (!modes) state.SkipWithError("no modes");
    benchmark::DoNotOptimize(modes);
  }
}
BENCHMARK(SixModes);

/// M^-1 K by the general solver, its matrices made anew each time as well.
void SixModes_EigenGeneral(benchmark::State& state) {
  const CaseLine line = make_line(false);
  double misfit_Hz = 0;
  for (auto _ : state) {
    const Vec3 middle = line.p_VoCm_V();
    Eigen::MatrixXd M = Eigen::MatrixXd::Zero(6, 6), K = M;
    M.topLeftCorner(3, 3) = line.mass_kg() * Mat3::Identity();
    M.bottomRightCorner(3, 3) = line.I_Cm_V();
    for (const CaseMount& mount : line.mounts) {
      Eigen::MatrixXd J(3, 6);
      J << Mat3::Identity(), -cross_matrix(mount.p_VoM_V - middle);
      K += J.transpose() * mount.K_V * J;
    }
    Eigen::EigenSolver<Eigen::MatrixXd> solver(M.inverse() * K);
    benchmark::DoNotOptimize(solver);
    misfit_Hz = std::sqrt(solver.eigenvalues().real().minCoeff()) / (2 * std::numbers::pi);
  }
  misfit_Hz -= solve_modes(line)->modes[0].frequency_Hz;
  if (std::abs(misfit_Hz) > 1e-6) state.SkipWithError("the two differ");
}
BENCHMARK(SixModes_EigenGeneral);

void BestSupport(benchmark::State& state) {
  CaseLine line = make_line(false);
  line.mounts.resize(3);
  const std::vector<CaseLoads> loads{{.felt_V = {0, 0, -9.8}}, {.felt_V = {0, 0, -29.4}}};
  for (auto _ : state) {
    const auto place = find_support_place(line, loads, 350e3);
    if (!place) state.SkipWithError("not held");
    benchmark::DoNotOptimize(place);
  }
}
BENCHMARK(BestSupport)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace rig::driveline
