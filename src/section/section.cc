#include "section/section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace rig::section {

namespace {

/// Share of the longer wall below which a distance counts as none.
constexpr double kTouching = 1e-9;

std::string name_of(const Section& section, std::size_t wall) {
  const std::string& part = section.walls[wall].part;
  return part.empty() ? fmt::format("wall {}", wall + 1)
                      : fmt::format("wall {} ({})", wall + 1, part);
}

bool insides_cross(const Section& section, const Wall& a, const Wall& b) {
  const auto node = [&](int i) { return section.p_ON[static_cast<std::size_t>(i)]; };
  const Vec2 a0 = node(a.from), b0 = node(b.from);
  const Vec2 da = node(a.to) - a0, db = node(b.to) - b0;
  const double area = cross(da, db);
  if (std::abs(area) <= kTouching * da.norm() * db.norm()) return false;
  const double on_a = cross(b0 - a0, db) / area, on_b = cross(b0 - a0, da) / area;
  const auto inside = [](double share) { return share > kTouching && share < 1 - kTouching; };
  return inside(on_a) && inside(on_b);
}

void check_crossings(const Section& section, Diagnostics& out) {
  for (std::size_t b = 1; b < section.walls.size(); ++b) {
    for (std::size_t a = 0; a < b; ++a) {
      if (!insides_cross(section, section.walls[a], section.walls[b])) continue;
      out.push_back(
          {.code = "section.walls_cross",
           .path = fmt::format("/walls/{}", b),
           .message = fmt::format("{} runs through {}", name_of(section, b), name_of(section, a)),
           .remedy = "put a node where they meet, or move one of them",
           .at = {}});
    }
  }
}

void check_joined(const Section& section, Diagnostics& out) {
  std::vector<std::size_t> group(section.p_ON.size());
  std::iota(group.begin(), group.end(), std::size_t{0});
  const auto root = [&](std::size_t i) {
    while (group[i] != i) i = group[i] = group[group[i]];
    return i;
  };
  for (const Wall& wall : section.walls) {
    group[root(static_cast<std::size_t>(wall.from))] = root(static_cast<std::size_t>(wall.to));
  }
  const std::size_t first = root(static_cast<std::size_t>(section.walls.front().from));
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    if (root(static_cast<std::size_t>(section.walls[w].from)) == first) continue;
    out.push_back({.code = "section.not_joined",
                   .path = fmt::format("/walls/{}", w),
                   .message = fmt::format("{} is not joined to wall 1", name_of(section, w)),
                   .remedy = "let it share a node with the rest, or make it a section of its own",
                   .at = {}});
    return;
  }
  for (std::size_t n = 0; n < section.p_ON.size(); ++n) {
    if (root(n) == first) continue;
    out.push_back({.code = "section.not_joined",
                   .path = fmt::format("/p_ON/{}", n),
                   .message = fmt::format("no wall ends at node {}", n + 1),
                   .remedy = "take the node out, or run a wall to it",
                   .at = {}});
  }
}

void check_wall(const Section& section, std::size_t w, Diagnostics& out) {
  const Wall& wall = section.walls[w];
  const std::string path = fmt::format("/walls/{}", w);
  const auto known = [&](int i) { return i >= 0 && std::cmp_less(i, section.p_ON.size()); };
  if (!known(wall.from) || !known(wall.to)) {
    out.push_back({.code = "section.unknown_node",
                   .path = path,
                   .message = fmt::format("{} runs from node {} to node {}; there are {}",
                                          name_of(section, w), wall.from + 1, wall.to + 1,
                                          section.p_ON.size()),
                   .remedy = "name two nodes that there are",
                   .at = {}});
    return;
  }
  if (!(wall.thickness_m > 0) || !std::isfinite(wall.thickness_m)) {
    out.push_back(
        {.code = "section.thickness_not_positive",
         .path = path + "/thickness_m",
         .message = fmt::format("{} is {} m thick", name_of(section, w), wall.thickness_m),
         .remedy = "give the thickness of the plate",
         .at = {}});
  }
  if (!std::isfinite(wall.curvature_per_m)) {
    out.push_back({.code = "section.curvature_not_finite",
                   .path = path + "/curvature_per_m",
                   .message = fmt::format("the bend of {} is not a number", name_of(section, w)),
                   .remedy = "give 1 / radius, or 0 for a straight wall",
                   .at = {}});
  }
  if (!(wall_length_m(section, wall) > 0)) {
    out.push_back(
        {.code = "section.wall_without_length",
         .path = path,
         .message = fmt::format("{} starts and ends at the same place", name_of(section, w)),
         .remedy = "take it out, or move one of its ends",
         .at = {}});
  }
}

template <typename Move>
Section with_nodes(Section section, const Move& move) {
  for (Vec2& node : section.p_ON) node = move(node);
  return section;
}

}  // namespace

Diagnostics check_section(const Section& section) {
  Diagnostics out;
  if (section.walls.empty()) {
    out.push_back({.code = "section.no_walls",
                   .path = "/walls",
                   .message = "the section has no walls",
                   .remedy = "give at least one",
                   .at = {}});
    return out;
  }
  for (std::size_t n = 0; n < section.p_ON.size(); ++n) {
    if (section.p_ON[n].allFinite()) continue;
    out.push_back({.code = "section.node_not_finite",
                   .path = fmt::format("/p_ON/{}", n),
                   .message = fmt::format("node {} has no place", n + 1),
                   .remedy = "give its y and z",
                   .at = {}});
  }
  if (!out.empty()) return out;
  for (std::size_t w = 0; w < section.walls.size(); ++w) check_wall(section, w, out);
  if (!out.empty()) return out;
  check_joined(section, out);
  check_crossings(section, out);
  return out;
}

int find_wall(const Section& section, const std::string& part) {
  const auto found = std::find_if(section.walls.begin(), section.walls.end(),
                                  [&](const Wall& wall) { return wall.part == part; });
  return found == section.walls.end() ? -1 : static_cast<int>(found - section.walls.begin());
}

double wall_length_m(const Section& section, const Wall& wall) {
  return (section.p_ON[static_cast<std::size_t>(wall.to)] -
          section.p_ON[static_cast<std::size_t>(wall.from)])
      .norm();
}

Section rotate_section(const Section& section, double angle_rad) {
  const Eigen::Rotation2Dd R(angle_rad);
  return with_nodes(section, [&](const Vec2& p) { return Vec2(R * p); });
}

Section move_section(const Section& section, const Vec2& by_m) {
  return with_nodes(section, [&](const Vec2& p) { return Vec2(p + by_m); });
}

Section mirror_section(const Section& section) {
  Section mirrored = with_nodes(section, [](const Vec2& p) { return Vec2(-p.x(), p.y()); });
  for (Wall& wall : mirrored.walls) wall.curvature_per_m = -wall.curvature_per_m;
  return mirrored;
}

}  // namespace rig::section
