#include "frame/rail_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "base/require.h"
#include "build/words.h"

namespace rig::frame {
namespace {

void list_unknown_places(const build::Entry<build::Rail>& rail, Diagnostics& faults) {
  for (std::size_t i = 0; i < rail.value.line.size(); ++i) {
    const build::Point& point = rail.value.line[i];
    for (const auto& [key, coordinate] :
         {std::pair("station", &point.station), std::pair("offset", &point.offset),
          std::pair("height", &point.height)}) {
      if (coordinate->known()) continue;
      faults.push_back({.code = "frame.unknown_place",
                        .path = fmt::format("{}/line/{}/{}", rail.path, i, key),
                        .message = fmt::format("The {} of point {} of the {} is not known.", key,
                                               i + 1, shop_words(rail.value.label, rail.id)),
                        .remedy = "Measure it, or take the point out.",
                        .at = {}});
    }
  }
}

}  // namespace

bool RailLine::passes(double station_m) const {
  return build::StationRange{front_m(), rear_m()}.holds(station_m);
}

Vec3 RailLine::at(double station_m) const {
  RIG_REQUIRE(passes(station_m));
  const double x = -station_m;
  const auto behind = std::find_if(p_VoP_V.begin() + 1, p_VoP_V.end() - 1,
                                   [x](const Vec3& p) { return p.x() <= x; });
  const Vec3 &a = *(behind - 1), &b = *behind;
  const double share = std::clamp((x - a.x()) / (b.x() - a.x()), 0.0, 1.0);
  return a + share * (b - a);
}

Result<RailLine> make_rail_line(const build::Entry<build::Rail>& rail, int sign) {
  Diagnostics faults;
  const std::string words = shop_words(rail.value.label, rail.id);
  if (rail.value.line.size() < 2) {
    faults.push_back({.code = "frame.short_line",
                      .path = rail.path + "/line",
                      .message = fmt::format("The {} has no line yet.", words),
                      .remedy = "Give the points where it bends, from front to rear: two at least.",
                      .at = {}});
  }
  list_unknown_places(rail, faults);
  if (!faults.empty()) return Failure{std::move(faults)};
  RailLine line{.rail = &rail,
                .sign = sign,
                .p_VoP_V = {},
                .words = side_words(rail.value.both_sides, sign, words)};
  for (const build::Point& point : rail.value.line) {
    Vec3 p = point.p_VP();
    if (rail.value.both_sides && sign < 0) p.y() = -p.y();
    line.p_VoP_V.push_back(p);
  }
  return line;
}

std::string shop_words(const std::string& label, const std::string& id) {
  std::string words = label.empty() ? build::spaced(id) : label;
  // A capital that begins a plain word goes; that of a name such as "A-arm" or "HSS" stays.
  if (words.size() > 1 && std::islower(static_cast<unsigned char>(words[1])) != 0) {
    words[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(words[0])));
  }
  return words;
}

std::string side_words(bool both_sides, int sign, const std::string& words) {
  if (!both_sides) return words;
  return fmt::format("{} {}", sign > 0 ? "left" : "right", words);
}

}  // namespace rig::frame
