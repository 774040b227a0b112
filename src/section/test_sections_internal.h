#pragma once

#include <random>

#include "section/section.h"

namespace rig::section::testing {

/// Two cells side by side with a fin on top and an edge at the foot, every node and thickness
/// shaken. Open, closed and shared walls all in one.
inline Section make_shaken_section(unsigned seed) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> shake_m(-0.015, 0.015), thickness_m(0.002, 0.008);
  Section section{
      .p_ON =
          {{0, 0}, {0.1, 0}, {0.2, 0}, {0.2, 0.1}, {0.1, 0.1}, {0, 0.1}, {0.12, 0.16}, {-0.06, 0}},
      .walls = {{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 5}, {5, 0}, {1, 4}, {4, 6}, {7, 0}}};
  for (Vec2& p : section.p_ON) p += Vec2(shake_m(random), shake_m(random));
  for (Wall& wall : section.walls) wall.thickness_m = thickness_m(random);
  return section;
}

}  // namespace rig::section::testing
