#include "frame/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/require.h"
#include "frame/index_internal.h"

namespace rig::frame {

namespace {

/// Nearer than this is "at", m.
constexpr double kAt_m = 0.003;
/// Of a wall's length from its free edge that is still "at its edge".
constexpr double kEdge = 0.2;

std::string print_length(double m, const units::UnitChoices& units) {
  return units::print_quantity(std::abs(m), units::Dimension::kLength, units);
}

const std::string& words_of(const Model& model, std::size_t beam) {
  return model.structure.members[at(model.structure.beams[beam].member)].words;
}

/// The crossmember whose left end is nearest to a station; -1: there is none.
int find_nearest_crossmember(const Model& model, double station_m, double& crossmember_m) {
  int best = -1;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const BeamPlace& place = model.beams[b];
    const bool first = place.sign == 0 && (b == 0 || model.beams[b - 1].path != place.path);
    const double there_m = -model.structure.beams[b].p_VoF_V.x();
    if (!first || !(std::abs(there_m - station_m) < least)) continue;
    least = std::abs(there_m - station_m);
    crossmember_m = there_m;
    best = static_cast<int>(b);
  }
  return best;
}

std::string where_on_rail(const Model& model, double station_m, const units::UnitChoices& units) {
  double crossmember_m = 0;
  const int nearest = find_nearest_crossmember(model, station_m, crossmember_m);
  if (nearest < 0)
    return fmt::format("at station {}{}", station_m < 0 ? "-" : "", print_length(station_m, units));
  const double behind_m = station_m - crossmember_m;
  const std::string& words = words_of(model, at(nearest));
  if (std::abs(behind_m) < kAt_m) return fmt::format("at the {}", words);
  return fmt::format("{} {} the {}", print_length(behind_m, units),
                     behind_m > 0 ? "behind" : "ahead of", words);
}

std::string where_on_crossmember(const Model& model, const AlongBeam& place,
                                 const units::UnitChoices& units) {
  const std::string& path = model.beams[at(place.beam)].path;
  double left_m = -std::numeric_limits<double>::infinity(), right_m = -left_m;
  for (const BeamPlace& one : model.beams) {
    if (one.path != path) continue;
    left_m = std::max(left_m, one.begin_m);
    right_m = std::min(right_m, one.end_m);
  }
  const double offset_m = place_along_m(model, place);
  if (left_m - offset_m < kAt_m) return "at its left end";
  if (offset_m - right_m < kAt_m) return "at its right end";
  if (std::abs(offset_m) < kAt_m) return "on the centreline";
  return fmt::format("{} {} of the centreline", print_length(offset_m, units),
                     offset_m > 0 ? "left" : "right");
}

/// Of a place on the wall of a round tube, as seen from its middle.
std::string describe_round(const Vec2& p, bool rail) {
  constexpr double kUpright = 0.92;  // Within 23 degrees.
  const double up = p.y() / p.norm(), left = p.x() / p.norm();
  const char* aside = rail ? (left > 0 ? "left" : "right") : (left > 0 ? "front" : "rear");
  if (std::abs(up) > kUpright) return up > 0 ? "top" : "bottom";
  if (std::abs(left) > kUpright) return fmt::format("{} side", aside);
  return fmt::format("{} {}", up > 0 ? "upper" : "lower", aside);
}

}  // namespace

double place_along_m(const Model& model, const AlongBeam& where) {
  const BeamPlace& place = model.beams[at(where.beam)];
  const double share = place.runs_back ? 1 - where.share : where.share;
  return place.begin_m + share * (place.end_m - place.begin_m);
}

std::string describe_place(const Model& model, const AlongBeam& where,
                           const units::UnitChoices& units) {
  const BeamPlace& place = model.beams[at(where.beam)];
  return fmt::format("{}, {}", words_of(model, at(where.beam)),
                     place.sign != 0 ? where_on_rail(model, place_along_m(model, where), units)
                                     : where_on_crossmember(model, where, units));
}

std::string describe_wall(const Model& model, int beam, const section::WallPoint& where) {
  const Beam& of = model.structure.beams[at(beam)];
  const section::Section& section = model.structure.sections[at(of.section)]->section;
  RIG_REQUIRE(where.wall >= 0 && at(where.wall) < section.walls.size());
  const section::Wall& wall = section.walls[at(where.wall)];
  if (wall.part == "tube") {
    const Vec2& from = section.p_ON[at(wall.from)];
    const Vec2 p = from + where.share * (section.p_ON[at(wall.to)] - from);
    return describe_round(p, model.beams[at(beam)].sign != 0);
  }
  const bool plate = wall.part == "plate" && !model.beams[at(beam)].plates.empty();
  const std::string part = plate ? "boxing plate" : wall.part;
  const auto free = [&](int node) {
    return std::count_if(
               section.walls.begin(), section.walls.end(),
               [node](const section::Wall& w) { return w.from == node || w.to == node; }) == 1;
  };
  const bool edge =
      (where.share < kEdge && free(wall.from)) || (where.share > 1 - kEdge && free(wall.to));
  return edge ? part + " at its edge" : part;
}

std::string describe_place(const Model& model, const AlongBeam& where,
                           const section::WallPoint& wall, const units::UnitChoices& units) {
  const std::string along = describe_place(model, where, units);
  const std::string& member = words_of(model, at(where.beam));
  return fmt::format("{}, {}{}", member, describe_wall(model, where.beam, wall),
                     along.substr(member.size()));
}

}  // namespace rig::frame
