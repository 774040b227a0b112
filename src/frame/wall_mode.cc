#include "frame/wall_mode.h"

#include "base/require.h"
#include "frame/beam_internal.h"

namespace rig::frame {

namespace {

std::size_t at_index(int i) { return static_cast<std::size_t>(i); }

/// Place, sectorial coordinate and its slope at the middle of a wall.
struct Sectorial {
  Vec2 p_OP = Vec2::Zero();
  double value_m2 = 0;
  Vec2 slope_m = Vec2::Zero();
};

Sectorial calc_sectorial(const BeamSection& made, const section::WallPoint& at) {
  const section::Section& s = made.section;
  RIG_REQUIRE(at.wall >= 0 && at_index(at.wall) < s.walls.size());
  const section::Wall& wall = s.walls[at_index(at.wall)];
  const Vec2 &p_OA = s.p_ON[at_index(wall.from)], &p_OB = s.p_ON[at_index(wall.to)];
  const double from = made.properties.sectorial_m2[at_index(wall.from)];
  const double to = made.properties.sectorial_m2[at_index(wall.to)];
  const Vec2 along = (p_OB - p_OA).normalized(), left(-along.y(), along.x());
  Sectorial out{.p_OP = p_OA + at.share * (p_OB - p_OA), .value_m2 = from + at.share * (to - from)};
  // Across the thickness w grows with the arm along the wall from S (section/stress.h).
  out.slope_m = (to - from) / (p_OB - p_OA).norm() * along +
                along.dot(out.p_OP - made.properties.p_OS) * left;
  return out;
}

}  // namespace

std::optional<Mode> make_wall_mode(const Structure& structure, int beam, BeamEnd end,
                                   const section::WallPoint& at,
                                   const std::optional<Vec3>& p_VoJ_V) {
  const Beam& b = structure.beams[at_index(beam)];
  const BeamSection& made = structure.sections[at_index(b.section)];
  const int scalar = end == BeamEnd::from ? b.warp_from : b.warp_to;
  if (!made.warps() || scalar < 0) return std::nullopt;
  const Sectorial sectorial = calc_sectorial(made, at);
  const Mat3 R_VB = calc_axes(b);
  // u = -w t with w = value + slope . (y, z); a turn about (y, z) gives u = z ry - y rz.
  Mode out{.scalar = scalar,
           .displacement_V = R_VB * Vec3(-sectorial.value_m2, 0, 0),
           .rotation_V = R_VB * Vec3(0, -sectorial.slope_m.y(), sectorial.slope_m.x())};
  if (p_VoJ_V) {
    out.displacement_V +=
        out.rotation_V.cross(*p_VoJ_V - calc_wall_point(structure, beam, end, at));
  }
  return out;
}

Vec3 calc_wall_point(const Structure& structure, int beam, BeamEnd end,
                     const section::WallPoint& at) {
  const Beam& b = structure.beams[at_index(beam)];
  const Vec2 p_OP = calc_sectorial(structure.sections[at_index(b.section)], at).p_OP;
  return (end == BeamEnd::from ? b.p_VoF_V : b.p_VoT_V) +
         calc_axes(b) * Vec3(0, p_OP.x(), p_OP.y());
}

}  // namespace rig::frame
