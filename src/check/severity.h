#pragma once

/// How hard the load cases are, as shares of gravity; all common practice for trucks that leave the
/// road.
namespace rig::check {

inline constexpr double kBump = 3;
inline constexpr double kBraking = 0.8;
inline constexpr double kCornering = 0.7;

}  // namespace rig::check
