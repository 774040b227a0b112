#include "frame/box_openings.h"

#include <algorithm>
#include <cmath>

#include "frame/rail_line.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

/// Less fall than this does not carry water along.
constexpr double kFall_m = units::kInch_m / 8;

class BoxLook {
 public:
  BoxLook(const build::Build& build, const build::Entry<build::BoxingPlate>& plate,
          const RailLine& line, const std::vector<PlateEnd>& ends)
      : frame_(build.frame), plate_(plate), line_(line) {
    for (const PlateEnd& end : ends) {
      const bool same_side =
          std::find(end.signs.begin(), end.signs.end(), line.sign) != end.signs.end();
      if (end.plate_path == plate.path && same_side) (end.front ? front_open_ : rear_open_) = true;
    }
    const double from_m = plate.value.from.si, to_m = plate.value.to.si;
    front_open_ = front_open_ || from_m < line.front_m() + build::kStationRounding_m;
    rear_open_ = rear_open_ || to_m > line.rear_m() - build::kStationRounding_m;
    stations_.push_back(from_m);
    for (const Vec3& p : line.p_VoP_V) {
      if (-p.x() > from_m && -p.x() < to_m) stations_.push_back(-p.x());
    }
    stations_.push_back(to_m);
  }

  BoxInside look() const {
    BoxInside inside{.plate_path = plate_.path, .sign = line_.sign};
    find_lowest(inside);
    inside.depth_m = rail_depth_m(line_.rail->value, inside.lowest_m);
    inside.drainage = is_drilled(inside) ? Drainage::kDrilled
                      : runs_out()       ? Drainage::kRunsOut
                                         : Drainage::kTrapped;
    find_longest_closed(inside);
    return inside;
  }

 private:
  double height_m(double station_m) const { return line_.at(station_m).z(); }

  void find_lowest(BoxInside& inside) const {
    const auto [low, high] =
        std::minmax_element(stations_.begin(), stations_.end(),
                            [&](double a, double b) { return height_m(a) < height_m(b); });
    inside.level = height_m(*high) - height_m(*low) < kFall_m;
    inside.lowest_m = inside.level ? (stations_.front() + stations_.back()) / 2 : *low;
  }

  /// Down from everywhere to an open end.
  bool runs_out() const {
    const auto falls = [&](auto first, auto last) {
      return std::adjacent_find(first, last, [&](double a, double b) {
               return !(height_m(b) - height_m(a) >= kFall_m);
             }) == last;
    };
    return (front_open_ && falls(stations_.begin(), stations_.end())) ||
           (rear_open_ && falls(stations_.rbegin(), stations_.rend()));
  }

  bool is_inside(const build::Hole& hole) const {
    return build::is_planned(hole.fate) && hole.rail.id == line_.rail->id &&
           build::is_on(hole.side, line_.sign) && hole.station.si >= stations_.front() &&
           hole.station.si <= stations_.back();
  }

  bool is_drilled(const BoxInside& inside) const {
    return std::any_of(frame_.holes.begin(), frame_.holes.end(), [&](const auto& hole) {
      return is_inside(hole.value) && hole.value.purpose == build::HolePurpose::kDrain &&
             hole.value.wall != build::HoleWall::kUpperFlange &&
             (inside.level || std::abs(hole.value.station.si - inside.lowest_m) <= inside.depth_m);
    });
  }

  void find_longest_closed(BoxInside& inside) const {
    std::vector<double> openings;
    if (front_open_) openings.push_back(stations_.front());
    if (rear_open_) openings.push_back(stations_.back());
    for (const auto& hole : frame_.holes) {
      if (is_inside(hole.value) && hole.value.purpose == build::HolePurpose::kAccess) {
        openings.push_back(hole.value.station.si);
      }
    }
    std::sort(openings.begin(), openings.end());
    double before_m = stations_.front();
    openings.push_back(stations_.back());
    for (const double opening_m : openings) {
      if (opening_m - before_m > inside.closed_m()) {
        inside.closed_from_m = before_m;
        inside.closed_to_m = opening_m;
      }
      before_m = opening_m;
    }
  }

  const build::Frame& frame_;
  const build::Entry<build::BoxingPlate>& plate_;
  const RailLine& line_;
  bool front_open_ = false, rear_open_ = false;
  std::vector<double> stations_;  ///< Its ends, and the rail's corners between them.
};

}  // namespace

std::vector<BoxInside> list_box_insides(const build::Build& build, const Selection& in) {
  std::vector<BoxInside> out;
  const std::vector<PlateEnd> ends = list_plate_ends(build, in);
  for (const auto& plate : build.frame.plates) {
    const auto* rail = build::find(build.frame.rails, plate.value.rail.id);
    const auto range = build::station_range(plate.value.from, plate.value.to);
    if (!in.contains(plate.id) || rail == nullptr || !range) continue;
    for (const int sign : build::signs_of(rail->value)) {
      const auto line = make_rail_line(*rail, sign);
      if (!build::is_on(plate.value.side, sign) || !line || !line->passes(range->from_m) ||
          !line->passes(range->to_m)) {
        continue;
      }
      out.push_back(BoxLook(build, plate, *line, ends).look());
    }
  }
  return out;
}

}  // namespace rig::frame
