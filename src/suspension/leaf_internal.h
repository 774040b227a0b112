#pragma once

#include <vector>

#include "suspension/model.h"

namespace rig::suspension {

/// A leaf pack as drawn, in V.
struct LeafPlaces {
  Vec3 front_eye = Vec3::Zero();
  Vec3 rear_eye = Vec3::Zero();
  Vec3 seat = Vec3::Zero();
  Vec3 p_VC = Vec3::Zero();
  double free_arch_m = 0;  ///< Eye line above the seat, unloaded.
  double rate_N_per_m = 0;
  double lateral_rate_N_per_m = 0;
  bool shackle_in_front = false;
};

/// What a leaf pack becomes: one bar at the fixed eye, and two halves (named ".front", ".rear").
struct LeafElements {
  Vec3 p_VEye = Vec3::Zero();    ///< Fixed eye: the bar's frame end.
  Vec3 p_VPivot = Vec3::Zero();  ///< The bar's axle end as drawn.
  std::vector<LeafHalf> halves;
};

/// The three-link equivalent: the fixed-eye half guides the axle as a bar of 0.75 of the half's
/// length from the eye, hinged at a quarter of it from the seat; each half is an upright cantilever
/// spring of rate K / length^3, with K such that the two give the pack's rate with the seat free to
/// turn: K = R a^2 b^2 / (a + b). Their two forces balance about C as drawn.
///
/// @source SAE HS-788 three-link equivalent (0.75, from memory); statics for the halves' rates.
LeafElements calc_leaf_elements(const LeafPlaces& places);

}  // namespace rig::suspension
