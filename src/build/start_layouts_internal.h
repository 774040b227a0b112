#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "build/types.h"
#include "units/quantity.h"

/// Where the parts of a first guess go. Common practice: proportions that such axles are often
/// built with, to be measured and typed over.
namespace rig::build {

using Json = nlohmann::ordered_json;

/// What an axle is hung on.
enum class Layout { kLeaves, kThreeLinks, kFourLinks, kTriangulated, kRadiusArms };

/// The words of the questions for a layout: value and label.
const std::vector<std::pair<std::string, std::string>>& layout_words();

/// One axle of a new build, as answered or guessed; SI.
struct StartAxle {
  End end = End::kFront;
  Layout layout = Layout::kLeaves;
  double station_m = 0;
  double wheel_height_m = 0;
  double track_m = 0;
  double sprung_corner_kg = 0;  ///< On one spring.
};

/// Writes quantities for a new build.
class StartWriter {
 public:
  explicit StartWriter(bool metric) : choices_{.metric = metric, .fraction_of_inch = 16} {}

  /// A value that nobody has measured.
  Json guess(double si, units::Dimension dimension) const;
  /// Half or double of what was measured.
  Json measured_m(double length_m) const;
  Json guess_m(double length_m) const { return guess(length_m, units::Dimension::kLength); }
  /// @param from  Where an answer comes from.
  Json known(const std::string& text, std::string_view from) const;
  Json point(double station_m, double offset_m, double height_m) const;

 private:
  units::UnitChoices choices_;
};

/// Adds what hangs the axle to its group: links, arms, coils or leaf packs. The springs carry their
/// corner at the drawn height.
void add_layout(const StartWriter& write, const StartAxle& axle, Json& group);

}  // namespace rig::build
