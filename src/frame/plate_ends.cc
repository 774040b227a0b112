#include "frame/plate_ends.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "frame/rail_line.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

constexpr double kRootGap_m = units::kInch_m / 16;
constexpr double kLeastSetback_m = units::kInch_m / 8;
/// Of a rail's depth: how far from where it is an end is moved at most.
constexpr double kFurthestEnd = 3;

double or_nothing(const build::Length& length) { return length.known() ? length.si : 0; }

/// How far a crossmember's section reaches forward and rearward of its station.
struct Reach {
  double ahead_m = 0;
  double behind_m = 0;
};

Reach reach_of(const build::SectionSizes& sizes, const std::optional<build::Facing>& opens) {
  const auto even = [](double width_m) { return Reach{width_m / 2, width_m / 2}; };
  const auto flanged = [&](double flange_m, double height_m) {
    const double half_m = or_nothing(sizes.thickness) / 2;
    if (opens == build::Facing::kForward) return Reach{flange_m - half_m, half_m};
    if (opens == build::Facing::kRearward) return Reach{half_m, flange_m - half_m};
    return even(height_m);
  };
  switch (sizes.shape) {
    case build::SectionShape::kRoundTube:
      return even(or_nothing(sizes.outside_diameter));
    case build::SectionShape::kRectangularTube:
      return even(or_nothing(sizes.width));
    case build::SectionShape::kHat:
      return even(or_nothing(sizes.crown) + 2 * or_nothing(sizes.brim));
    case build::SectionShape::kChannel:
      return flanged(or_nothing(sizes.flange), or_nothing(sizes.depth));
    case build::SectionShape::kAngle:
      return flanged(or_nothing(sizes.level_leg), 0);
    case build::SectionShape::kPlate:
      return even(or_nothing(sizes.thickness));
  }
  return {};
}

/// How far a station is from a weld; 0 on it.
double weld_distance_m(const build::StationRange& weld, double station_m) {
  return std::max({0.0, weld.from_m - station_m, station_m - weld.to_m});
}

/// Crossmembers that are in, joined to a rail on one of some sides.
std::vector<const build::Entry<build::Crossmember>*> list_joined_to(const build::Frame& frame,
                                                                    const Selection& in,
                                                                    const std::string& rail_path,
                                                                    const std::vector<int>& signs) {
  std::vector<const build::Entry<build::Crossmember>*> out;
  for (const auto& part : frame.crossmembers) {
    if (!in.contains(part.id) || !part.value.at.station.known()) continue;
    const auto joined = build::joined_rails(frame, part.value);
    const bool meets = std::any_of(joined.begin(), joined.end(), [&](const build::RailSide& one) {
      return one.rail->path == rail_path &&
             std::find(signs.begin(), signs.end(), one.sign) != signs.end();
    });
    if (meets) out.push_back(&part);
  }
  return out;
}

/// Open channel just beyond a station, on any of the sides.
bool goes_on_open(const build::Frame& frame, const Selection& in,
                  const build::Entry<build::Rail>& rail, const std::vector<int>& signs,
                  double beyond_m) {
  const auto range = build::station_range(rail.value);
  const auto shape = build::shape_at(rail.value, beyond_m);
  if (!range || !range->holds(beyond_m) || shape != build::SectionShape::kChannel) return false;
  return std::any_of(signs.begin(), signs.end(),
                     [&](int sign) { return !is_plated(frame, in, rail.id, sign, beyond_m); });
}

/// Clear depth between the flanges, or outside depth; NaN: not known.
double plated_depth_m(const build::Rail& rail, double station_m, bool over) {
  const auto sizes = build::sizes_at(rail, station_m);
  if (!sizes) return kNaN;
  const build::Length& flange_t =
      sizes->flange_thickness.known() ? sizes->flange_thickness : sizes->thickness;
  return over ? sizes->depth.si : sizes->depth.si - 2 * flange_t.si;
}

}  // namespace

double rail_depth_m(const build::Rail& rail, double station_m) {
  for (const auto& stretch : rail.stretches) {
    const auto range = build::station_range(stretch.value.from, stretch.value.to);
    if (!range || !range->holds(station_m) || !stretch.value.section) continue;
    const double depth_m = stretch.value.section->depth.si;
    return stretch.value.section_end ? std::fmax(depth_m, stretch.value.section_end->depth.si)
                                     : depth_m;
  }
  return rail.section ? rail.section->depth.si : kNaN;
}

bool is_plated(const build::Frame& frame, const Selection& in, const std::string& rail_id, int sign,
               double station_m) {
  return std::any_of(frame.plates.begin(), frame.plates.end(), [&](const auto& plate) {
    const auto range = build::station_range(plate.value.from, plate.value.to);
    return in.contains(plate.id) && plate.value.rail.id == rail_id &&
           build::is_on(plate.value.side, sign) && range && range->holds(station_m);
  });
}

build::StationRange calc_weld_range(const build::Crossmember& crossmember) {
  const double station_m = crossmember.at.station.si;
  if (!crossmember.section) return {station_m, station_m};
  const Reach reach = reach_of(*crossmember.section, crossmember.opens);
  return {station_m - reach.ahead_m, station_m + reach.behind_m};
}

std::vector<PlateEnd> list_plate_ends(const build::Build& build, const Selection& in) {
  std::vector<PlateEnd> ends;
  for (const auto& plate : build.frame.plates) {
    const auto range = build::station_range(plate.value.from, plate.value.to);
    const auto* rail = build::find(build.frame.rails, plate.value.rail.id);
    if (!in.contains(plate.id) || !range || rail == nullptr) continue;
    std::vector<int> signs = build::signs_of(rail->value);
    std::erase_if(signs, [&](int sign) { return !build::is_on(plate.value.side, sign); });
    for (const bool front : {true, false}) {
      PlateEnd end{.plate_path = plate.path,
                   .rail_path = rail->path,
                   .front = front,
                   .station_m = front ? range->from_m : range->to_m,
                   .signs = signs};
      const double beyond_m = end.station_m + (front ? -4 : 4) * build::kStationRounding_m;
      if (!goes_on_open(build.frame, in, *rail, signs, beyond_m)) continue;
      end.depth_m = rail_depth_m(rail->value, beyond_m);
      for (const auto* part : list_joined_to(build.frame, in, rail->path, signs)) {
        const double away_m = weld_distance_m(calc_weld_range(part->value), end.station_m);
        if (end.nearest != nullptr && !(away_m < end.to_weld_m)) continue;
        end.nearest = part;
        end.to_weld_m = away_m;
      }
      ends.push_back(std::move(end));
    }
  }
  return ends;
}

std::optional<double> find_clear_end(const build::Build& build, const Selection& in,
                                     const PlateEnd& end, std::span<const double> avoid_m,
                                     double clear_m, double step_m) {
  const auto plate = std::find_if(build.frame.plates.begin(), build.frame.plates.end(),
                                  [&](const auto& one) { return one.path == end.plate_path; });
  const auto rail = std::find_if(build.frame.rails.begin(), build.frame.rails.end(),
                                 [&](const auto& one) { return one.path == end.rail_path; });
  if (plate == build.frame.plates.end() || rail == build.frame.rails.end()) return std::nullopt;
  Selection others = in;
  others.erase(plate->id);
  const auto joined = list_joined_to(build.frame, in, end.rail_path, end.signs);
  const auto clear = [&](double station_m) {
    const double least_m = clear_m - build::kStationRounding_m;
    return goes_on_open(build.frame, others, *rail, end.signs, station_m) &&
           std::all_of(joined.begin(), joined.end(),
                       [&](const auto* part) {
                         return weld_distance_m(calc_weld_range(part->value), station_m) >= least_m;
                       }) &&
           std::all_of(avoid_m.begin(), avoid_m.end(),
                       [&](double station) { return std::abs(station - station_m) >= least_m; });
  };
  const double outward = end.front ? -1 : 1;
  const double other_end_m = end.front ? plate->value.to.si : plate->value.from.si;
  for (int i = 1; i * step_m <= kFurthestEnd * end.depth_m; ++i) {
    for (const double way : {outward, -outward}) {
      const double station_m = end.station_m + way * i * step_m;
      const double length_m = outward * (station_m - other_end_m);
      if (length_m >= clear_m && clear(station_m)) return station_m;
    }
  }
  return std::nullopt;
}

std::optional<PlateCut> calc_plate_cut(const build::Build& build,
                                       const build::Entry<build::BoxingPlate>& plate) {
  const build::BoxingPlate& value = plate.value;
  const auto* rail = build::find(build.frame.rails, value.rail.id);
  const auto range = build::station_range(value.from, value.to);
  if (rail == nullptr || !range || !value.thickness.known()) return std::nullopt;
  const auto line = make_rail_line(*rail, 1);
  if (!line || !line->passes(range->from_m) || !line->passes(range->to_m)) return std::nullopt;
  const bool over = value.fit == build::PlateFit::kOverTips;
  PlateCut cut{.less_m = over ? 2 * std::max(value.thickness.si, kLeastSetback_m) : kRootGap_m};
  cut.width_front_m = plated_depth_m(rail->value, range->from_m, over) - cut.less_m;
  cut.width_rear_m = plated_depth_m(rail->value, range->to_m, over) - cut.less_m;
  if (!(cut.width_front_m > 0) || !(cut.width_rear_m > 0)) return std::nullopt;
  Vec3 before_V = line->at(range->from_m);
  for (const Vec3& corner_V : line->p_VoP_V) {
    if (!(-corner_V.x() > range->from_m) || !(-corner_V.x() < range->to_m)) continue;
    cut.length_m += (corner_V - before_V).norm();
    before_V = corner_V;
  }
  cut.length_m += (line->at(range->to_m) - before_V).norm();
  return cut;
}

}  // namespace rig::frame
