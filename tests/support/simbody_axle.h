#pragma once

#include <memory>

#include "suspension/model.h"

namespace rig::suspension::testing {

/// The linkage of an axle in Simbody, on a chain of six one-way joints whose coordinates are ours:
/// x, y, z, then yaw, pitch, roll. Bars are rods of fixed length; with `last_two_are_an_arm` the
/// last two bars are one A-arm: a body on a pin with a ball at its apex. Compiled as C++17, which
/// Simbody's headers need.
class SimbodyAxle {
 public:
  SimbodyAxle(const AxleModel& axle, bool last_two_are_an_arm);
  ~SimbodyAxle();
  SimbodyAxle(const SimbodyAxle&) = delete;
  SimbodyAxle& operator=(const SimbodyAxle&) = delete;

  /// Moves from the last pose to the given z of C and roll; returns the axle's pose in V.
  Pose solve(double z_m, double roll_rad, double accuracy);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace rig::suspension::testing
