#pragma once

#include "check/finding.h"

/// What ride numbers are held against. [Gillespie] ch. 5, from memory: light truck and off-road.
namespace rig::check {

inline constexpr Band kFrequency_Hz{.low = 1.2, .high = 2.0, .close = 0.02, .stops = false};
/// Rear over front: a rear end 10 to 20 % quicker rides flat.
inline constexpr Band kFlatRide{.low = 1.10, .high = 1.20, .close = 0.005, .stops = false};
inline constexpr Band kDamping{.low = 0.2, .high = 0.4, .close = 0.01, .stops = false};

}  // namespace rig::check
