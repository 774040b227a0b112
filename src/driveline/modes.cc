#include "driveline/modes.h"

#include <Eigen/Dense>
#include <cmath>
#include <numbers>

#include "driveline/carried_mounts_internal.h"
#include "geometry/matrix.h"

namespace rig::driveline {
namespace {

using Mat6 = Eigen::Matrix<double, 6, 6>;

Mat6 mass_matrix(const CaseLine& line) {
  Mat6 M = Mat6::Zero();
  M.topLeftCorner<3, 3>() = line.mass_kg() * Mat3::Identity();
  M.bottomRightCorner<3, 3>() = line.I_Cm_V();
  return M;
}

Mat6 stiffness_matrix(const CaseLine& line, const Vec3& p_VoCm_V) {
  const CarriedMounts mounts(line, {}, nullptr);
  const Eigen::MatrixXd J = mount_travel_matrix(line, p_VoCm_V);
  Mat6 K = Mat6::Zero();
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    for (std::size_t by = 0; by < line.mounts.size(); ++by) {
      if (by != m && !mounts.are_coupled()) continue;
      K += J.middleRows<3>(static_cast<Eigen::Index>(3 * m)).transpose() * mounts.stiffness(m, by) *
           J.middleRows<3>(static_cast<Eigen::Index>(3 * by));
    }
  }
  return K;
}

}  // namespace

Result<PowertrainModes> solve_modes(const CaseLine& line) {
  // The same test of what holds the cases as for their rest.
  const auto rest = solve_cases(line, {});
  if (!rest) return Failure{rest.error()};
  const Mat6 M = mass_matrix(line);
  const Mat3 inertia = M.bottomRightCorner<3, 3>();
  constexpr double kNoInertia_m2 = 1e-4;  // (10 mm)^2: of masses that all stand on one line
  if (find_axis_values(inertia)[0] < kNoInertia_m2 * line.mass_kg()) {
    return fail("driveline.no_inertia", "/drivetrain/segments",
                "the cases have no size, so nothing tells how hard they are to turn",
                "give the masses of the cases their sizes");
  }
  PowertrainModes out{.p_VoCm_V = line.p_VoCm_V()};
  const Mat6 K = stiffness_matrix(line, out.p_VoCm_V);
  const Eigen::GeneralizedSelfAdjointEigenSolver<Mat6> solved(K, M);
  for (std::size_t i = 0; i < kWays; ++i) {
    const auto column = static_cast<Eigen::Index>(i);
    RigidMode& mode = out.modes[i];
    mode.frequency_Hz =
        std::sqrt(std::max(solved.eigenvalues()[column], 0.0)) / (2 * std::numbers::pi);
    mode.shape = solved.eigenvectors().col(column);
    const Eigen::Matrix<double, 6, 1> momentum = M * mode.shape;
    for (std::size_t way = 0; way < kWays; ++way) {
      const auto w = static_cast<Eigen::Index>(way);
      mode.energy_share[way] = mode.shape[w] * momentum[w];
    }
    if (mode.energy_share[3] > out.modes[out.roll_mode].energy_share[3]) out.roll_mode = i;
  }
  Vec3 turn = inertia.ldlt().solve(Vec3::UnitX().eval()).normalized();
  out.torque_roll_axis_V = turn.x() < 0 ? Vec3(-turn) : turn;
  out.torque_roll_angle_rad =
      std::atan2(out.torque_roll_axis_V.tail<2>().norm(), out.torque_roll_axis_V.x());
  return out;
}

double calc_firing_frequency_Hz(int cylinders, double speed_rad_per_s) {
  return cylinders * speed_rad_per_s / (4 * std::numbers::pi);
}

double calc_transmissibility(double frequency_Hz, double natural_Hz) {
  const double ratio = frequency_Hz / natural_Hz;
  return 1 / std::abs(1 - ratio * ratio);
}

}  // namespace rig::driveline
