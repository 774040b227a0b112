#pragma once

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "build/frame_parts.h"

/// What the parts of a frame say together: which rail stands where, what lies at a station, what is
/// in at which time.
namespace rig::build {

/// From a smaller to a larger station, m.
struct StationRange {
  double from_m = 0;
  double to_m = 0;

  bool holds(double station_m) const;
};
/// Ends may differ from what they should meet by as much as this: rounding of metric and inch
/// sizes.
inline constexpr double kStationRounding_m = 1e-6;

/// From a rail's first to its last point; none while one of the two is unknown.
std::optional<StationRange> station_range(const Rail& rail);
/// None while an end is unknown, or when they are the wrong way round.
std::optional<StationRange> station_range(const Length& from, const Length& to);
/// True when they share more than an end.
bool overlap(const StationRange& a, const StationRange& b);

/// A rail on one side of the truck.
struct RailSide {
  const Entry<Rail>* rail = nullptr;
  int sign = 1;  ///< +1: left.
};

/// The sides on which a rail stands: both, or that of its points' offsets.
std::vector<int> signs_of(const Rail& rail);

/// The rails that a crossmember joins, as far as they pass its station: those it names, or all.
std::vector<RailSide> joined_rails(const Frame& frame, const Crossmember& crossmember);

bool is_on(Side side, int sign);

/// True if a section of this shape has this size, by its key in the file.
bool has_size(SectionShape shape, std::string_view key);
bool is_tube(SectionShape shape);

/// Shape of a rail at a station; none while nothing is told of its section.
std::optional<SectionShape> shape_at(const Rail& rail, double station_m);

/// Sizes of a rail at a station; none while they are not told, and where they taper.
std::optional<SectionSizes> sizes_at(const Rail& rail, double station_m);

/// True unless one part has come out before the other can go in.
bool can_meet(Fate a, Fate b);

/// True of what stays or goes in.
bool is_planned(Fate fate);

/// Ids of the crossmembers and plates that are in.
using PartsIn = std::set<std::string>;

/// As the truck came.
PartsIn donor_parts(const Frame& frame);
/// As it is planned.
PartsIn planned_parts(const Frame& frame);
/// In at the end of the first `count` stages.
PartsIn parts_after(const Frame& frame, std::size_t count);

}  // namespace rig::build
