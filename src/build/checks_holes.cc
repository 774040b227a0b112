#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "build/checks_internal.h"
#include "build/describe_frame.h"
#include "build/frame_lookup.h"

namespace rig::build {
namespace {

bool is_upright(HoleWall wall) { return wall == HoleWall::kWeb || wall == HoleWall::kPlate; }

/// Where across its wall a hole's middle lies.
const Length& across(const Hole& hole) {
  return is_upright(hole.wall) ? hole.above_lower_edge : hole.from_web;
}
const char* across_key(HoleWall wall) { return is_upright(wall) ? "above_lower_edge" : "from_web"; }

class HoleChecker : Checks {
 public:
  HoleChecker(const Node& root, const Build& build, Faults& faults)
      : Checks(root, build, faults), frame_(build.frame) {}

  void check() {
    for (std::size_t i = 0; i < frame_.holes.size(); ++i) {
      const auto& entry = frame_.holes[i];
      check_place_across(entry);
      if (const auto* rail = find(frame_.rails, entry.value.rail.id)) check_on(entry, *rail);
      for (std::size_t k = 0; k < i; ++k) check_apart(entry, frame_.holes[k]);
    }
  }

 private:
  void check_place_across(const Entry<Hole>& entry) {
    const auto& [id, path, hole] = entry;
    const Length& stray = is_upright(hole.wall) ? hole.from_web : hole.above_lower_edge;
    if (!stray.known()) return;
    const char* const key = is_upright(hole.wall) ? "from_web" : "above_lower_edge";
    impossible(fmt::format("{}/{}", path, key),
               fmt::format("a hole in the {} has no \"{}\"", spaced(name_of(hole.wall)), key),
               fmt::format("give its \"{}\", or name the wall that it goes through",
                           across_key(hole.wall)));
  }

  void check_on(const Entry<Hole>& entry, const Entry<Rail>& rail) {
    const auto& [id, path, hole] = entry;
    const auto signs = signs_of(rail.value);
    if (!signs.empty() && std::none_of(signs.begin(), signs.end(), [&hole = hole](int sign) {
          return is_on(hole.side, sign);
        })) {
      impossible(path + "/side", fmt::format("the rail \"{}\" is on the other side", rail.id),
                 "name the side that the rail is on, or leave it out");
    }
    if (!hole.station.known()) return;
    const auto range = station_range(rail.value);
    if (range && !range->holds(hole.station.si)) {
      report("build.outside_rail", path + "/station",
             fmt::format("{} is not on the rail \"{}\"", print(hole.station), rail.id),
             fmt::format("it runs from {} to {}", print(range->from_m, units::Dimension::kLength),
                         print(range->to_m, units::Dimension::kLength)));
      return;
    }
    const auto shape = shape_at(rail.value, hole.station.si);
    if (shape && *shape != SectionShape::kChannel) {
      report("build.wrong_shape", path + "/wall",
             fmt::format("there the rail \"{}\" is a {}", rail.id, spaced(name_of(*shape))),
             "holes are told of stretches that are channels");
      return;
    }
    if (hole.wall == HoleWall::kPlate) check_plated(entry, rail, signs);
    check_fits(entry, rail);
  }

  void check_plated(const Entry<Hole>& entry, const Entry<Rail>& rail,
                    const std::vector<int>& signs) {
    const Hole& hole = entry.value;
    for (const int sign : signs) {
      if (!is_on(hole.side, sign)) continue;
      const bool plated =
          std::any_of(frame_.plates.begin(), frame_.plates.end(), [&](const auto& plate) {
            const auto range = station_range(plate.value.from, plate.value.to);
            return plate.value.rail.id == rail.id && is_on(plate.value.side, sign) &&
                   (!range || range->holds(hole.station.si));
          });
      if (plated) continue;
      report("build.no_plate", entry.path + "/wall",
             fmt::format("at {} there is no plate on the {} side of the rail \"{}\"",
                         print(hole.station), sign > 0 ? "left" : "right", rail.id),
             R"(plate the rail there, or drill the "web")");
      return;
    }
  }

  void check_fits(const Entry<Hole>& entry, const Entry<Rail>& rail) {
    const auto& [id, path, hole] = entry;
    const auto sizes = sizes_at(rail.value, hole.station.si);
    if (!sizes) return;
    const Length& room = is_upright(hole.wall) ? sizes->depth : sizes->flange;
    const Length& middle = across(hole);
    const double low_m = middle.si - hole.diameter.si / 2,
                 high_m = middle.si + hole.diameter.si / 2;
    if (!(low_m < 0) && !(high_m > room.si)) return;
    impossible(fmt::format("{}/{}", path, across_key(hole.wall)),
               fmt::format("from {} to {} the hole does not fit in the {}'s {}",
                           print(low_m, units::Dimension::kLength),
                           print(high_m, units::Dimension::kLength), spaced(name_of(hole.wall)),
                           print(room)),
               "give the place of its middle, and a diameter that leaves metal on both sides");
  }

  void check_apart(const Entry<Hole>& entry, const Entry<Hole>& other) {
    const Hole &a = entry.value, &b = other.value;
    const bool same_side = a.side == b.side || a.side == Side::kBoth || b.side == Side::kBoth;
    if (a.rail.id != b.rail.id || a.wall != b.wall || !same_side || !can_meet(a.fate, b.fate)) {
      return;
    }
    const double apart_m = std::hypot(a.station.si - b.station.si, across(a).si - across(b).si);
    if (!(apart_m < (a.diameter.si + b.diameter.si) / 2)) return;
    report("build.overlap", entry.path + "/station",
           fmt::format("it runs into the hole \"{}\"", other.id),
           "take one out, or set them further apart");
  }

  const Frame& frame_;
};

}  // namespace

void check_holes(const Node& root, const Build& build, Faults& faults) {
  HoleChecker(root, build, faults).check();
}

}  // namespace rig::build
