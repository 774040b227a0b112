#include "frame/open_stretches.h"

#include <algorithm>

#include "frame/plate_ends.h"

namespace rig::frame {
namespace {

/// Shorter than this many rail depths nothing is left of a box but its ends.
constexpr double kLeastBox = 2 * kReachLostMost;

/// Where open stretches may end, each with what it can be built on to at either side.
struct NaturalStation {
  double before_m = 0;  ///< Where a stretch in front of it ends.
  double behind_m = 0;  ///< Where one behind it begins.
};

std::vector<NaturalStation> list_natural_stations(const build::Build& build, const Selection& in) {
  std::vector<NaturalStation> stations;
  const auto add = [&](const build::Length& station) {
    if (station.known()) stations.push_back({station.si, station.si});
  };
  for (const auto& rail : build.frame.rails) {
    if (rail.value.line.empty()) continue;
    add(rail.value.line.front().station);
    add(rail.value.line.back().station);
    for (const auto& stretch : rail.value.stretches) {
      add(stretch.value.from);
      add(stretch.value.to);
    }
  }
  for (const auto& plate : build.frame.plates) {
    if (!in.contains(plate.id)) continue;
    add(plate.value.from);
    add(plate.value.to);
  }
  for (const auto& axle : build.axles) add(axle.value.station);
  for (const auto& part : build.frame.crossmembers) {
    if (!in.contains(part.id) || !part.value.at.station.known()) continue;
    const build::StationRange weld = calc_weld_range(part.value);
    double depth_m = 0;
    for (const auto& joined : build::joined_rails(build.frame, part.value)) {
      const double here_m = rail_depth_m(joined.rail->value, part.value.at.station.si);
      if (here_m > depth_m) depth_m = here_m;
    }
    stations.push_back({weld.from_m - depth_m, weld.to_m + depth_m});
  }
  std::sort(stations.begin(), stations.end(), [](const NaturalStation& a, const NaturalStation& b) {
    return a.before_m + a.behind_m < b.before_m + b.behind_m;
  });
  return stations;
}

/// The plate that would close a rail on one side, as the first one that it has.
build::BoxingPlate plate_like_others(const build::Build& build, const Selection& in,
                                     const build::Entry<build::Rail>& rail, double wall_m) {
  build::BoxingPlate plate;
  plate.rail.id = rail.id;
  plate.thickness.si = wall_m;
  for (const auto& other : build.frame.plates) {
    if (other.value.rail.id != rail.id || !in.contains(other.id)) continue;
    plate.thickness = other.value.thickness;
    plate.fit = other.value.fit;
    plate.inset = other.value.inset;
    plate.steel = other.value.steel;
    break;
  }
  return plate;
}

/// Plates for all rails that are open between two stations; `depth_m` the deepest of them.
std::vector<build::BoxingPlate> plates_between(const build::Build& build, const Selection& in,
                                               double from_m, double to_m, double& depth_m) {
  std::vector<build::BoxingPlate> plates;
  const double middle_m = (from_m + to_m) / 2;
  for (const auto& rail : build.frame.rails) {
    const auto range = build::station_range(rail.value);
    const auto sizes = build::sizes_at(rail.value, middle_m);
    if (!range || !range->holds(middle_m) || !sizes ||
        sizes->shape != build::SectionShape::kChannel || !sizes->depth.known() ||
        !sizes->thickness.known()) {
      continue;
    }
    bool open[2] = {false, false};
    for (const int sign : build::signs_of(rail.value)) {
      open[sign > 0 ? 0 : 1] = !is_plated(build.frame, in, rail.id, sign, middle_m);
    }
    if (!open[0] && !open[1]) continue;
    build::BoxingPlate plate = plate_like_others(build, in, rail, sizes->thickness.si);
    plate.side = open[0] && open[1] ? build::Side::kBoth
                 : open[0]          ? build::Side::kLeft
                                    : build::Side::kRight;
    plate.from.si = from_m;
    plate.to.si = to_m;
    depth_m = std::max(depth_m, sizes->depth.si);
    plates.push_back(std::move(plate));
  }
  return plates;
}

}  // namespace

std::vector<OpenStretch> list_open_stretches(const build::Build& build, const Selection& in) {
  std::vector<OpenStretch> out;
  const auto stations = list_natural_stations(build, in);
  for (std::size_t i = 1; i < stations.size(); ++i) {
    OpenStretch stretch{
        .from_m = stations[i - 1].behind_m, .to_m = stations[i].before_m, .plates = {}};
    if (!(stretch.from_m < stretch.to_m)) continue;
    double depth_m = 0;
    stretch.plates = plates_between(build, in, stretch.from_m, stretch.to_m, depth_m);
    if (stretch.plates.empty() || stretch.to_m - stretch.from_m < kLeastBox * depth_m) continue;
    out.push_back(std::move(stretch));
  }
  return out;
}

std::vector<const build::Entry<build::Crossmember>*> list_stopped_tubes(const build::Build& build,
                                                                        const Selection& in) {
  std::vector<const build::Entry<build::Crossmember>*> out;
  for (const auto& part : build.frame.crossmembers) {
    const build::Crossmember& value = part.value;
    if (!in.contains(part.id) || !value.section || !build::is_tube(value.section->shape) ||
        value.fastening == build::Fastening::kBolted ||
        value.joint == build::CrossmemberJoint::kThroughWebAndPlate) {
      continue;
    }
    const auto joined = build::joined_rails(build.frame, value);
    const bool boxed = std::any_of(joined.begin(), joined.end(), [&](const build::RailSide& one) {
      return is_plated(build.frame, in, one.rail->id, one.sign, value.at.station.si);
    });
    if (boxed) out.push_back(&part);
  }
  return out;
}

}  // namespace rig::frame
