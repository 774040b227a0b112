// Prints sections with sharp corners as JSON, by the rectangles of their plates and by what we find
// for them, for scipy_torsion.py to solve as solids.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "section/properties.h"
#include "section/shapes.h"

namespace {

using namespace rig::section;

/// y from, z from, y to, z to, m.
using Rectangle = std::array<double, 4>;

bool print_case(const char* name, const Section& section, const std::vector<Rectangle>& plates) {
  const auto p = solve_section(section);
  if (!p) return false;
  double length = 0, thickness = 0;
  std::vector<int> ends(section.p_ON.size(), 0);
  for (const Wall& wall : section.walls) {
    length += wall_length_m(section, wall);
    thickness = wall.thickness_m;
    ++ends[static_cast<std::size_t>(wall.from)];
    ++ends[static_cast<std::size_t>(wall.to)];
  }
  const auto corners = std::count_if(ends.begin(), ends.end(), [](int n) { return n > 1; });
  std::string rectangles;
  for (const Rectangle& r : plates) {
    rectangles += fmt::format("{}[{:.17g}]", rectangles.empty() ? "" : ", ", fmt::join(r, ", "));
  }
  fmt::print(
      "{{\"name\": \"{}\", \"corners\": {}, \"plates\": [{}], \"thickness\": {:.17g}, \"length\": "
      "{:.17g}, "
      "\"J\": {:.17g}, \"cells\": {:.17g}, \"shear_centre\": [{:.17g}, {:.17g}], "
      "\"Cw\": {:.17g}}}",
      name, corners, rectangles, thickness, length, p->torsion_constant_m4,
      p->cells_torsion_constant_m4, p->p_OS.x(), p->p_OS.y(),
      p->warping_constant_m6 + p->warping_across_m6);
  return true;
}

/// A channel t thick, `depth` and `flange` outside.
std::vector<Rectangle> channel_plates(double depth, double flange, double t) {
  const double h = depth / 2, y = flange - t / 2;
  return {{-t / 2, -h, t / 2, h}, {-t / 2, -h, y, -h + t}, {-t / 2, h - t, y, h}};
}

}  // namespace

int main() {
  bool good = true;
  fmt::print("[");
  for (const double t : {0.010, 0.005}) {
    const Channel channel{.depth_m = 0.18 + t, .flange_m = 0.08 + t / 2, .thickness_m = t};
    const auto plates = channel_plates(channel.depth_m, channel.flange_m, t);
    const char* thin = t < 0.008 ? "half as thick" : "thick";
    good &= print_case(fmt::format("channel, {}", thin).c_str(), *make_channel(channel), plates);
    fmt::print(", ");

    const BoxingPlate plate{.thickness_m = t, .inset_m = 0.01};
    auto boxed = plates;
    const double face = channel.flange_m - t / 2 - plate.inset_m;
    boxed.push_back({face - t, -channel.depth_m / 2, face, channel.depth_m / 2});
    good &= print_case(fmt::format("boxed channel, {}", thin).c_str(),
                       *make_boxed_channel(channel, plate), boxed);
    fmt::print(", ");

    Section cells =
        *make_rectangular_tube({.width_m = 0.16 + t, .depth_m = 0.1 + t, .thickness_m = t});
    // A web between the bottom, wall 0, and the top, wall 2.
    const double y = -0.08 + 0.06, h = 0.05;
    cells.p_ON.emplace_back(y, -h);
    cells.p_ON.emplace_back(y, h);
    cells.walls[0].to = 4;
    cells.walls[2].to = 5;
    cells.walls.push_back({.from = 4, .to = 1, .thickness_m = t});
    cells.walls.push_back({.from = 5, .to = 3, .thickness_m = t});
    cells.walls.push_back({.from = 4, .to = 5, .thickness_m = t});
    const double out = 0.08 + t / 2, up = h + t / 2;
    good &= print_case(fmt::format("two cells, {}", thin).c_str(), cells,
                       {{-out, -up, out, -up + t},
                        {-out, up - t, out, up},
                        {-out, -up, -out + t, up},
                        {out - t, -up, out, up},
                        {y - t / 2, -up, y + t / 2, up}});
    fmt::print("{}", t < 0.008 ? "]\n" : ", ");
  }
  return good ? 0 : 1;
}
