#include <algorithm>
#include <cmath>
#include <limits>

#include "frame/index_internal.h"
#include "frame/locked_stress_internal.h"

namespace rig::frame {

LockedStress::LockedStress(const BeamSection& section, const section::SectionForces& forces,
                           const BeamSection& before, const section::SectionForces& locked)
    : section_(section.section),
      before_(before.section),
      now_(section.section, section.properties, forces),
      locked_(before.section, before.properties, locked),
      same_part_(section.section.walls.size()) {
  for (std::size_t w = 0; w < section_.walls.size(); ++w) {
    for (std::size_t b = 0; b < before_.walls.size(); ++b) {
      if (before_.walls[b].part == section_.walls[w].part) {
        same_part_[w].push_back(static_cast<int>(b));
      }
    }
  }
}

section::WallStress LockedStress::at(const section::WallPoint& place) const {
  section::WallStress out = now_.at(place);
  if (same_part_[frame::at(place.wall)].empty()) return out;
  const section::Wall& wall = section_.walls[frame::at(place.wall)];
  const Vec2& a = section_.p_ON[frame::at(wall.from)];
  const Vec2 p = a + place.share * (section_.p_ON[frame::at(wall.to)] - a);
  section::WallPoint same{.face = place.face};
  double least_m2 = std::numeric_limits<double>::infinity();
  for (const int other : same_part_[frame::at(place.wall)]) {
    const section::Wall& there = before_.walls[frame::at(other)];
    const Vec2& b = before_.p_ON[frame::at(there.from)];
    const Vec2 along = before_.p_ON[frame::at(there.to)] - b;
    const double share = std::clamp(along.dot(p - b) / along.squaredNorm(), 0.0, 1.0);
    const double far_m2 = (b + share * along - p).squaredNorm();
    if (!(far_m2 < least_m2)) continue;
    least_m2 = far_m2;
    same.wall = other;
    same.share = share;
  }
  const section::WallStress more = locked_.at(same);
  out.axial_Pa += more.axial_Pa;
  out.shear_flow_N_per_m += more.shear_flow_N_per_m;
  out.shear_Pa += more.shear_Pa;
  out.von_mises_Pa = std::sqrt(out.axial_Pa * out.axial_Pa + 3 * out.shear_Pa * out.shear_Pa);
  return out;
}

}  // namespace rig::frame
