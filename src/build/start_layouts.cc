#include <array>
#include <numbers>
#include <span>

#include "build/start_layouts_internal.h"
#include "units/factors.h"

namespace rig::build {
namespace {

using units::kInch_m;
constexpr double kTrackOfTable_in = 66;

/// Ride frequency of the body on a first spring: common practice, between a soft road car and a
/// loaded truck.
constexpr double kFrequency_Hz = 1.5;
constexpr double kCoilLength_m = 13 * kInch_m;
constexpr double kSolidShare = 0.45;  ///< Of the free length.
constexpr double kLeafHalf_m = 26 * kInch_m;
constexpr double kLeafArch_m = 2 * kInch_m;

/// Inches from the wheel centre: towards the middle of the truck, to the left at a track of 66 in,
/// and up.
struct Spot {
  double inward, left, up;
};

struct LinkSpots {
  const char* id;
  const char* label;
  const char* role;
  bool both_sides;
  Spot frame, axle;
};

constexpr LinkSpots kTrackBar{"track_bar", "Track bar",   "track_bar",
                              false,       {-6, 18, 5.5}, {-6, -19, 3.75}};
constexpr std::array kThreeLinks{
    LinkSpots{"lower", "Lower link", "lower", true, {39, 15, 3.5}, {2.25, 19, -2.25}},
    LinkSpots{"upper", "Upper link", "upper", false, {33, -14, 9.25}, {1.5, -11, 6.25}}, kTrackBar};
constexpr std::array kFourLinks{
    LinkSpots{"lower", "Lower link", "lower", true, {32, 17, 1.25}, {1, 19, -2.25}},
    LinkSpots{"upper", "Upper link", "upper", true, {28, 16, 7.75}, {1.5, 16, 5.5}}, kTrackBar};
constexpr std::array kTriangulated{
    LinkSpots{"lower", "Lower link", "lower", true, {41, 12, 3}, {2, 19.5, -2}},
    LinkSpots{"upper", "Upper link", "upper", true, {33, 17, 9}, {1, 4.5, 7.5}}};
constexpr std::array kRadiusArmBar{kTrackBar};

std::span<const LinkSpots> links_of(Layout layout) {
  switch (layout) {
    case Layout::kLeaves:
      return {};
    case Layout::kThreeLinks:
      return kThreeLinks;
    case Layout::kFourLinks:
      return kFourLinks;
    case Layout::kTriangulated:
      return kTriangulated;
    case Layout::kRadiusArms:
      return kRadiusArmBar;
  }
  return {};
}

Json place(const StartWriter& write, const StartAxle& axle, const Spot& spot) {
  const double inward = axle.end == End::kFront ? 1 : -1;
  return write.point(axle.station_m + inward * spot.inward * kInch_m,
                     spot.left / kTrackOfTable_in * axle.track_m,
                     axle.wheel_height_m + spot.up * kInch_m);
}

/// A rubber bush as such links often have; a layout with more links than it needs can't be without.
Json bushed(const StartWriter& write, Json at) {
  using units::Dimension;
  using units::N_per_m_from_lbf_per_inch;
  const double lb_ft_per_deg = units::kPoundForceFoot_Nm / units::kDegree_rad;
  return {{"at", std::move(at)},
          {"bushing",
           {{"radial", write.guess(N_per_m_from_lbf_per_inch(18000), Dimension::kStiffness)},
            {"axial", write.guess(N_per_m_from_lbf_per_inch(5000), Dimension::kStiffness)},
            {"conical", write.guess(20 * lb_ft_per_deg, Dimension::kAngularStiffness)},
            {"torsional", write.guess(5 * lb_ft_per_deg, Dimension::kAngularStiffness)}}}};
}

void add_links(const StartWriter& write, const StartAxle& axle, Json& group) {
  const bool needs_bushes = axle.layout == Layout::kFourLinks || axle.layout == Layout::kRadiusArms;
  const auto end = [&](const Spot& spot) {
    Json at = place(write, axle, spot);
    return needs_bushes ? bushed(write, std::move(at)) : Json{{"at", std::move(at)}};
  };
  for (const LinkSpots& link : links_of(axle.layout)) {
    Json entry{{"label", link.label}, {"role", link.role}};
    if (link.both_sides) entry["both_sides"] = true;
    entry["frame"] = end(link.frame);
    entry["axle"] = end(link.axle);
    group["links"][link.id] = std::move(entry);
  }
  if (axle.layout == Layout::kRadiusArms) {
    group["arms"]["radius_arm"] = {
        {"label", "Radius arm"},        {"kind", "radius_arm"},
        {"both_sides", true},           {"apex", end({40, 16, 4.25})},
        {"first", end({-3.25, 18, 1})}, {"second", end({3.25, 18, -0.5})}};
  }
}

void add_coil(const StartWriter& write, const StartAxle& axle, Json& group) {
  using units::Dimension;
  const double force_N = axle.sprung_corner_kg * units::kStandardGravity_m_per_s2;
  const double omega = 2 * std::numbers::pi * kFrequency_Hz;
  const double rate_N_per_m = axle.sprung_corner_kg * omega * omega;
  const double free_m = kCoilLength_m + force_N / rate_N_per_m;
  const Spot seat{0, 17.5, 2};
  const Spot upper{0, 17.5, seat.up + kCoilLength_m / kInch_m};
  group["coils"]["coil"] = {{"label", "Coil"},
                            {"both_sides", true},
                            {"upper", place(write, axle, upper)},
                            {"lower", place(write, axle, seat)},
                            {"free_length", write.guess_m(free_m)},
                            {"rate", write.guess(rate_N_per_m, Dimension::kStiffness)},
                            {"solid_length", write.guess_m(kSolidShare * free_m)}};
}

void add_leaf_pack(const StartWriter& write, const StartAxle& axle, Json& group) {
  using units::Dimension;
  const double force_N = axle.sprung_corner_kg * units::kStandardGravity_m_per_s2;
  const double omega = 2 * std::numbers::pi * kFrequency_Hz;
  const double rate_N_per_m = axle.sprung_corner_kg * omega * omega;
  const double inward = axle.end == End::kFront ? 1 : -1;
  const double half = kLeafHalf_m / kInch_m, arch = kLeafArch_m / kInch_m;
  const Spot seat{0, 20, 2.5};
  group["leaf_packs"]["leaf"] = {
      {"label", "Leaf pack"},
      {"both_sides", true},
      {"front_eye", place(write, axle, {-inward * half, seat.left, seat.up + arch})},
      {"rear_eye", place(write, axle, {inward * half, seat.left, seat.up + arch})},
      {"seat", place(write, axle, seat)},
      {"free_arch", write.guess_m(kLeafArch_m + force_N / rate_N_per_m)},
      {"rate", write.guess(rate_N_per_m, Dimension::kStiffness)},
      // A pack is some ten times as stiff sideways as it is upright: common practice.
      {"lateral_rate", write.guess(10 * rate_N_per_m, Dimension::kStiffness)}};
}

}  // namespace

const std::vector<std::pair<std::string, std::string>>& layout_words() {
  static const std::vector<std::pair<std::string, std::string>> words{
      {"leaves", "Leaf springs"},
      {"three_links", "Coils, three links and a track bar"},
      {"four_links", "Coils, four links and a track bar"},
      {"triangulated", "Coils, four links, the upper ones triangulated"},
      {"radius_arms", "Coils, radius arms and a track bar"}};
  return words;
}

Json StartWriter::guess(double si, units::Dimension dimension) const {
  return {{"value", units::print_quantity(si, dimension, choices_)}, {"from", "estimate"}};
}

Json StartWriter::measured_m(double length_m) const {
  return {{"value", units::print_quantity(length_m, units::Dimension::kLength, choices_)},
          {"from", "tape"}};
}

Json StartWriter::known(const std::string& text, std::string_view from) const {
  return {{"value", text}, {"from", from}};
}

Json StartWriter::point(double station_m, double offset_m, double height_m) const {
  return {{"station", guess_m(station_m)},
          {"offset", guess_m(offset_m)},
          {"height", guess_m(height_m)}};
}

void add_layout(const StartWriter& write, const StartAxle& axle, Json& group) {
  if (axle.layout == Layout::kLeaves) {
    add_leaf_pack(write, axle, group);
    return;
  }
  add_links(write, axle, group);
  add_coil(write, axle, group);
}

}  // namespace rig::build
