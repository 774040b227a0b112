#include "geometry/line.h"

#include <cmath>

namespace rig {
namespace {

constexpr double kParallelSine = 1e-12;

}  // namespace

std::optional<Vec2> find_crossing(const Vec2& a0, const Vec2& a1, const Vec2& b0, const Vec2& b1) {
  const Vec2 a = a1 - a0;
  const Vec2 b = b1 - b0;
  const double turn = cross(a, b);
  if (!(std::abs(turn) > kParallelSine * a.norm() * b.norm())) return std::nullopt;
  return a0 + a * (cross(b0 - a0, b) / turn);
}

}  // namespace rig
