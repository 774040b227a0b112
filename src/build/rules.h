#pragma once

#include <algorithm>
#include <array>
#include <limits>
#include <span>
#include <string_view>

#include "units/quantity.h"

/// What the description of the build file can say about a key besides its type.
namespace rig::build {

/// Nothing more is said of the key.
struct NoRule {};

/// The key may not be left out: there is no "unknown" for it and no harmless default.
struct Required {};

/// The whole numbers that are allowed.
struct Allowed {
  std::span<const int> values;
  bool required = false;  ///< As `Required`.
};

/// A map whose keys are themselves ids of the top-level map `target`.
struct KeysOf {
  std::string_view target;
};

/// Closed interval a quantity must lie in, SI.
struct Bounds {
  double min = -std::numeric_limits<double>::infinity();
  double max = std::numeric_limits<double>::infinity();
  bool above_min = false;  ///< The lower end itself is not allowed.
};

inline constexpr Bounds kPositive{.min = 0, .above_min = true};
inline constexpr Bounds kNotNegative{.min = 0};
inline constexpr Bounds kFraction{.min = 0, .max = 1};
/// No part of a truck is 50 m from its datum: a slipped unit is caught here.
inline constexpr Bounds kOnTruck{.min = -50, .max = 50};
inline constexpr Bounds kTilt{.min = -1.2, .max = 1.2};
/// A quarter turn either way.
inline constexpr Bounds kTurn{.min = -1.571, .max = 1.571};
/// Of anti-squat and anti-dive; "60" for "60 %" is caught here.
inline constexpr Bounds kAnti{.min = -10, .max = 10};

inline constexpr std::array kVersions{1};
inline constexpr std::array kFractionsOfInch{8, 16, 32, 64};
inline constexpr std::array kBoltCounts{1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 24};
inline constexpr std::array kCylinderCounts{1, 2, 3, 4, 5, 6, 8, 10, 12};
inline constexpr std::array kLegCounts{1, 2, 3, 4};
inline constexpr std::array kLeafCounts{1,  2,  3,  4,  5,  6,  7,  8,  9,  10,
                                        11, 12, 13, 14, 15, 16, 17, 18, 19, 20};

/// The sizes between which a value that is not zero can belong to a truck, SI. They hold besides
/// the bounds of the key, so that no value can overflow what is computed from it.
struct Scale {
  double least;
  double most;
};
inline constexpr Scale scale_of(units::Dimension dimension) {
  switch (dimension) {
    case units::Dimension::kLength:
      return {1e-6, 50};
    case units::Dimension::kMass:
      return {1e-6, 1e6};
    case units::Dimension::kForce:
      return {1e-6, 1e8};
    case units::Dimension::kAngle:
      return {1e-9, 7};
    case units::Dimension::kStiffness:
      return {1e-3, 1e10};
    case units::Dimension::kDamping:
      return {1e-3, 1e9};
    case units::Dimension::kTorque:
      return {1e-6, 1e8};
    case units::Dimension::kAngularStiffness:
      return {1e-6, 1e12};
    case units::Dimension::kVolume:
      return {1e-9, 1e3};
    case units::Dimension::kDensity:
      return {1e-2, 25e3};
    case units::Dimension::kPressure:
      return {1e-3, 1e12};
    case units::Dimension::kStress:
      return {1e-3, 1e13};
    case units::Dimension::kSpeed:
      return {1e-6, 1e3};
    case units::Dimension::kAngularSpeed:
      return {1e-4, 1e5};
    case units::Dimension::kGearRatio:
      return {1e-3, 1e3};
    case units::Dimension::kRatio:
      return {1e-9, 100};
  }
  return {};
}

/// What a key allows, the scale of its dimension included. Where nothing negative is allowed, a
/// value that is not zero must also be at least the scale's least.
inline constexpr Bounds bounds_of(units::Dimension dimension, const Bounds& key = {}) {
  const Scale scale = scale_of(dimension);
  return {.min = std::max(key.min, -scale.most),
          .max = std::min(key.max, scale.most),
          .above_min = key.above_min};
}
inline constexpr bool is_within(double si, units::Dimension dimension, const Bounds& key = {}) {
  const Bounds bounds = bounds_of(dimension, key);
  if (!(si >= bounds.min && si <= bounds.max)) return false;
  if (bounds.min < 0) return true;
  return si >= std::max(bounds.min, scale_of(dimension).least) || (si == 0 && !bounds.above_min);
}

}  // namespace rig::build
