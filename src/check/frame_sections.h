#pragma once

#include <string>
#include <vector>

#include "check/printer.h"
#include "frame/model.h"

/// What a frame's parts are when they are sawn through.
namespace rig::check {

/// A run of walls of one thickness, end to end.
struct DrawnWalls {
  double thickness_m = 0;
  std::vector<Vec2> p_OP;  ///< Along the midline, m; the first again at the end where it closes.
};

/// One of the sections of a frame, in its own axes (y, z): of a rail looked at from behind, y to
/// the left; of a crossmember looked at from the left, y forward. z up.
struct DrawnSection {
  std::vector<std::string> where;  ///< "Frame rail, station 20 in to 52 in"
  std::vector<std::string> paths;  ///< Of the parts that have it.
  bool crossmember = false;
  std::vector<DrawnWalls> walls;
  section::SectionProperties properties;
  double kg_per_m = 0;
};

/// Each different section of a model once: along the rails from the front back, of both sides
/// together (drawn as on the left), then those of the crossmembers. Of a stretch that tapers both
/// of its ends.
std::vector<DrawnSection> list_sections(const build::Build& build, const frame::Model& model,
                                        const Printer& print);

}  // namespace rig::check
