#pragma once

#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/nan.h"
#include "geometry/line.h"

/// Thin-walled cross-sections: what a rail, crossmember or tube is when it is sawn through.
namespace rig::section {

/// One straight stretch of wall along its midline, of even thickness. A bend is several of them.
struct Wall {
  int from = -1;  ///< Index of a node.
  int to = -1;    ///< Index of a node.
  double thickness_m = kNaN;
  std::string part;  ///< Shop word: "web", "lower flange". Walls of one part share it.
  /// Of the bend that the wall is a chord of: 1 / its midline's radius, positive when it turns from
  /// y towards z on the way from `from` to `to`. Enters what the thickness does: second moments
  /// and St Venant's twist.
  double curvature_per_m = 0;
};

/// A section by its midlines. Looked at along +x: y to the left of the truck, z up; the origin O is
/// where whoever made the section put it. Walls join where they name the same node; two nodes at
/// the same place are not joined (a slit).
struct Section {
  std::vector<Vec2> p_ON;  ///< Nodes (y, z) from O, m.
  std::vector<Wall> walls;
};

/// What makes a section impossible; empty when nothing does.
///
/// Paths are JSON pointers into the section: `/walls/3/thickness_m`.
/// @errors section.no_walls, section.node_not_finite, section.unknown_node,
///         section.thickness_not_positive, section.curvature_not_finite,
///         section.wall_without_length, section.walls_cross (the
///         insides of two walls), section.not_joined (a node or wall apart from the rest).
Diagnostics check_section(const Section& section);

/// The first wall of a part; -1 when there is none.
int find_wall(const Section& section, const std::string& part);

double wall_length_m(const Section& section, const Wall& wall);

/// The section turned about O by an angle, positive from y towards z.
Section rotate_section(const Section& section, double angle_rad);

/// The section moved by (y, z), m.
Section move_section(const Section& section, const Vec2& by_m);

/// The section with left and right exchanged, y to -y.
Section mirror_section(const Section& section);

}  // namespace rig::section
