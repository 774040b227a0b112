#pragma once

#include <array>
#include <string_view>

#include "units/quantity.h"

namespace rig::units {

/// A dimension as files, schema and interface name it.
struct DimensionKey {
  std::string_view key;
  Dimension dimension;
};
inline constexpr std::array<DimensionKey, 16> kDimensionKeys{{
    {"length", Dimension::kLength},
    {"mass", Dimension::kMass},
    {"force", Dimension::kForce},
    {"angle", Dimension::kAngle},
    {"stiffness", Dimension::kStiffness},
    {"damping", Dimension::kDamping},
    {"torque", Dimension::kTorque},
    {"angular_stiffness", Dimension::kAngularStiffness},
    {"volume", Dimension::kVolume},
    {"density", Dimension::kDensity},
    {"pressure", Dimension::kPressure},
    {"stress", Dimension::kStress},
    {"speed", Dimension::kSpeed},
    {"angular_speed", Dimension::kAngularSpeed},
    {"gear_ratio", Dimension::kGearRatio},
    {"ratio", Dimension::kRatio},
}};

inline constexpr std::string_view dimension_key(Dimension dimension) {
  for (const DimensionKey& known : kDimensionKeys) {
    if (known.dimension == dimension) return known.key;
  }
  return {};
}

}  // namespace rig::units
