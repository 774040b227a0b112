#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "check/report.h"

/// Shop words for parts and places.
namespace rig::check {

/// Advice where a value is inside its limit but close to it.
inline constexpr const char* kInside = "Inside the limit: nothing needed, keep an eye on it.";
/// Beginning of the advice where no part that can be had would do.
inline constexpr const char* kNotPossible = "The travel asked is not possible with this layout";

std::vector<PartLabel> collect_labels(const build::Axle& axle);

/// "left lower link" from the label "Lower link" and the element name "lower.left"; the id where
/// there is no label.
std::string part_words(const AxleReport& axle, const std::string& path, const std::string& name);

/// With a capital first letter.
std::string capitalised(std::string text);
/// With a small first letter, unless the second is a capital too ("ATF cooler").
std::string uncapitalised(std::string text);

/// "front axle": the end, whatever the label says.
std::string axle_words(const AxleReport& axle);

inline std::string_view side_words(int side) {
  return side > 0 ? "left" : side < 0 ? "right" : "middle";
}

/// "right rear wheel": the first to leave the ground.
std::string lifted_wheel_words(const suspension::TruckModel& truck,
                               const suspension::Articulation& found);

/// "a, b and c".
std::string join_words(const std::vector<std::string>& words);

}  // namespace rig::check
