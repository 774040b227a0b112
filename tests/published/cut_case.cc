// Prints as JSON what a small frame does when its middle tube is cut out, and the numbers of its
// sections, for scipy_cut.py to find again with a frame of its own.

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "build/read.h"
#include "frame/cut.h"
#include "frame/part_sections.h"

namespace {

using namespace rig;
using Json = nlohmann::ordered_json;

/// The same numbers stand in scipy_cut.py.
constexpr const char* kFrame = R"({"version": 1, "frame": {
  "steels": {"steel": {"modulus": "205000 MPa", "poisson_ratio": 0.3}},
  "rails": {"main": {"both_sides": true, "steel": "steel",
    "section": {"shape": "channel", "depth": "150 mm", "flange": "50 mm", "thickness": "5 mm"},
    "line": [{"station": "0 mm", "offset": "400 mm", "height": "600 mm"},
             {"station": "3000 mm", "offset": "400 mm", "height": "600 mm"}]}},
  "crossmembers": {
    "front": {"at": {"station": "100 mm"}, "joint": "through_web", "steel": "steel",
      "section": {"shape": "round_tube", "outside_diameter": "60 mm", "thickness": "5 mm"}},
    "middle": {"at": {"station": "1500 mm"}, "joint": "through_web", "steel": "steel", "fate": "comes_out",
      "section": {"shape": "round_tube", "outside_diameter": "60 mm", "thickness": "5 mm"}},
    "rear": {"at": {"station": "2900 mm"}, "joint": "through_web", "steel": "steel",
      "section": {"shape": "round_tube", "outside_diameter": "60 mm", "thickness": "5 mm"}}},
  "mounts": {"cab": {"both_sides": true, "station": "1300 mm", "offset": "550 mm"},
             "tank": {"station": "1900 mm", "offset": "500 mm"}},
  "stages": {"cut": {"take_out": ["middle"],
    "stands": {"front": {"station": "250 mm"}, "rear": {"station": "2750 mm"}}}}}})";

frame::Loads weights(const frame::Model& model, std::size_t) {
  frame::Loads loads;
  for (const auto& one : model.attachments) {
    if (one.kind != frame::AttachmentKind::mount) continue;
    const double N = one.path == "/frame/mounts/tank" ? 800 : one.sign > 0 ? 4000 : 3000;
    loads.points.push_back({.joint = one.joint, .p_VoP_V = one.p_VoP_V, .f_P_V = {0, 0, -N}});
  }
  return loads;
}

Json section_json(const build::SectionSizes& sizes) {
  const auto made = frame::make_section(sizes, "");
  const auto p = section::solve_section(*made);
  return {{"A", p->area_m2},
          {"I_y", p->I_y_m4},
          {"I_z", p->I_z_m4},
          {"J", p->torsion_constant_m4},
          {"C_w", sizes.shape == build::SectionShape::kChannel
                      ? p->warping_constant_m6 + p->warping_across_m6
                      : 0},
          {"y_C", p->p_OC.norm()},
          {"y_S", -p->p_OS.norm()},
          {"A_y", p->shear_area_y_m2},
          {"A_z", p->shear_area_z_m2}};
}

Json forces_json(const frame::EndForces& f) {
  return {f.axial_N,   f.shear_lengthwise_N, f.shear_upright_N,
          f.torque_Nm, f.moment_upright_Nm,  f.moment_lengthwise_Nm};
}

Json change_json(const frame::StageChange& change) {
  Json stands = Json::array();
  for (const auto& stand : change.stands) stands.push_back(stand.force_N);
  return {{"stands", stands},
          {"height", change.height.change_m},
          {"left_front", change.diagonals->left_front_m},
          {"right_front", change.diagonals->right_front_m}};
}

}  // namespace

int main() {
  const auto read = build::read_build(kFrame);
  if (!read) {
    fmt::print(stderr, "{} {}\n", read.error().front().path, read.error().front().message);
    return 1;
  }
  const auto cut = frame::solve_cut(read->build, 0, weights);
  if (!cut) {
    fmt::print(stderr, "{} {}\n", cut.error().front().path, cut.error().front().message);
    return 1;
  }
  const auto& frame = read->build.frame;
  Json before = Json::array(), places = Json::array();
  for (const auto& stand : cut->stands_before) before.push_back(stand.force_N);
  for (const auto& stand : cut->stands) {
    places.push_back({stand.p_VoP_V.x(), stand.p_VoP_V.y(), stand.p_VoP_V.z()});
  }
  const frame::CutPart& part = cut->parts.front();
  const Json out{{"rail", section_json(*frame.rails.begin()->value.section)},
                 {"tube", section_json(*frame.crossmembers.begin()->value.section)},
                 {"stands", places},
                 {"stands_before", before},
                 {"left_end", forces_json(part.first)},
                 {"right_end", forces_json(part.second)},
                 {"spring", {part.spring->ahead_m, part.spring->apart_m, part.spring->height_m}},
                 {"after", change_json(cut->change)}};
  fmt::print("{}\n", out.dump());
}
