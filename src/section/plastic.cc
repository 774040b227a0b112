#include "section/plastic.h"

#include <algorithm>
#include <cmath>

namespace rig::section {

namespace {

/// Below this share of the wider one, the narrower width of a slanted rectangle counts as none: the
/// third differences of the exact form would lose more digits than leaving it out costs.
constexpr double kNarrow = 1e-5;

/// A wall as seen along the neutral axis: the sum of two evenly spread heights.
struct Spread {
  double area = 0, middle = 0, wide = 0, narrow = 0;
};

double odd_square(double x) { return x * std::abs(x); }
double even_cube(double x) { return x * x * std::abs(x); }

/// Mean of |x| over the wall, with x its height over the level.
double mean_distance(const Spread& s, double level) {
  const double x = s.middle - level, a = s.wide, b = s.narrow;
  if (std::abs(x) >= (a + b) / 2) return std::abs(x);
  if (b <= kNarrow * a) return (odd_square(x + a / 2) - odd_square(x - a / 2)) / (2 * a);
  return (even_cube(x + (a + b) / 2) - even_cube(x + (a - b) / 2) - even_cube(x - (a - b) / 2) +
          even_cube(x - (a + b) / 2)) /
         (6 * a * b);
}

/// Share of the wall above the level less the share below.
double mean_sign(const Spread& s, double level) {
  const double x = s.middle - level, a = s.wide, b = s.narrow;
  if (std::abs(x) >= (a + b) / 2) return x > 0 ? 1 : -1;
  if (b <= kNarrow * a) return (std::abs(x + a / 2) - std::abs(x - a / 2)) / a;
  return (odd_square(x + (a + b) / 2) - odd_square(x + (a - b) / 2) - odd_square(x - (a - b) / 2) +
          odd_square(x - (a + b) / 2)) /
         (2 * a * b);
}

}  // namespace

double calc_plastic_modulus_m3(const Section& section, const Vec2& up) {
  std::vector<Spread> walls;
  double low = std::numeric_limits<double>::infinity(), high = -low;
  for (const Wall& wall : section.walls) {
    const Vec2& p = section.p_ON[static_cast<std::size_t>(wall.from)];
    const Vec2& q = section.p_ON[static_cast<std::size_t>(wall.to)];
    const double length = (q - p).norm();
    const Vec2 along = (q - p) / length;
    const double rise = std::abs(along.dot(up)) * length;
    const double depth = std::abs(along.x() * up.y() - along.y() * up.x()) * wall.thickness_m;
    walls.push_back({.area = length * wall.thickness_m,
                     .middle = up.dot(p + q) / 2,
                     .wide = std::max(rise, depth),
                     .narrow = std::min(rise, depth)});
    low = std::min(low, walls.back().middle - (rise + depth) / 2);
    high = std::max(high, walls.back().middle + (rise + depth) / 2);
  }
  // The level with as much area above as below; halved until the interval no longer shrinks.
  for (;;) {
    const double level = low + (high - low) / 2;
    if (!(level > low && level < high)) break;
    double above = 0;
    for (const Spread& s : walls) above += s.area * mean_sign(s, level);
    (above > 0 ? low : high) = level;
  }
  double modulus = 0;
  for (const Spread& s : walls) modulus += s.area * mean_distance(s, low);
  return modulus;
}

}  // namespace rig::section
