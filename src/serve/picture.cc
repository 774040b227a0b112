#include "serve/picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace rig::serve {
namespace {

using Json = nlohmann::json;

constexpr double kMargin_m = 0.15;

// The page's ink, paper lines and steel; docs of the page's look.
constexpr const char* kStyle =
    "<style>*{fill:none;stroke:#3d3a33;stroke-width:.018;stroke-linecap:round;"
    "stroke-linejoin:round}.floor{stroke:#8d877a;stroke-width:.012}"
    ".rail{fill:#cfc9bb}.cross{stroke-width:.01}.tyre{fill:#b9b3a5}.mass{stroke:#8d877a;stroke-"
    "width:.01}"
    ".spring{stroke-width:.028}"
    "@media(prefers-color-scheme:dark){*{stroke:#d9d4c7}.floor,.mass{stroke:#857f72}"
    ".rail{fill:#4a463d}.tyre{fill:#5a554b}}</style>";

struct Spot {
  double u = 0, v = 0;  ///< Right and down the sheet, m.
};

Spot spot(const Json& p) { return {-p[0].get<double>(), -p[2].get<double>()}; }

class Pen {
 public:
  void line(const char* kind, const Spot& a, const Spot& b) {
    svg +=
        fmt::format("<line class=\"{}\" x1=\"{:.3f}\" y1=\"{:.3f}\" x2=\"{:.3f}\" y2=\"{:.3f}\"/>",
                    kind, a.u, a.v, b.u, b.v);
  }
  void circle(const char* kind, const Spot& c, double radius) {
    svg += fmt::format("<circle class=\"{}\" cx=\"{:.3f}\" cy=\"{:.3f}\" r=\"{:.3f}\"/>", kind, c.u,
                       c.v, radius);
  }
  void box(const char* kind, const Spot& c, double length, double height) {
    svg += fmt::format(
        "<rect class=\"{}\" x=\"{:.3f}\" y=\"{:.3f}\" width=\"{:.3f}\" height=\"{:.3f}\"/>", kind,
        c.u - length / 2, c.v - height / 2, length, height);
  }
  /// A part of the frame that runs lengthwise, by the box about its section from place to place.
  void band(const char* kind, const Json& profile) {
    std::string around;
    const auto add = [&](const Json& point, double side) {
      const Spot p = spot(point["p"]);
      const double half = side * point["depth"].get<double>() / 2;
      around += fmt::format("{:.3f},{:.3f} ", p.u, p.v + half);
    };
    for (const Json& point : profile) add(point, -1);
    for (auto point = profile.rbegin(); point != profile.rend(); ++point) add(*point, 1);
    svg += fmt::format("<polygon class=\"{}\" points=\"{}\"/>", kind, around);
  }

  std::string svg;
};

void draw_coil(Pen& pen, const Spot& a, const Spot& b, double radius) {
  constexpr int kTurns = 6;
  const double du = b.u - a.u, dv = b.v - a.v, length = std::hypot(du, dv);
  if (!(length > 0)) return;
  const Spot side{-dv / length * radius, du / length * radius};
  Spot last = a;
  for (int i = 1; i <= 2 * kTurns; ++i) {
    const double t = (i - 0.5) / (2 * kTurns);
    const double sign = i % 2 == 0 ? 1 : -1;
    const Spot next{a.u + t * du + sign * side.u, a.v + t * dv + sign * side.v};
    pen.line("spring", last, next);
    last = next;
  }
  pen.line("spring", last, b);
}

void draw_mass(Pen& pen, const Json& part) {
  const std::string kind = part["kind"];
  if (kind != "box" && kind != "cylinder") return;
  const Spot c = spot(part["centre"]);
  if (kind == "box") {
    pen.box("mass", c, part["size"][0], part["size"][2]);
  } else {
    const double length = part["length"], radius = part["radius"];
    const Json& axis = part["axis"];
    if (axis[1].get<double>() > 0.5) {
      pen.circle("mass", c, radius);
    } else if (axis[0].get<double>() > 0.5) {
      pen.box("mass", c, length, 2 * radius);
    } else {
      pen.box("mass", c, 2 * radius, length);
    }
  }
}

void draw_part(Pen& pen, const Json& part) {
  const std::string kind = part["kind"];
  if (kind == "rail") {
    pen.band("rail", part["profile"]);
  } else if (kind == "crossmember" && part["fate"] != "comes_out") {
    const Json& end = part["profile"][0];
    if (end["round"]) {
      pen.circle("cross", spot(end["p"]), end["depth"].get<double>() / 2);
    } else {
      pen.box("cross", spot(end["p"]), end["width"], end["depth"]);
    }
  } else if (kind == "bar" || kind == "shock" || kind == "stop") {
    pen.line(kind.c_str(), spot(part["a"]["p"]), spot(part["b"]["p"]));
  } else if (kind == "coil") {
    draw_coil(pen, spot(part["a"]["p"]), spot(part["b"]["p"]), part["radius"]);
  } else if (kind == "leaf") {
    pen.line("spring", spot(part["a"]["p"]), spot(part["seat"]["p"]));
    pen.line("spring", spot(part["seat"]["p"]), spot(part["b"]["p"]));
  } else if (kind == "arm") {
    for (const Json& foot : part["feet"]) {
      pen.line("bar", spot(part["apex"]["p"]), spot(foot["p"]));
    }
  } else if (kind == "axle") {
    pen.circle("axle", spot(part["a"]), part["radius"]);
  } else if (kind == "tyre") {
    pen.circle("tyre", spot(part["centre"]), part["radius"]);
    pen.circle("axle", spot(part["centre"]), 0.55 * part["radius"].get<double>());
  }
}

/// What stands in front of what, seen from the side.
int depth_of(const Json& part) {
  const std::string kind = part["kind"];
  if (kind == "tyre") return 1;
  if (kind == "rail") return 2;
  return 3;
}

}  // namespace

std::string picture_svg(const std::string& scene_json) {
  const Json scene = Json::parse(scene_json);
  std::vector<const Json*> parts;
  for (const Json& part : scene["parts"]) parts.push_back(&part);
  std::stable_sort(parts.begin(), parts.end(),
                   [](const Json* a, const Json* b) { return depth_of(*a) < depth_of(*b); });
  const Json& extent = scene["extent"];
  const double left = -extent["front_x"].get<double>() - kMargin_m;
  const double right = -extent["rear_x"].get<double>() + kMargin_m;
  const double top = -extent["top_z"].get<double>() - kMargin_m;
  Pen pen;
  for (const Json* part : parts) draw_mass(pen, *part);
  for (const Json* part : parts) draw_part(pen, *part);
  pen.line("floor", {left, 0}, {right, 0});
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{:.3f} {:.3f} {:.3f} {:.3f}\">{}{}"
      "</svg>",
      left, top, right - left, kMargin_m - top, kStyle, pen.svg);
}

}  // namespace rig::serve
