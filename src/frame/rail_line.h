#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "build/frame_lookup.h"
#include "geometry/pose.h"

namespace rig::frame {

/// A rail's reference line on one side of the truck: the middle of its web at mid-depth.
struct RailLine {
  const build::Entry<build::Rail>* rail = nullptr;
  int sign = 1;               ///< +1: left.
  std::vector<Vec3> p_VoP_V;  ///< Corners, from front to rear.
  std::string words;          ///< "left frame rail"

  double front_m() const { return -p_VoP_V.front().x(); }  ///< Station.
  double rear_m() const { return -p_VoP_V.back().x(); }
  bool passes(double station_m) const;
  /// Which way its channels lie, looked at from behind.
  bool opens_to_the_right() const {
    return (rail->value.opens == build::RailOpening::kIn) == (sign > 0);
  }

  /// The line at a station between its ends.
  Vec3 at(double station_m) const;
};

/// @errors  frame.unknown_place (each coordinate that is not known), frame.short_line (fewer than
///          two points).
Result<RailLine> make_rail_line(const build::Entry<build::Rail>& rail, int sign);

/// What the shop calls a thing, without a capital: "gearbox tube".
std::string shop_words(const std::string& label, const std::string& id);
/// "left frame rail"; of a thing that is only on one side just its words.
std::string side_words(bool both_sides, int sign, const std::string& words);

}  // namespace rig::frame
