#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "build/frame_lookup.h"
#include "build/words.h"
#include "check/scene_frame_internal.h"
#include "geometry/line.h"

namespace rig::check {
namespace {

// Sizes to draw what the file gives no size for, m.
constexpr double kRailDepth_m = 0.15, kRailFlange_m = 0.06, kWall_m = 0.005, kPlateWall_m = 0.005;
constexpr double kCrossmember_m = 0.06;

/// The box about a section, and its middle from the reference line; y the way it lies open, z up.
struct Extent {
  double width_m = 0;   ///< Along y.
  double height_m = 0;  ///< Along z.
  Vec2 middle = Vec2::Zero();
  bool round = false;
};

double or_else(const build::Length& size, double usual_m) {
  return size.known() ? size.si : usual_m;
}

/// As it is drawn in the section maker: a channel open to +y, a hat crown up, an angle's legs along
/// +y and +z.
Extent extent_of(const build::SectionSizes& s) {
  using Shape = build::SectionShape;
  const double t = or_else(s.thickness, kWall_m);
  switch (s.shape) {
    case Shape::kChannel: {
      const double flange = or_else(s.flange, kRailFlange_m);
      return {flange, or_else(s.depth, kRailDepth_m), {(flange - t) / 2, 0}};
    }
    case Shape::kHat: {
      const double crown = or_else(s.crown, kCrossmember_m);
      return {crown + 2 * or_else(s.brim, 0), or_else(s.depth, kCrossmember_m)};
    }
    case Shape::kRectangularTube:
      return {or_else(s.width, kCrossmember_m), or_else(s.depth, kCrossmember_m)};
    case Shape::kRoundTube: {
      const double diameter = or_else(s.outside_diameter, kCrossmember_m);
      return {.width_m = diameter, .height_m = diameter, .round = true};
    }
    case Shape::kPlate:
      return {t, or_else(s.width, kCrossmember_m)};
    case Shape::kAngle: {
      const double level = or_else(s.level_leg, kCrossmember_m);
      const double upright = or_else(s.upright_leg, kCrossmember_m);
      return {level, upright, {(level - t) / 2, (upright - t) / 2}};
    }
  }
  return {};
}

/// Of a crossmember: width lengthwise (y forward), turned as it opens.
Extent facing(const build::SectionSizes& sizes, build::Facing opens) {
  Extent e = extent_of(sizes);
  // A hat is made open downwards, the others forward.
  const bool hat = sizes.shape == build::SectionShape::kHat;
  const bool upright = opens == build::Facing::kUp || opens == build::Facing::kDown;
  if (upright != hat) {
    std::swap(e.width_m, e.height_m);
    e.middle = Vec2(e.middle.y(), e.middle.x());
  }
  if (opens == build::Facing::kRearward) e.middle.x() = -e.middle.x();
  if (opens == build::Facing::kDown) e.middle.y() = -e.middle.y();
  return e;
}

/// The rail's reference line on one side at a station between its known points.
std::optional<Vec3> point_at(const build::Rail& rail, int sign, double station_m) {
  const build::Point* before = nullptr;
  for (const auto& here : rail.line) {
    if (!here.known()) continue;
    if (here.station.si >= station_m && (before != nullptr || here.station.si == station_m)) {
      const Vec3 b = here.p_VP(), a = before == nullptr ? b : before->p_VP();
      const double length = a.x() - b.x();
      Vec3 p = length > 0 ? Vec3(a + (b - a) * (a.x() + station_m) / length) : b;
      if (rail.both_sides && sign < 0) p.y() = -p.y();
      return p;
    }
    before = &here;
  }
  return std::nullopt;
}

double mix(double a, double b, double share) { return a + (b - a) * share; }

/// The rail's section at a station, seen from the front (`ahead`) or from behind.
Extent extent_at(const build::Rail& rail, double station_m, bool ahead) {
  constexpr double kBeside_m = 2 * build::kStationRounding_m;
  const double beside_m = station_m + (ahead ? -kBeside_m : kBeside_m);
  for (const auto& [id, path, stretch] : rail.stretches) {
    const auto range = build::station_range(stretch.from, stretch.to);
    if (!range || beside_m < range->from_m || beside_m > range->to_m || !stretch.section) continue;
    Extent front = extent_of(*stretch.section);
    if (!stretch.section_end) return front;
    const Extent rear = extent_of(*stretch.section_end);
    const double share =
        std::clamp((station_m - range->from_m) / (range->to_m - range->from_m), 0.0, 1.0);
    return {mix(front.width_m, rear.width_m, share), mix(front.height_m, rear.height_m, share),
            front.middle + (rear.middle - front.middle) * share, front.round && rear.round};
  }
  return extent_of(rail.section.value_or(build::SectionSizes{}));
}

Json profile_point(const Vec3& p, double depth_m, double width_m, bool round = false) {
  return {{"p", json_from(p)}, {"depth", depth_m}, {"width", width_m}, {"round", round}};
}

class FrameDrawer {
 public:
  explicit FrameDrawer(const build::Frame& frame) : frame_(frame) {}

  Json draw() {
    for (const auto& rail : frame_.rails) {
      for (const int sign : build::signs_of(rail.value)) draw_rail(rail, sign);
    }
    for (const auto& plate : frame_.plates) {
      const auto* rail = build::find(frame_.rails, plate.value.rail.id);
      if (rail == nullptr) continue;
      for (const int sign : build::signs_of(rail->value)) {
        if (build::is_on(plate.value.side, sign)) draw_plate(plate, *rail, sign);
      }
    }
    for (const auto& hole : frame_.holes) {
      const auto* rail = build::find(frame_.rails, hole.value.rail.id);
      if (rail == nullptr) continue;
      for (const int sign : build::signs_of(rail->value)) {
        if (build::is_on(hole.value.side, sign)) draw_hole(hole, *rail, sign);
      }
    }
    for (const auto& crossmember : frame_.crossmembers) draw_crossmember(crossmember);
    return std::move(parts_);
  }

 private:
  template <typename T>
  Json begin(const char* kind, const build::Entry<T>& entry, const std::string& suffix,
             build::Fate fate) {
    return {{"kind", kind},
            {"name", entry.id + suffix},
            {"path", entry.path},
            {"label", entry.value.label.empty() ? entry.id : entry.value.label},
            {"body", "frame"},
            {"points", Json::array()},
            {"profile", Json::array()},
            {"fate", build::name_of(fate)}};
  }

  static std::string suffix_of(const build::Rail& rail, int sign) {
    if (!rail.both_sides) return "";
    return sign > 0 ? ".left" : ".right";
  }

  /// Towards where a channel on this side lies open: +1 is to the left.
  static int opening(const build::Rail& rail, int sign) {
    return rail.opens == build::RailOpening::kIn ? -sign : sign;
  }

  /// Where anything changes along a rail, from front to rear.
  static std::vector<double> stations_of(const build::Rail& rail) {
    std::vector<double> stations;
    for (const auto& point : rail.line) {
      if (point.known()) stations.push_back(point.station.si);
    }
    for (const auto& stretch : rail.stretches) {
      for (const auto* end : {&stretch.value.from, &stretch.value.to}) {
        if (end->known()) stations.push_back(end->si);
      }
    }
    std::sort(stations.begin(), stations.end());
    stations.erase(std::unique(stations.begin(), stations.end()), stations.end());
    return stations;
  }

  void draw_rail(const build::Entry<build::Rail>& entry, int sign) {
    const build::Rail& rail = entry.value;
    Json part = begin("rail", entry, suffix_of(rail, sign), build::Fate::kStays);
    for (std::size_t i = 0; i < rail.line.size(); ++i) {
      if (!rail.line[i].known()) continue;
      Vec3 p = rail.line[i].p_VP();
      if (rail.both_sides && sign < 0) p.y() = -p.y();
      part["points"].push_back(
          {{"path", fmt::format("{}/line/{}", entry.path, i)}, {"p", json_from(p)}});
    }
    const std::vector<double> stations = stations_of(rail);
    for (const double station_m : stations) {
      const auto p = point_at(rail, sign, station_m);
      if (!p) continue;
      const auto add = [&](const Extent& e) {
        const Vec3 middle = *p + Vec3(0, opening(rail, sign) * e.middle.x(), e.middle.y());
        Json point = profile_point(middle, e.height_m, e.width_m, e.round);
        // A step of the section has a point on either side.
        if (part["profile"].empty() || part["profile"].back() != point) {
          part["profile"].push_back(std::move(point));
        }
      };
      if (station_m > stations.front()) add(extent_at(rail, station_m, /*ahead=*/true));
      if (station_m < stations.back()) add(extent_at(rail, station_m, /*ahead=*/false));
    }
    if (part["points"].size() >= 2) parts_.push_back(std::move(part));
  }

  /// From the rail's line to the middle of a plate.
  static double plate_out_m(const build::BoxingPlate& plate, const Extent& rail) {
    const double wall_m = or_else(plate.thickness, kPlateWall_m);
    const double tip_m = rail.middle.x() + rail.width_m / 2;
    return plate.fit == build::PlateFit::kOverTips ? tip_m + wall_m / 2
                                                   : tip_m - or_else(plate.inset, 0) - wall_m / 2;
  }

  /// The plate that a hole in one goes through.
  const build::BoxingPlate* plate_at(const build::Hole& hole, int sign) const {
    for (const auto& plate : frame_.plates) {
      const auto range = build::station_range(plate.value.from, plate.value.to);
      if (plate.value.rail.id == hole.rail.id && build::is_on(plate.value.side, sign) && range &&
          range->holds(hole.station.si)) {
        return &plate.value;
      }
    }
    return nullptr;
  }

  /// As the ring that it is in its wall, a wall thick.
  void draw_hole(const build::Entry<build::Hole>& entry, const build::Entry<build::Rail>& rail,
                 int sign) {
    const build::Hole& hole = entry.value;
    const bool upright = hole.wall == build::HoleWall::kWeb || hole.wall == build::HoleWall::kPlate;
    const build::Length& across = upright ? hole.above_lower_edge : hole.from_web;
    if (!hole.station.known() || !hole.diameter.known() || !across.known()) return;
    auto p = point_at(rail.value, sign, hole.station.si);
    if (!p) return;
    const Extent e = extent_at(rail.value, hole.station.si, /*ahead=*/true);
    const auto sizes = build::sizes_at(rail.value, hole.station.si);
    double wall_m = sizes ? or_else(sizes->thickness, kWall_m) : kWall_m;
    const int opens = opening(rail.value, sign);
    if (upright) p->z() += across.si - e.height_m / 2;
    switch (hole.wall) {
      case build::HoleWall::kWeb:
        break;
      case build::HoleWall::kPlate: {
        const build::BoxingPlate* plate = plate_at(hole, sign);
        if (plate == nullptr) return;
        wall_m = or_else(plate->thickness, kPlateWall_m);
        p->y() += opens * plate_out_m(*plate, e);
        break;
      }
      case build::HoleWall::kUpperFlange:
      case build::HoleWall::kLowerFlange: {
        const double up = hole.wall == build::HoleWall::kUpperFlange ? 1 : -1;
        p->y() += opens * (across.si - wall_m / 2);
        p->z() += up * (e.height_m - wall_m) / 2;
        break;
      }
    }
    parts_.push_back({{"kind", "hole"},
                      {"name", entry.id + suffix_of(rail.value, sign)},
                      {"path", entry.path},
                      {"label", entry.value.label.empty() ? entry.id : entry.value.label},
                      {"body", "frame"},
                      {"centre", json_from(*p)},
                      {"axis", json_from(Vec3(upright ? Vec3::UnitY() : Vec3::UnitZ()))},
                      {"radius", hole.diameter.si / 2},
                      {"thickness", wall_m},
                      {"fate", build::name_of(hole.fate)}});
  }

  void draw_plate(const build::Entry<build::BoxingPlate>& entry,
                  const build::Entry<build::Rail>& rail, int sign) {
    const build::BoxingPlate& plate = entry.value;
    const auto range = build::station_range(plate.from, plate.to);
    if (!range) return;
    Json part = begin("plate", entry, suffix_of(rail.value, sign), plate.fate);
    std::vector<double> stations{range->from_m};
    for (const double station_m : stations_of(rail.value)) {
      if (station_m > range->from_m && station_m < range->to_m) stations.push_back(station_m);
    }
    stations.push_back(range->to_m);
    const double wall_m = or_else(plate.thickness, kPlateWall_m);
    for (const double station_m : stations) {
      const auto p = point_at(rail.value, sign, station_m);
      if (!p) return;
      const Extent e = extent_at(rail.value, station_m, station_m >= range->to_m);
      const double out_m = plate_out_m(plate, e);
      part["profile"].push_back(
          profile_point(*p + Vec3(0, opening(rail.value, sign) * out_m, 0), e.height_m, wall_m));
    }
    parts_.push_back(std::move(part));
  }

  static bool goes_through(const build::Crossmember& crossmember) {
    return crossmember.joint == build::CrossmemberJoint::kThroughWeb ||
           crossmember.joint == build::CrossmemberJoint::kThroughWebAndPlate;
  }

  /// From the rail's line to the middle of the box about it, as far as that lies towards the middle
  /// of the truck: what does not go through the rail is drawn to end within the box.
  static double inwards_m(const build::RailSide& joined, const build::Crossmember& crossmember) {
    const Extent e = extent_at(joined.rail->value, crossmember.at.station.si, /*ahead=*/true);
    const int opens = opening(joined.rail->value, joined.sign);
    return std::max(0.0, -joined.sign * opens * e.middle.x());
  }

  void draw_crossmember(const build::Entry<build::Crossmember>& entry) {
    const build::Crossmember& crossmember = entry.value;
    Vec3 left = Vec3::Constant(std::nan("")), right = left;
    for (const auto& joined : build::joined_rails(frame_, crossmember)) {
      const auto p = point_at(joined.rail->value, joined.sign, crossmember.at.station.si);
      if (!p) continue;
      Vec3& end = joined.sign > 0 ? left : right;
      end = *p;
      if (!goes_through(crossmember)) end.y() -= joined.sign * inwards_m(joined, crossmember);
      if (crossmember.at.height.known()) end.z() = crossmember.at.height.si;
    }
    if (!left.allFinite() || !right.allFinite()) return;
    Json part = begin("crossmember", entry, "", crossmember.fate);
    const build::SectionSizes sizes =
        crossmember.section.value_or(build::SectionSizes{.shape = build::SectionShape::kRoundTube});
    const bool hat = sizes.shape == build::SectionShape::kHat;
    const Extent e = facing(
        sizes, crossmember.opens.value_or(hat ? build::Facing::kDown : build::Facing::kForward));
    const auto add = [&](const Vec3& p) {
      part["profile"].push_back(
          profile_point(p + Vec3(e.middle.x(), 0, e.middle.y()), e.height_m, e.width_m, e.round));
    };
    add(left);
    for (std::size_t i = 0; i < crossmember.line.size(); ++i) {
      const auto& corner = crossmember.line[i];
      if (!corner.known()) continue;
      part["points"].push_back(
          {{"path", fmt::format("{}/line/{}", entry.path, i)}, {"p", json_from(corner.p_VP())}});
      add(corner.p_VP());
    }
    add(right);
    parts_.push_back(std::move(part));
  }

  const build::Frame& frame_;
  Json parts_ = Json::array();
};

}  // namespace

Json frame_parts_json(const build::Frame& frame) { return FrameDrawer(frame).draw(); }

}  // namespace rig::check
