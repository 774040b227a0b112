#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "frame/index_internal.h"
#include "frame/locked_stress_internal.h"

namespace rig::frame {

namespace {

/// Which of some names the part of each wall has; those that are not there yet are added.
std::vector<int> number_parts(const section::Section& section,
                              std::vector<const std::string*>& names) {
  std::vector<int> out;
  out.reserve(section.walls.size());
  for (const section::Wall& wall : section.walls) {
    // Walls of one part follow each other.
    if (!out.empty() && *names[at(out.back())] == wall.part) {
      out.push_back(out.back());
      continue;
    }
    const auto known = std::find_if(names.begin(), names.end(),
                                    [&](const std::string* name) { return *name == wall.part; });
    out.push_back(static_cast<int>(known - names.begin()));
    if (known == names.end()) names.push_back(&wall.part);
  }
  return out;
}

}  // namespace

LockedStress::LockedStress(const BeamSection& section, const section::SectionForces& forces,
                           const BeamSection& before, const section::SectionForces& locked)
    : section_(section.section),
      before_(before.section),
      now_(section.section, section.properties, forces),
      locked_(before.section, before.properties, locked) {
  std::vector<const std::string*> names;
  parts_ = number_parts(section_, names);
  parts_before_ = number_parts(before_, names);
  most_locked_Pa_.assign(names.size(), 0);
  for (std::size_t w = 0; w < locked_.walls(); ++w) {
    double& most_Pa = most_locked_Pa_[at(parts_before_[w])];
    most_Pa = std::max(most_Pa, locked_.bound_Pa(w));
  }
}

std::array<section::WallStress, 3> LockedStress::across(int wall, double share) const {
  std::array<section::WallStress, 3> out = now_.across(wall, share);
  const section::Wall& here = section_.walls[at(wall)];
  const Vec2& a = section_.p_ON[at(here.from)];
  const Vec2 p = a + share * (section_.p_ON[at(here.to)] - a);
  int nearest = -1;
  double nearest_share = 0, least_m2 = std::numeric_limits<double>::infinity();
  for (std::size_t w = 0; w < before_.walls.size(); ++w) {
    if (parts_before_[w] != parts_[at(wall)]) continue;
    const section::Wall& there = before_.walls[w];
    const Vec2& b = before_.p_ON[at(there.from)];
    const Vec2 along = before_.p_ON[at(there.to)] - b;
    const double along_it = std::clamp(along.dot(p - b) / along.squaredNorm(), 0.0, 1.0);
    const double far_m2 = (b + along_it * along - p).squaredNorm();
    if (!(far_m2 < least_m2)) continue;
    least_m2 = far_m2;
    nearest = static_cast<int>(w);
    nearest_share = along_it;
  }
  if (nearest < 0) return out;
  const auto locked = locked_.across(nearest, nearest_share);
  for (std::size_t i = 0; i < out.size(); ++i) {
    section::WallStress& stress = out[i];
    stress.axial_Pa += locked[i].axial_Pa;
    stress.shear_flow_N_per_m += locked[i].shear_flow_N_per_m;
    stress.shear_Pa += locked[i].shear_Pa;
    stress.von_mises_Pa =
        std::sqrt(stress.axial_Pa * stress.axial_Pa + 3 * stress.shear_Pa * stress.shear_Pa);
  }
  return out;
}

}  // namespace rig::frame
