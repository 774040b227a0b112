#pragma once

#include <array>

#include "driveline/cases.h"

namespace rig::driveline {

/// The ways in which a powertrain moves as one stiff body: along x, y, z and about x, y, z.
inline constexpr std::size_t kWays = 6;

struct RigidMode {
  double frequency_Hz = 0;
  /// [u; theta] at the mass centre of all, in V axes; its kinetic energy at 1 rad/s is 1/2.
  Eigen::Matrix<double, 6, 1> shape = Eigen::Matrix<double, 6, 1>::Zero();
  /// Share of its kinetic energy in each way, together 1. A way's share counts half of what it has
  /// together with another. [JeongSingh00] eq. 17.
  std::array<double, kWays> energy_share{};
};

struct PowertrainModes {
  Vec3 p_VoCm_V = Vec3::Zero();
  std::array<RigidMode, kWays> modes;  ///< Rising.
  /// About which the free powertrain would begin to turn under a torque along x; of length 1,
  /// pointing forward. [JeongSingh00] eq. 1.
  Vec3 torque_roll_axis_V = Vec3::UnitX();
  double torque_roll_angle_rad = 0;  ///< Between it and x.
  std::size_t roll_mode = 0;         ///< The one with most of its energy in turning about x.
};

/// Undamped modes of the powertrain as one stiff body on its mounts, stops clear of touch.
///
/// M w = K u about the mass centre; of the frame, what it gives counts and what it weighs does not.
/// @errors driveline.no_mounts, driveline.not_held, driveline.no_inertia (a case whose size is not
///         known has none of its own, and all in one line turn about it freely).
Result<PowertrainModes> solve_modes(const CaseLine& line);

/// Rate at which a four-stroke engine fires, Hz. [references EM-09]
double calc_firing_frequency_Hz(int cylinders, double speed_rad_per_s);

/// Share of an unbalanced force that gets through an undamped mount. [Harris] ch. 2.
double calc_transmissibility(double frequency_Hz, double natural_Hz);

}  // namespace rig::driveline
