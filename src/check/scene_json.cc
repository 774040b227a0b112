#include "check/scene_json.h"

#include <algorithm>
#include <cmath>

#include "check/json_internal.h"
#include "check/scene_frame_internal.h"

namespace rig::check {
namespace {

using units::Dimension;

// Sizes to draw what the file gives no size for, m.
constexpr double kBarRadius_m = 0.022;
constexpr double kArmRadius_m = 0.022;
constexpr double kCoilRadius_m = 0.065;
constexpr double kShockRadius_m = 0.027;
constexpr double kStopRadius_m = 0.03;
constexpr double kHousingRadius_m = 0.045;
constexpr double kHitchBallRadius_m = 0.0254;
constexpr double kTyreWidth_m = 0.28;

struct NamedSide {
  int sign;
  const char* suffix;
};

std::vector<NamedSide> sides(bool both_sides) {
  if (both_sides) return {{1, ".left"}, {-1, ".right"}};
  return {{1, ""}};
}

class Drawer {
 public:
  Drawer(const build::Build& build, const Report& report)
      : build_(build), report_(report), print_(build.units) {}

  Json draw() {
    draw_frame();
    for (const auto& axle : build_.axles) draw_axle(axle);
    for (auto& part : drivetrain_parts_json(build_)) parts_.push_back(std::move(part));
    draw_hitch();
    draw_masses();
    draw_balance_points();
    Json bodies = Json::array({"frame"});
    double front_axle_x = 0;
    for (const auto& axle : build_.axles) {
      bodies.push_back(axle.id);
      if (axle.value.end == build::End::kFront && axle.value.station.known()) {
        front_axle_x = -axle.value.station.si;
      }
    }
    const bool any = front_x_ > rear_x_;
    return {
        {"extent",
         {{"front_x", any ? front_x_ : 1.0}, {"rear_x", any ? rear_x_ : -4.0}, {"top_z", top_z_}}},
        {"floor_z", 0},
        {"front_axle_x", front_axle_x},
        {"bodies", std::move(bodies)},
        {"parts", std::move(parts_)}};
  }

 private:
  void reach(const Vec3& p, double half_length = 0, double half_height = 0) {
    front_x_ = std::max(front_x_, p.x() + half_length);
    rear_x_ = std::min(rear_x_, p.x() - half_length);
    top_z_ = std::max(top_z_, p.z() + half_height);
  }

  Vec3 place(const build::Point& point, int sign) {
    Vec3 p = point.p_VP();
    if (sign < 0) p.y() = -p.y();
    reach(p);
    return p;
  }

  Json end(const std::string& body, const build::Point& point, const std::string& path, int sign) {
    return {{"body", body}, {"p", json_from(place(point, sign))}, {"path", path}};
  }

  template <typename T>
  static std::string label_of(const build::Entry<T>& entry) {
    return entry.value.label.empty() ? entry.id : entry.value.label;
  }

  void draw_frame() {
    for (auto& part : frame_parts_json(build_.frame)) {
      if (part["kind"] == "hole") {
        parts_.push_back(std::move(part));
        continue;
      }
      for (const auto& point : part["profile"]) {
        const Vec3 p(point["p"][0].get<double>(), point["p"][1].get<double>(),
                     point["p"][2].get<double>());
        const double depth_m = point["depth"], width_m = point["width"];
        const bool lengthwise = part["kind"] != "crossmember";
        reach(p, lengthwise ? 0 : width_m / 2, depth_m / 2);
      }
      parts_.push_back(std::move(part));
    }
  }

  /// A part between a point of the frame and one of the axle.
  template <typename T>
  void draw_pair(const char* kind, const build::Entry<T>& entry, const std::string& axle,
                 const build::Point& on_frame, const std::string& frame_path,
                 const build::Point& on_axle, const std::string& axle_path, double radius_m) {
    if (!on_frame.known() || !on_axle.known()) return;
    for (const auto& side : sides(entry.value.both_sides)) {
      parts_.push_back({{"kind", kind},
                        {"name", entry.id + side.suffix},
                        {"path", entry.path},
                        {"label", label_of(entry)},
                        {"a", end("frame", on_frame, entry.path + frame_path, side.sign)},
                        {"b", end(axle, on_axle, entry.path + axle_path, side.sign)},
                        {"radius", radius_m}});
    }
  }

  void draw_axle(const build::Entry<build::Axle>& axle) {
    const auto& value = axle.value;
    for (const auto& link : value.links) {
      const bool sized = link.value.tube && link.value.tube->outside_diameter.known();
      draw_pair("bar", link, axle.id, link.value.frame.at, "/frame/at", link.value.axle.at,
                "/axle/at", sized ? link.value.tube->outside_diameter.si / 2 : kBarRadius_m);
    }
    for (const auto& arm : value.arms) draw_arm(axle.id, arm);
    for (const auto& coil : value.coils) {
      draw_pair("coil", coil, axle.id, coil.value.upper, "/upper", coil.value.lower, "/lower",
                kCoilRadius_m);
    }
    for (const auto& leaf : value.leaf_packs) draw_leaf(axle.id, leaf);
    for (const auto& shock : value.dampers) {
      draw_pair("shock", shock, axle.id, shock.value.frame, "/frame", shock.value.axle, "/axle",
                kShockRadius_m);
    }
    for (const auto& stop : value.bump_stops) {
      draw_pair("stop", stop, axle.id, stop.value.frame, "/frame", stop.value.axle, "/axle",
                kStopRadius_m);
    }
    draw_housing(axle);
  }

  void draw_arm(const std::string& axle, const build::Entry<build::Arm>& arm) {
    const auto& value = arm.value;
    if (!value.apex.at.known() || !value.first.at.known() || !value.second.at.known()) return;
    const bool apex_on_axle = value.kind == build::ArmKind::kAArm;
    const std::string apex_body = apex_on_axle ? axle : "frame";
    const std::string feet_body = apex_on_axle ? "frame" : axle;
    for (const auto& side : sides(value.both_sides)) {
      parts_.push_back(
          {{"kind", "arm"},
           {"name", arm.id + side.suffix},
           {"path", arm.path},
           {"label", label_of(arm)},
           {"apex", end(apex_body, value.apex.at, arm.path + "/apex/at", side.sign)},
           {"feet",
            Json::array({end(feet_body, value.first.at, arm.path + "/first/at", side.sign),
                         end(feet_body, value.second.at, arm.path + "/second/at", side.sign)})},
           {"radius", kArmRadius_m}});
    }
  }

  void draw_leaf(const std::string& axle, const build::Entry<build::LeafPack>& leaf) {
    const auto& value = leaf.value;
    if (!value.front_eye.known() || !value.rear_eye.known() || !value.seat.known()) return;
    for (const auto& side : sides(value.both_sides)) {
      parts_.push_back({{"kind", "leaf"},
                        {"name", leaf.id + side.suffix},
                        {"path", leaf.path},
                        {"label", label_of(leaf)},
                        {"a", end("frame", value.front_eye, leaf.path + "/front_eye", side.sign)},
                        {"seat", end(axle, value.seat, leaf.path + "/seat", side.sign)},
                        {"b", end("frame", value.rear_eye, leaf.path + "/rear_eye", side.sign)}});
    }
  }

  void draw_housing(const build::Entry<build::Axle>& axle) {
    const auto& value = axle.value;
    if (!value.station.known() || !value.height.known() || !value.track.known()) return;
    const Vec3 p_VC(-value.station.si, 0, value.height.si);
    const Vec3 half(0, value.track.si / 2, 0);
    parts_.push_back({{"kind", "axle"},
                      {"path", axle.path},
                      {"label", label_of(axle)},
                      {"body", axle.id},
                      {"a", json_from(Vec3(p_VC + half))},
                      {"b", json_from(Vec3(p_VC - half))},
                      {"radius", kHousingRadius_m}});
    const auto* tyre = build::find(build_.tyres, value.tyre.id);
    const bool known = tyre != nullptr && tyre->value.free_radius.known();
    const double radius_m = known ? tyre->value.free_radius.si : value.height.si;
    for (const int sign : {1, -1}) {
      reach(p_VC, radius_m, radius_m);
      parts_.push_back(
          {{"kind", "tyre"},
           {"name", axle.id + (sign > 0 ? ".left" : ".right")},
           {"path", tyre != nullptr ? tyre->path : axle.path},
           {"label", tyre != nullptr ? label_of(*tyre) : label_of(axle)},
           {"body", axle.id},
           {"centre", json_from(Vec3(p_VC + sign * half))},
           {"axis", json_from(Vec3(Vec3::UnitY()))},
           {"radius", radius_m},
           {"width",
            tyre != nullptr && tyre->value.width.known() ? tyre->value.width.si : kTyreWidth_m},
           {"steered", value.steered}});
    }
  }

  void draw_hitch() {
    if (!build_.hitch || !build_.hitch->ball.known()) return;
    parts_.push_back({{"kind", "hitch"},
                      {"path", "/hitch"},
                      {"label", "Hitch ball"},
                      {"at", end("frame", build_.hitch->ball, "/hitch/ball", 1)},
                      {"radius", kHitchBallRadius_m}});
  }

  /// As carried in the ride state, or in the first state that has it.
  double mass_of(const std::string& id) const {
    const StateReport* ride = report_.ride();
    for (const auto* state : {ride, report_.states.empty() ? nullptr : &report_.states.front()}) {
      if (state == nullptr) continue;
      for (const auto& item : state->weigh.items) {
        if (item.id == id) return item.mass_kg();
      }
    }
    const auto* entry = build::find(build_.masses, id);
    return entry->value.mass.si;
  }

  void draw_masses() {
    for (const auto& item : build_.masses) {
      if (!item.value.at.known()) continue;
      const Vec3 centre = item.value.at.p_VP();
      Json part{{"kind", "ball"},
                {"name", item.id},
                {"path", item.path},
                {"label", label_of(item)},
                {"body", item.value.on.id.empty() ? "frame" : item.value.on.id},
                {"centre", json_from(centre)}};
      const auto& size = item.value.size;
      if (size && size->shape == build::Shape::kBox && size->length.known() &&
          size->width.known() && size->height.known()) {
        part["kind"] = "box";
        part["size"] = Json::array({size->length.si, size->width.si, size->height.si});
        reach(centre, size->length.si / 2, size->height.si / 2);
      } else if (size && size->shape == build::Shape::kCylinder && size->length.known() &&
                 size->diameter.known()) {
        part["kind"] = "cylinder";
        part["axis"] = json_from(build::unit_vector(size->axis));
        part["length"] = size->length.si;
        part["radius"] = size->diameter.si / 2;
        const double half = size->length.si / 2, radius = size->diameter.si / 2;
        reach(centre, size->axis == build::Axis::kLengthwise ? half : radius,
              size->axis == build::Axis::kUpright ? half : radius);
      }
      reach(centre);
      part["mass"] = json_from(print_.number(mass_of(item.id), Dimension::kMass));
      parts_.push_back(std::move(part));
    }
  }

  void draw_balance_points() {
    for (const auto& state : report_.states) {
      const auto* standing = state.standing();
      // A height that is not known yet can't be drawn.
      if (standing == nullptr || !standing->truck.p_VoBcm_V.allFinite()) continue;
      parts_.push_back({{"kind", "cg"},
                        {"label", "Balance point, " + state.label},
                        {"state", state.id},
                        {"path", state.id.empty() ? "/masses" : "/load_states/" + state.id},
                        {"body", "frame"},
                        {"centre", json_from(standing->truck.p_VoBcm_V)}});
    }
  }

  const build::Build& build_;
  const Report& report_;
  Printer print_;
  Json parts_ = Json::array();
  double front_x_ = -1e9, rear_x_ = 1e9, top_z_ = 0.5;
};

}  // namespace

std::string scene_json(const build::Build& build, const Report& report) {
  return Drawer(build, report).draw().dump();
}

}  // namespace rig::check
