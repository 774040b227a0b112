#pragma once

#include <optional>

#include "base/result.h"
#include "weigh/loads.h"

/// Private to `weigh`.
namespace rig::weigh::internal {

/// weigh.wheelbase_not_positive, or nothing.
inline std::optional<Failure> find_fault_of_wheelbase(const Footing& footing) {
  if (footing.wheelbase_m() > 0) return std::nullopt;
  return fail("weigh.wheelbase_not_positive", "", "The rear axle line is not behind the front one.",
              "Stations count from the front axle, + aft: the rear axle's must be the greater.");
}

/// weigh.wheelbase_not_positive, weigh.track_not_positive, or nothing.
inline std::optional<Failure> find_fault_of_footing(const Footing& footing) {
  if (auto fault = find_fault_of_wheelbase(footing)) return fault;
  if (footing.front_track_m > 0 && footing.rear_track_m > 0) return std::nullopt;
  return fail("weigh.track_not_positive", "", "A track is not a positive length.",
              "Give the distance between the tyre centres of each axle.");
}

}  // namespace rig::weigh::internal
