#include "section/holes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "section/area_internal.h"

namespace rig::section {

namespace {

Diagnostics check_holes(const Section& section, const std::vector<Hole>& holes) {
  Diagnostics out;
  const auto add = [&](const char* code, std::size_t hole, std::string message,
                       std::string remedy) {
    out.push_back({.code = code,
                   .path = fmt::format("/holes/{}", hole),
                   .message = std::move(message),
                   .remedy = std::move(remedy),
                   .at = {}});
  };
  for (std::size_t i = 0; i < holes.size(); ++i) {
    const Hole& hole = holes[i];
    if (hole.wall < 0 || !std::cmp_less(hole.wall, section.walls.size())) {
      add("section.unknown_wall", i, fmt::format("hole {} is in wall {}", i + 1, hole.wall + 1),
          fmt::format("there are {} walls", section.walls.size()));
      continue;
    }
    const double length =
        wall_length_m(section, section.walls[static_cast<std::size_t>(hole.wall)]);
    if (!(hole.diameter_m > 0 && hole.centre_m > hole.diameter_m / 2 &&
          hole.centre_m + hole.diameter_m / 2 < length)) {
      add("section.hole_outside_wall", i,
          fmt::format("hole {}, {} m wide at {} m, is not within its wall of {} m", i + 1,
                      hole.diameter_m, hole.centre_m, length),
          "move it, or make it smaller");
      continue;
    }
    for (std::size_t k = 0; k < i; ++k) {
      const double apart = std::abs(holes[k].centre_m - hole.centre_m);
      if (holes[k].wall != hole.wall || apart >= (holes[k].diameter_m + hole.diameter_m) / 2) {
        continue;
      }
      add("section.holes_overlap", i, fmt::format("holes {} and {} overlap", k + 1, i + 1),
          "give the width of both together as one");
    }
  }
  return out;
}

std::vector<Stretch> what_is_left(const Section& section, std::vector<Hole> holes) {
  std::sort(holes.begin(), holes.end(),
            [](const Hole& a, const Hole& b) { return a.centre_m < b.centre_m; });
  std::vector<Stretch> left;
  for (std::size_t w = 0; w < section.walls.size(); ++w) {
    const Wall& wall = section.walls[w];
    const Vec2 start = section.p_ON[static_cast<std::size_t>(wall.from)];
    const double length = wall_length_m(section, wall);
    const Vec2 along = (section.p_ON[static_cast<std::size_t>(wall.to)] - start) / length;
    double from = 0;
    for (const Hole& hole : holes) {
      if (!std::cmp_equal(hole.wall, w)) continue;
      const double to = hole.centre_m - hole.diameter_m / 2;
      left.push_back(
          {start + from * along, start + to * along, wall.thickness_m, wall.curvature_per_m});
      from = hole.centre_m + hole.diameter_m / 2;
    }
    left.push_back(
        {start + from * along, start + length * along, wall.thickness_m, wall.curvature_per_m});
  }
  return left;
}

}  // namespace

Result<NetSection> calc_net_section(const Section& section, const std::vector<Hole>& holes) {
  Diagnostics faults = check_section(section);
  if (faults.empty()) faults = check_holes(section, holes);
  if (!faults.empty()) return Failure{std::move(faults)};
  const AreaMoments left = calc_area_moments(what_is_left(section, holes));
  return NetSection{.area_m2 = left.area_m2,
                    .p_OC = left.p_OC,
                    .I_y_m4 = left.second_m4(1, 1),
                    .I_z_m4 = left.second_m4(0, 0),
                    .I_yz_m4 = left.second_m4(0, 1)};
}

Result<double> calc_hole_factor(double diameter_m, double width_m) {
  if (!(diameter_m > 0) || !std::isfinite(width_m)) {
    return fail("section.size_not_positive", "/diameter_m",
                fmt::format("a hole of {} m in a strip of {} m", diameter_m, width_m),
                "give the hole's diameter and the strip's width");
  }
  if (!(diameter_m < width_m)) {
    return fail(
        "section.hole_outside_wall", "/diameter_m",
        fmt::format("a hole of {} m leaves nothing of a strip of {} m", diameter_m, width_m),
        "make it smaller");
  }
  const double rest = 1 - diameter_m / width_m;
  return 2 + rest * (0.284 + rest * (-0.600 + rest * 1.32));
}

Result<double> calc_hole_edge_stress_Pa(double axial_Pa, double shear_Pa, double diameter_m,
                                        double width_m) {
  const auto factor = calc_hole_factor(diameter_m, width_m);
  if (!factor) return Failure{factor.error()};
  const double gross_factor = *factor / (1 - diameter_m / width_m);
  const double radius = std::hypot(axial_Pa / 2, shear_Pa);
  // 3 s1 - s2 with s1 the principal stress of greater size.
  return (std::abs(axial_Pa) + 4 * radius) * gross_factor / 3;
}

}  // namespace rig::section
