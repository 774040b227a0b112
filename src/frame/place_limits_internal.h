#pragma once

#include <vector>

#include "frame/worst_places.h"

namespace rig::frame {

/// Of a part's depth: how far a joint reaches, and what of it is rounding.
inline constexpr double kJointReach = 0.5, kReachRounding = 1e-6;

/// What beams do not know of at a place: where joints are near, where a box distorts.
class PlaceLimits {
 public:
  explicit PlaceLimits(const Model& model);

  double depth_m(int beam) const;
  /// From the nearest joint on the same member.
  double to_joint_m(const AlongBeam& place) const;
  /// Tells `near_joint` and `distorts` of a place whose stress is known.
  /// @param carried  What its beam carries in its case.
  void tell(const BeamForces& carried, WorstPlace& place) const;

 private:
  const Model& model_;
  std::vector<std::vector<double>> joints_;  ///< By member.
  std::vector<double> depths_m_;             ///< By section.
};

}  // namespace rig::frame
