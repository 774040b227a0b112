#pragma once

#include <span>

#include "driveline/cases.h"

namespace rig::driveline {

/// What hangs on a hoist.
struct Hung {
  double mass_kg = 0;
  Vec3 p_VoCm_V = Vec3::Zero();
};

/// @param cases  Of the line, by index; at least one.
Hung hang(const CaseLine& line, std::span<const std::size_t> cases);

/// Pull in each leg of a sling over its share of the weight: 1 / sin of its angle from level.
/// @param angle_rad  More than 0, at most a quarter turn.
/// @source ASME B30.9, load-angle tables.
double calc_sling_factor(double angle_rad);

/// How far a hung thing tips: the hook comes to stand over its mass centre.
/// @param offset_m  Of the mass centre from under the hook.
/// @param depth_m   Of the mass centre below the hook, more than 0.
double calc_hang_tilt_rad(double offset_m, double depth_m);

}  // namespace rig::driveline
