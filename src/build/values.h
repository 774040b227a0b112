#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "base/nan.h"
#include "geometry/pose.h"
#include "units/quantity.h"

/// What the things of a build file are told by: quantities, ids, references and points.
namespace rig::build {

/// How a value is known.
enum class From { kDesign, kTape, kScale, kCatalogue, kEstimate };

/// A value with what is known about it. Unknown while `si` is NaN.
template <units::Dimension D>
struct Quantity {
  static constexpr units::Dimension kDimension = D;

  double si = kNaN;
  double plus_minus_si = kNaN;  ///< Half-width; NaN: not given.
  From from = From::kDesign;
  std::string note;

  bool known() const { return !std::isnan(si); }

  /// What is not known is alike.
  bool operator==(const Quantity& other) const {
    const auto alike = [](double a, double b) {
      return a == b || (std::isnan(a) && std::isnan(b));
    };
    return alike(si, other.si) && alike(plus_minus_si, other.plus_minus_si) && from == other.from &&
           note == other.note;
  }
};

using Length = Quantity<units::Dimension::kLength>;
using Mass = Quantity<units::Dimension::kMass>;
using Force = Quantity<units::Dimension::kForce>;
using Angle = Quantity<units::Dimension::kAngle>;
using Torque = Quantity<units::Dimension::kTorque>;
using Stiffness = Quantity<units::Dimension::kStiffness>;
using Damping = Quantity<units::Dimension::kDamping>;
using AngularStiffness = Quantity<units::Dimension::kAngularStiffness>;
using Volume = Quantity<units::Dimension::kVolume>;
using Density = Quantity<units::Dimension::kDensity>;
using Stress = Quantity<units::Dimension::kStress>;
using AngularSpeed = Quantity<units::Dimension::kAngularSpeed>;
using GearRatio = Quantity<units::Dimension::kGearRatio>;
using Ratio = Quantity<units::Dimension::kRatio>;

/// A thing with an id, as a member of the file's object of that name. Order is the file's order.
template <typename T>
struct Entry {
  std::string id;
  std::string path;  ///< JSON pointer of the thing in the file.
  T value;

  bool operator==(const Entry&) const = default;
};
template <typename T>
using Map = std::vector<Entry<T>>;

/// A reference to another thing by id; empty while not given.
struct Reference {
  std::string id;

  bool operator==(const Reference&) const = default;
};

/// A point as the shop measures it, on the truck as drawn (at design ride height).
struct Point {
  Length station;  ///< Behind the front-axle line: + aft.
  Length offset;   ///< From the centreline: + left.
  Length height;   ///< Above the floor.

  bool known() const { return station.known() && offset.known() && height.known(); }
  /// In chassis datum axes V: x = -station, y = offset, z = height. Requires `known()`.
  Vec3 p_VP() const { return {-station.si, offset.si, height.si}; }

  bool operator==(const Point&) const = default;
};

enum class End { kFront, kRear };
enum class Axis { kLengthwise, kCrosswise, kUpright };

/// In chassis datum axes V: forward, left or up.
inline Vec3 unit_vector(Axis axis) { return Vec3::Unit(static_cast<Eigen::Index>(axis)); }

/// The entry with this id, or null.
template <typename T>
const Entry<T>* find(const Map<T>& map, const std::string& id) {
  for (const auto& entry : map) {
    if (entry.id == id) return &entry;
  }
  return nullptr;
}

}  // namespace rig::build
