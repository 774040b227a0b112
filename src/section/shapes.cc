#include "section/shapes.h"

#include <fmt/format.h>

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

namespace rig::section {

namespace {

constexpr int kBendWalls = 8;
constexpr int kTubeWalls = 96;
/// Share of a bend's radius below which two bends run into each other without a leg between.
constexpr double kSamePlace = 1e-9;

/// A stretch between two corners of a path.
struct Leg {
  double thickness_m;
  std::string part;
};

/// Gathers faults of a shape's sizes.
struct Faults {
  Diagnostics list = {};

  void add(std::string code, std::string path, std::string message, std::string remedy) {
    list.push_back({.code = std::move(code),
                    .path = std::move(path),
                    .message = std::move(message),
                    .remedy = std::move(remedy),
                    .at = {}});
  }
  void positive(double value_m, const std::string& field) {
    if (value_m > 0 && std::isfinite(value_m)) return;
    add("section.size_not_positive", "/" + field, fmt::format("{} is {} m", field, value_m),
        "give a size above zero");
  }
  /// The wall leaves room inside `across_m`, of which it takes `times` thicknesses.
  void room(double thickness_m, double across_m, int times, const std::string& field) {
    if (!list.empty() || times * thickness_m < across_m) return;
    add("section.wall_too_thick", "/" + field,
        fmt::format("a wall of {} m leaves no room inside {} m", thickness_m, across_m),
        "give a thinner wall, or a larger section");
  }
  /// A bend of midline radius `bend_m` fits into the shorter of what two legs leave it.
  void bend(double bend_m, double leg_m, const std::string& field) {
    if (!list.empty() || bend_m <= leg_m) return;
    add("section.radius_too_large", "/" + field,
        fmt::format("a bend of {} m to the middle of the plate runs past {} m of leg", bend_m,
                    leg_m),
        "give a smaller radius, or longer legs");
  }
};

/// Midline radius of a bend; zero for a sharp corner.
double midline_radius(const std::optional<double>& inside_radius_m, double thickness_m,
                      Faults& faults) {
  if (!inside_radius_m) return 0;
  if (!(*inside_radius_m >= 0) || !std::isfinite(*inside_radius_m)) {
    faults.add("section.radius_too_small", "/inside_radius_m",
               fmt::format("the inside radius is {} m", *inside_radius_m),
               "give zero or more, or leave it out for a sharp corner");
  }
  return *inside_radius_m + thickness_m / 2;
}

int add_node(Section& section, const Vec2& p) {
  section.p_ON.push_back(p);
  return static_cast<int>(section.p_ON.size()) - 1;
}

/// The nodes of a rounded corner, from the end of one leg to the start of the next.
std::vector<Vec2> corner_nodes(const Vec2& before, const Vec2& corner, const Vec2& after,
                               double radius) {
  const Vec2 in = (corner - before).normalized(), out = (after - corner).normalized();
  const double turn = std::atan2(cross(in, out), in.dot(out));
  if (radius <= 0) return {corner};
  const Vec2 start = corner - radius * std::tan(std::abs(turn) / 2) * in;
  const Vec2 to_centre = radius * (turn > 0 ? 1 : -1) * Vec2(-in.y(), in.x());
  std::vector<Vec2> nodes;
  for (int i = 0; i <= kBendWalls; ++i) {
    nodes.emplace_back(start + to_centre -
                       Vec2(Eigen::Rotation2Dd(turn * i / kBendWalls) * to_centre));
  }
  return nodes;
}

/// Walls along a path of corners, one leg between each two; all inner corners rounded.
/// A closed path names its last leg from the last corner to the first, and rounds every corner.
Section make_path(const std::vector<Vec2>& corners, const std::vector<Leg>& legs, double radius) {
  const std::size_t count = corners.size();
  const bool closed = legs.size() == count;
  RIG_REQUIRE(closed || legs.size() + 1 == count);
  Section section;
  int first = -1, last = -1;
  for (std::size_t i = 0; i < count; ++i) {
    const bool end = !closed && (i == 0 || i + 1 == count);
    const Vec2 &before = corners[(i + count - 1) % count], &after = corners[(i + 1) % count];
    const auto nodes =
        end ? std::vector<Vec2>{corners[i]} : corner_nodes(before, corners[i], after, radius);
    const Leg& leg = legs[(i + count - 1) % count % legs.size()];
    for (std::size_t k = 0; k < nodes.size(); ++k) {
      const bool joined =
          k == 0 && last >= 0 && (nodes[0] - section.p_ON.back()).norm() <= kSamePlace * radius;
      const int node = joined ? last : add_node(section, nodes[k]);
      if (last >= 0 && !joined) {
        Wall wall{.from = last, .to = node, .thickness_m = leg.thickness_m, .part = leg.part};
        if (k > 0) {
          wall.part = fmt::format("bend of {} and {}", leg.part, legs[i % legs.size()].part);
          wall.curvature_per_m =
              std::copysign(1 / radius, cross(corners[i] - before, after - corners[i]));
        }
        section.walls.push_back(wall);
      }
      if (first < 0) first = node;
      last = node;
    }
  }
  if (!closed) return section;
  if ((section.p_ON.back() - section.p_ON.front()).norm() <= kSamePlace * radius) {
    section.walls.back().to = first;
    section.p_ON.pop_back();
  } else {
    section.walls.push_back({.from = last,
                             .to = first,
                             .thickness_m = legs.back().thickness_m,
                             .part = legs.back().part});
  }
  return section;
}

/// The sizes of a channel along its midlines.
struct ChannelMidline {
  double web_t, flange_t, half_height, tip, radius;
};

ChannelMidline check_channel(const Channel& c, Faults& faults) {
  const double flange_t = c.flange_thickness_m.value_or(c.thickness_m);
  faults.positive(c.depth_m, "depth_m");
  faults.positive(c.flange_m, "flange_m");
  faults.positive(c.thickness_m, "thickness_m");
  if (c.flange_thickness_m) faults.positive(flange_t, "flange_thickness_m");
  faults.room(flange_t, c.depth_m, 2, c.flange_thickness_m ? "flange_thickness_m" : "thickness_m");
  faults.room(c.thickness_m, c.flange_m, 1, "thickness_m");
  if (c.inside_radius_m && c.flange_thickness_m && *c.flange_thickness_m != c.thickness_m) {
    faults.add("section.radius_needs_one_thickness", "/flange_thickness_m",
               "a channel bent from one plate has flanges as thick as its web",
               "leave out the radius, or the thickness of the flanges");
  }
  const double radius = midline_radius(c.inside_radius_m, c.thickness_m, faults);
  const ChannelMidline m{.web_t = c.thickness_m,
                         .flange_t = flange_t,
                         .half_height = (c.depth_m - flange_t) / 2,
                         .tip = c.flange_m - c.thickness_m / 2,
                         .radius = radius};
  faults.bend(radius, std::min(m.half_height, m.tip), "inside_radius_m");
  return m;
}

/// The channel with its flanges ending `reach` from the web's midline.
Section channel_path(const ChannelMidline& m, double reach) {
  const double h = m.half_height;
  return make_path({{reach, -h}, {0, -h}, {0, h}, {reach, h}},
                   {{m.flange_t, "lower flange"}, {m.web_t, "web"}, {m.flange_t, "upper flange"}},
                   m.radius);
}

}  // namespace

Result<Section> make_channel(const Channel& channel) {
  Faults faults;
  const ChannelMidline m = check_channel(channel, faults);
  if (!faults.list.empty()) return Failure{std::move(faults.list)};
  return channel_path(m, m.tip);
}

Result<Section> make_boxed_channel(const Channel& channel, const BoxingPlate& plate) {
  Faults faults;
  const ChannelMidline m = check_channel(channel, faults);
  faults.positive(plate.thickness_m, "plate/thickness_m");
  if (!(plate.inset_m >= 0) || !std::isfinite(plate.inset_m)) {
    faults.add("section.plate_does_not_fit", "/plate/inset_m",
               fmt::format("the plate is set in by {} m", plate.inset_m),
               "give how far its outer face is behind the edges of the flanges");
  }
  const bool over = plate.fit == PlateFit::over_tips;
  const double y_plate =
      over ? m.tip + plate.thickness_m / 2 : m.tip - plate.inset_m - plate.thickness_m / 2;
  const double nearest = std::max(m.radius, (m.web_t + plate.thickness_m) / 2);
  if (faults.list.empty() && !(y_plate > nearest)) {
    faults.add(
        "section.plate_does_not_fit", "/plate",
        fmt::format("the middle of the plate is {} m from that of the web; it can be {} m at "
                    "the nearest",
                    y_plate, nearest),
        "set it further out, or take a thinner plate");
  }
  if (!faults.list.empty()) return Failure{std::move(faults.list)};
  Section section = channel_path(m, y_plate);
  const int below = 0, above = static_cast<int>(section.p_ON.size()) - 1;
  section.walls.push_back(
      {.from = below, .to = above, .thickness_m = plate.thickness_m, .part = "plate"});
  if (m.tip > y_plate) {
    section.walls.push_back({.from = add_node(section, {m.tip, -m.half_height}),
                             .to = below,
                             .thickness_m = m.flange_t,
                             .part = "lower flange"});
    section.walls.push_back({.from = above,
                             .to = add_node(section, {m.tip, m.half_height}),
                             .thickness_m = m.flange_t,
                             .part = "upper flange"});
  }
  return section;
}

Result<Section> make_hat(const Hat& hat) {
  Faults faults;
  faults.positive(hat.depth_m, "depth_m");
  faults.positive(hat.crown_m, "crown_m");
  faults.positive(hat.brim_m, "brim_m");
  faults.positive(hat.thickness_m, "thickness_m");
  faults.room(hat.thickness_m, std::min(hat.depth_m, hat.crown_m), 2, "thickness_m");
  const double t = hat.thickness_m, radius = midline_radius(hat.inside_radius_m, t, faults);
  const double h = (hat.depth_m - t) / 2, side = (hat.crown_m - t) / 2;
  const double tip = hat.crown_m / 2 + hat.brim_m;
  faults.bend(radius, std::min({h, side, tip - side}), "inside_radius_m");
  if (!faults.list.empty()) return Failure{std::move(faults.list)};
  return make_path(
      {{-tip, -h}, {-side, -h}, {-side, h}, {side, h}, {side, -h}, {tip, -h}},
      {{t, "right brim"}, {t, "right side"}, {t, "crown"}, {t, "left side"}, {t, "left brim"}},
      radius);
}

Result<Section> make_rectangular_tube(const RectangularTube& tube) {
  Faults faults;
  faults.positive(tube.width_m, "width_m");
  faults.positive(tube.depth_m, "depth_m");
  faults.positive(tube.thickness_m, "thickness_m");
  faults.room(tube.thickness_m, std::min(tube.width_m, tube.depth_m), 2, "thickness_m");
  const double t = tube.thickness_m, y = (tube.width_m - t) / 2, z = (tube.depth_m - t) / 2;
  if (faults.list.empty() && tube.outside_radius_m && !(*tube.outside_radius_m >= t)) {
    faults.add(
        "section.radius_too_small", "/outside_radius_m",
        fmt::format("an outside radius of {} m is less than the wall", *tube.outside_radius_m),
        "give the radius of the outside, or leave it out for a sharp corner");
  }
  const double radius = tube.outside_radius_m ? *tube.outside_radius_m - t / 2 : 0;
  faults.bend(radius, std::min(y, z), "outside_radius_m");
  if (!faults.list.empty()) return Failure{std::move(faults.list)};
  return make_path({{-y, -z}, {y, -z}, {y, z}, {-y, z}},
                   {{t, "bottom"}, {t, "left side"}, {t, "top"}, {t, "right side"}}, radius);
}

Result<Section> make_round_tube(const RoundTube& tube) {
  Faults faults;
  faults.positive(tube.outside_diameter_m, "outside_diameter_m");
  faults.positive(tube.thickness_m, "thickness_m");
  faults.room(tube.thickness_m, tube.outside_diameter_m, 2, "thickness_m");
  if (!faults.list.empty()) return Failure{std::move(faults.list)};
  const double half_wall_rad = std::numbers::pi / kTubeWalls;
  const double midline_m = (tube.outside_diameter_m - tube.thickness_m) / 2;
  const double r = midline_m * std::sqrt(2 * half_wall_rad / std::sin(2 * half_wall_rad));
  std::vector<Vec2> corners;
  corners.reserve(kTubeWalls);
  for (int i = 0; i < kTubeWalls; ++i) {
    corners.emplace_back(r * std::cos(2 * i * half_wall_rad), r * std::sin(2 * i * half_wall_rad));
  }
  Section section =
      make_path(corners, std::vector<Leg>(corners.size(), {tube.thickness_m, "tube"}), 0);
  for (Wall& wall : section.walls) wall.curvature_per_m = 1 / midline_m;
  return section;
}

Result<Section> make_plate(const Plate& plate) {
  Faults faults;
  faults.positive(plate.width_m, "width_m");
  faults.positive(plate.thickness_m, "thickness_m");
  faults.room(plate.thickness_m, plate.width_m, 1, "thickness_m");
  if (!faults.list.empty()) return Failure{std::move(faults.list)};
  const double z = plate.width_m / 2;
  return make_path({{0, -z}, {0, z}}, {{plate.thickness_m, "plate"}}, 0);
}

Result<Section> make_angle(const Angle& angle) {
  Faults faults;
  faults.positive(angle.level_leg_m, "level_leg_m");
  faults.positive(angle.upright_leg_m, "upright_leg_m");
  faults.positive(angle.thickness_m, "thickness_m");
  faults.room(angle.thickness_m, std::min(angle.level_leg_m, angle.upright_leg_m), 1,
              "thickness_m");
  const double t = angle.thickness_m, radius = midline_radius(angle.inside_radius_m, t, faults);
  const double y = angle.level_leg_m - t / 2, z = angle.upright_leg_m - t / 2;
  faults.bend(radius, std::min(y, z), "inside_radius_m");
  if (!faults.list.empty()) return Failure{std::move(faults.list)};
  return make_path({{y, 0}, {0, 0}, {0, z}}, {{t, "level leg"}, {t, "upright leg"}}, radius);
}

}  // namespace rig::section
