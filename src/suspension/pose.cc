#include "suspension/pose.h"

#include <Eigen/LU>
#include <cmath>
#include <utility>

#include "base/require.h"
#include "suspension/elements.h"
#include "suspension/pose_numbers_internal.h"

namespace rig::suspension {
namespace {

constexpr int kMaxIterations = 25;
constexpr double kLastStep = 1e-8;  // m, rad: quadratic convergence squares it.
constexpr double kWildStep = 0.7;   // m, rad: no step of a continuous path is that long.

/// Solves a 4 x 4 system in place by elimination with row exchange; false when it is singular.
bool solve_4x4(double (&a)[4][5], double (&x)[4]) {
  for (int k = 0; k < 4; ++k) {
    int pivot = k;
    for (int i = k + 1; i < 4; ++i) {
      if (std::abs(a[i][k]) > std::abs(a[pivot][k])) pivot = i;
    }
    if (!(std::abs(a[pivot][k]) > 1e-14)) return false;
    if (pivot != k) std::swap(a[k], a[pivot]);
    const double inverse = 1.0 / a[k][k];
    for (int i = k + 1; i < 4; ++i) {
      const double factor = a[i][k] * inverse;
      for (int j = k + 1; j < 5; ++j) a[i][j] -= factor * a[k][j];
    }
    a[k][k] = inverse;
  }
  for (int k = 3; k >= 0; --k) {
    double sum = a[k][4];
    for (int j = k + 1; j < 4; ++j) sum -= a[k][j] * x[j];
    x[k] = sum * a[k][k];
  }
  return true;
}

}  // namespace

Linkage Linkage::make(const AxleModel& axle) {
  const auto bars = static_cast<Eigen::Index>(axle.bars.size());
  RIG_REQUIRE(axle.bars.size() <= kMaxBars);
  RIG_REQUIRE(axle.compliance_m_per_N.rows() == bars && axle.compliance_m_per_N.cols() == bars);
  Linkage linkage(axle);
  linkage.four_ideal_ = bars == 4 && axle.compliance_m_per_N.isZero(0) &&
                        axle.bush_moments.empty() && axle.leaf_halves.empty();
  if (linkage.four_ideal_) {
    for (std::size_t i = 0; i < 4; ++i) {
      const Bar& bar = axle.bars[i];
      auto& ideal = linkage.ideal_[i];
      for (int k = 0; k < 3; ++k) {
        ideal.P[k] = bar.p_VP[k];
        ideal.Q[k] = bar.p_AQ[k];
      }
      ideal.half_length_squared = 0.5 * bar.length_m * bar.length_m;
    }
  }
  return linkage;
}

LinkagePose Linkage::drawn() const {
  LinkagePose pose;
  pose.q = axle_.drawn();
  pose.bind_N = BarForces::Zero(static_cast<Eigen::Index>(axle_.bars.size()));
  return pose;
}

bool Linkage::solve(double z_m, double roll_rad, LinkagePose& pose) const {
  if (four_ideal_) return solve_four_ideal(z_m, roll_rad, pose.q);
  return solve_general(z_m, roll_rad, pose);
}

bool Linkage::solve_four_ideal(double z_m, double roll_rad, Vec6& q) const {
  const double cr = std::cos(roll_rad), sr = std::sin(roll_rad);
  double rolled[4][3];
  for (std::size_t i = 0; i < 4; ++i) {
    const auto& Q = ideal_[i].Q;
    rolled[i][0] = Q[0];
    rolled[i][1] = cr * Q[1] - sr * Q[2];
    rolled[i][2] = sr * Q[1] + cr * Q[2];
  }
  double x = q[kX], y = q[kY], pitch = q[kPitch], yaw = q[kYaw];
  for (int iteration = 0; iteration < kMaxIterations; ++iteration) {
    const double cp = std::cos(pitch), sp = std::sin(pitch);
    const double cy = std::cos(yaw), sy = std::sin(yaw);
    double system[4][5];
    for (std::size_t i = 0; i < 4; ++i) {
      const double pitched = cp * rolled[i][0] + sp * rolled[i][2];
      const double rx = cy * pitched - sy * rolled[i][1];
      const double ry = sy * pitched + cy * rolled[i][1];
      const double rz = cp * rolled[i][2] - sp * rolled[i][0];
      const auto& bar = ideal_[i];
      const double dx = x + rx - bar.P[0];
      const double dy = y + ry - bar.P[1];
      const double dz = z_m + rz - bar.P[2];
      // Half the squared length: d . dd, with dd = e_x, e_y, w_pitch x r, e_z x r.
      system[i][0] = dx;
      system[i][1] = dy;
      system[i][2] = (dx * cy + dy * sy) * rz - dz * (sy * ry + cy * rx);
      system[i][3] = dy * rx - dx * ry;
      system[i][4] = bar.half_length_squared - 0.5 * (dx * dx + dy * dy + dz * dz);
    }
    double step[4];
    if (!solve_4x4(system, step)) return false;
    x += step[0];
    y += step[1];
    pitch += step[2];
    yaw += step[3];
    const double size = std::max(std::max(std::abs(step[0]), std::abs(step[1])),
                                 std::max(std::abs(step[2]), std::abs(step[3])));
    if (!(size < kWildStep)) return false;
    if (size < kLastStep) {
      q << x, y, z_m, roll_rad, pitch, yaw;
      return true;
    }
  }
  return false;
}

bool Linkage::solve_general(double z_m, double roll_rad, LinkagePose& pose) const {
  pose.q[kZ] = z_m;
  pose.q[kRoll] = roll_rad;
  for (int iteration = 0; iteration < kMaxIterations; ++iteration) {
    const LinkageSystem system = calc_linkage_system(axle_, pose.q, pose.bind_N);
    const SmallVector step = system.matrix.partialPivLu().solve(-system.residual);
    if (!step.allFinite()) return false;
    for (int k = 0; k < 4; ++k) pose.q[kFree[static_cast<std::size_t>(k)]] += step[k];
    pose.bind_N += step.tail(step.size() - 4);
    const double size = step.head<4>().cwiseAbs().maxCoeff();
    if (!(size < kWildStep)) return false;
    if (size < kLastStep) return true;
  }
  return false;
}

double Linkage::assembly_sign(const Vec6& q) const {
  if (!four_ideal_) return 1;
  const AxleAxes axes = axes_from_coordinates(q);
  Eigen::Matrix4d J;
  for (int i = 0; i < 4; ++i) {
    const Jet length = calc_bar_length(axle_.bars[static_cast<std::size_t>(i)], axes);
    for (int k = 0; k < 4; ++k) J(i, k) = length.gradient[kFree[static_cast<std::size_t>(k)]];
  }
  return J.determinant();
}

LinkageSystem calc_linkage_system(const AxleModel& axle, const Vec6& q,
                                  const BarForces& tension_N) {
  return make_linkage_system(axle, calc_linkage_jets(axle, axes_from_coordinates(q)), tension_N);
}

LinkageSystem make_linkage_system(const AxleModel& axle, const LinkageJets& jets,
                                  const BarForces& tension_N) {
  const auto bars = static_cast<Eigen::Index>(axle.bars.size());
  Jet energy = jets.energy;
  LinkageSystem system;
  system.matrix.setZero(4 + bars, 4 + bars);
  system.held.setZero(4 + bars, 2);
  system.residual.setZero(4 + bars);
  for (Eigen::Index i = 0; i < bars; ++i) {
    const Bar& bar = axle.bars[static_cast<std::size_t>(i)];
    const Jet& length = jets.bar_lengths[static_cast<std::size_t>(i)];
    energy.gradient += tension_N[i] * length.gradient;
    energy.hessian += tension_N[i] * length.hessian;
    for (int k = 0; k < 4; ++k) {
      const double slope = length.gradient[kFree[static_cast<std::size_t>(k)]];
      system.matrix(4 + i, k) = system.matrix(k, 4 + i) = slope;
    }
    for (int h = 0; h < 2; ++h) {
      system.held(4 + i, h) = length.gradient[kHeld[static_cast<std::size_t>(h)]];
    }
    system.residual[4 + i] = length.value - bar.length_m;
  }
  system.matrix.bottomRightCorner(bars, bars) = -axle.compliance_m_per_N;
  system.residual.tail(bars) -= axle.compliance_m_per_N * tension_N;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    system.residual[row] = energy.gradient[kFree[i]];
    for (std::size_t k = 0; k < 4; ++k) {
      system.matrix(row, static_cast<Eigen::Index>(k)) = energy.hessian(kFree[i], kFree[k]);
    }
    for (std::size_t h = 0; h < 2; ++h) {
      system.held(row, static_cast<Eigen::Index>(h)) = energy.hessian(kFree[i], kHeld[h]);
    }
  }
  return system;
}

}  // namespace rig::suspension
