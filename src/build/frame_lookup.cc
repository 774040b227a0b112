#include "build/frame_lookup.h"

#include <algorithm>
#include <array>

namespace rig::build {

bool StationRange::holds(double station_m) const {
  return station_m >= from_m - kStationRounding_m && station_m <= to_m + kStationRounding_m;
}

std::optional<StationRange> station_range(const Rail& rail) {
  if (rail.line.size() < 2) return std::nullopt;
  return station_range(rail.line.front().station, rail.line.back().station);
}

std::optional<StationRange> station_range(const Length& from, const Length& to) {
  if (!(from.si < to.si)) return std::nullopt;
  return StationRange{from.si, to.si};
}

bool overlap(const StationRange& a, const StationRange& b) {
  return std::min(a.to_m, b.to_m) - std::max(a.from_m, b.from_m) > kStationRounding_m;
}

std::vector<int> signs_of(const Rail& rail) {
  if (rail.both_sides) return {1, -1};
  for (const Point& point : rail.line) {
    if (point.offset.known()) return {point.offset.si < 0 ? -1 : 1};
  }
  return {};
}

std::vector<RailSide> joined_rails(const Frame& frame, const Crossmember& crossmember) {
  const auto& joins = crossmember.joins;
  std::vector<RailSide> joined;
  for (const auto& rail : frame.rails) {
    const bool named = std::any_of(joins.begin(), joins.end(),
                                   [&](const Reference& use) { return use.id == rail.id; });
    const auto range = station_range(rail.value);
    if (!(named || joins.empty()) || !range || !range->holds(crossmember.at.station.si)) continue;
    for (const int sign : signs_of(rail.value)) joined.push_back({&rail, sign});
  }
  return joined;
}

bool is_on(Side side, int sign) {
  return side == Side::kBoth || (side == Side::kLeft) == (sign > 0);
}

bool has_size(SectionShape shape, std::string_view key) {
  struct Sizes {
    SectionShape shape;
    std::array<std::string_view, 5> keys;
  };
  static constexpr std::array kSizes{
      Sizes{SectionShape::kChannel,
            {"depth", "flange", "thickness", "flange_thickness", "inside_radius"}},
      Sizes{SectionShape::kHat, {"depth", "crown", "brim", "thickness", "inside_radius"}},
      Sizes{SectionShape::kRectangularTube, {"depth", "width", "thickness", "outside_radius"}},
      Sizes{SectionShape::kRoundTube, {"outside_diameter", "thickness"}},
      Sizes{SectionShape::kPlate, {"width", "thickness"}},
      Sizes{SectionShape::kAngle, {"level_leg", "upright_leg", "thickness", "inside_radius"}}};
  const auto found = std::find_if(kSizes.begin(), kSizes.end(),
                                  [shape](const Sizes& sizes) { return sizes.shape == shape; });
  return std::find(found->keys.begin(), found->keys.end(), key) != found->keys.end();
}

bool is_tube(SectionShape shape) {
  return shape == SectionShape::kRoundTube || shape == SectionShape::kRectangularTube;
}

std::optional<SectionShape> shape_at(const Rail& rail, double station_m) {
  for (const auto& stretch : rail.stretches) {
    const auto range = station_range(stretch.value.from, stretch.value.to);
    if (range && range->holds(station_m) && stretch.value.section) {
      return stretch.value.section->shape;
    }
  }
  if (!rail.section) return std::nullopt;
  return rail.section->shape;
}

std::optional<SectionSizes> sizes_at(const Rail& rail, double station_m) {
  for (const auto& stretch : rail.stretches) {
    const auto range = station_range(stretch.value.from, stretch.value.to);
    if (!range || !range->holds(station_m) || !stretch.value.section) continue;
    if (stretch.value.section_end) return std::nullopt;
    return stretch.value.section;
  }
  return rail.section;
}

bool can_meet(Fate a, Fate b) {
  const auto either = [&](Fate x, Fate y) { return (a == x && b == y) || (a == y && b == x); };
  return !either(Fate::kComesOut, Fate::kGoesIn);
}

bool is_planned(Fate fate) { return fate == Fate::kStays || fate == Fate::kGoesIn; }

namespace {

template <typename IsIn>
PartsIn parts_where(const Frame& frame, IsIn is_in) {
  PartsIn parts;
  for (const auto& crossmember : frame.crossmembers) {
    if (is_in(crossmember.value.fate)) parts.insert(crossmember.id);
  }
  for (const auto& plate : frame.plates) {
    if (is_in(plate.value.fate)) parts.insert(plate.id);
  }
  return parts;
}

}  // namespace

PartsIn donor_parts(const Frame& frame) {
  return parts_where(frame,
                     [](Fate fate) { return fate == Fate::kStays || fate == Fate::kComesOut; });
}

PartsIn planned_parts(const Frame& frame) { return parts_where(frame, is_planned); }

PartsIn parts_after(const Frame& frame, std::size_t count) {
  PartsIn parts = donor_parts(frame);
  for (std::size_t i = 0; i < count && i < frame.stages.size(); ++i) {
    for (const Reference& part : frame.stages[i].value.take_out) parts.erase(part.id);
    for (const Reference& part : frame.stages[i].value.put_in) parts.insert(part.id);
  }
  return parts;
}

}  // namespace rig::build
