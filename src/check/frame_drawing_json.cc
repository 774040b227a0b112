#include "check/frame_drawing_json.h"

#include <algorithm>
#include <cmath>

#include "check/frame_json.h"
#include "check/frame_sections.h"
#include "check/json_internal.h"
#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

// What a drawing is rounded to: more can't be seen, and would be most of what is sent.
constexpr double kDrawn_m = 1e-5, kMoved_m = 1e-8, kTurned_rad = 1e-8, kStress_Pa = 1e3;
constexpr double kShare = 1e-4;

/// The nearest multiple of a step. Whole steps to the unit, so that it prints short.
double rounded(double value, double step) {
  const double per_unit = std::round(1 / step);
  const double steps = std::round(value / step);
  return step < 1 ? steps / per_unit + 0.0 : steps * step;
}

Json vector_json(const Vec3& p, double step) {
  return Json::array({rounded(p.x(), step), rounded(p.y(), step), rounded(p.z(), step)});
}

Json motion_json(const std::optional<DrawnMotion>& motion) {
  if (!motion) return nullptr;
  return {
      {"d", vector_json(motion->d_V, kMoved_m)},
      {"r", vector_json(motion->r_V, kTurned_rad)},
      {"stress", rounded(motion->von_mises_Pa, kStress_Pa)},
      {"share", std::isnan(motion->share_of_yield) ? Json(nullptr)
                                                   : Json(rounded(motion->share_of_yield, kShare))},
      {"level", motion->level}};
}

Json member_json(const DrawnMember& member) {
  Json pieces = Json::array();
  for (const auto& piece : member.pieces) {
    Json corners = Json::array(), points = Json::array();
    for (const Vec3& corner : piece.p_PK_V) corners.push_back(vector_json(corner, kDrawn_m));
    for (const auto& point : piece.points) {
      points.push_back({{"p", vector_json(point.p_VoP_V, kDrawn_m)},
                        {"before", motion_json(point.before)},
                        {"after", motion_json(point.after)}});
    }
    pieces.push_back({{"corners", std::move(corners)}, {"points", std::move(points)}});
  }
  return {{"path", member.path},
          {"label", capitalised(member.words)},
          {"before", member.before},
          {"after", member.after},
          {"pieces", std::move(pieces)}};
}

Json state_json(const DrawnState& state, const Printer& print) {
  return {{"worst", stress_place_json(state.worst, print)},
          {"p", vector_json(state.p_VoP_V, kDrawn_m)},
          {"d", vector_json(state.d_V, kMoved_m)},
          {"most", json_from(print.number(state.most_m, Dimension::kLength))}};
}

}  // namespace

Result<std::string> frame_drawing_json(const build::Build& build, const Report& report,
                                       const std::string& case_id) {
  const LoadedFrame* loaded = report.frame ? report.frame->loaded.get() : nullptr;
  std::size_t index = 0;
  if (loaded != nullptr) {
    while (index < loaded->cases.size() && loaded->cases[index].id != case_id) ++index;
  }
  if (loaded == nullptr || index == loaded->cases.size()) {
    return Failure{Diagnostics{{.code = "frame.no_case",
                                .path = "",
                                .message = "the frame is not answered for a case of this name",
                                .remedy = "ask for one of the report's cases",
                                .at = {}}}};
  }
  const Printer print(build.units);
  const FrameDrawing drawing = draw_frame(build, *loaded, index, print);
  Json levels = Json::array(), members = Json::array();
  for (const double level_Pa : drawing.levels_Pa) {
    levels.push_back(json_from(print.number(level_Pa, Dimension::kStress)));
  }
  for (const auto& member : drawing.members) members.push_back(member_json(member));
  const Json json{{"case", drawing.case_id},
                  {"label", drawing.case_label},
                  {"exaggeration", drawing.exaggeration},
                  {"levels", std::move(levels)},
                  {"before", drawing.before ? state_json(*drawing.before, print) : Json(nullptr)},
                  {"after", state_json(drawing.after, print)},
                  {"left_out", drawing.left_out.empty() ? "" : drawing.left_out.front().message},
                  {"members", std::move(members)}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string frame_sections_json(const build::Build& build) {
  Json sections = Json::array();
  const Printer print(build.units);
  const auto model = frame::make_model(build, build::planned_parts(build.frame));
  const auto listed = model ? list_sections(build, *model, print) : std::vector<DrawnSection>();
  const auto flat = [](const Vec2& p) {
    constexpr double kFine_m = 1e-6;
    return Json::array({rounded(p.x(), kFine_m), rounded(p.y(), kFine_m)});
  };
  for (const auto& one : listed) {
    Json walls = Json::array();
    for (const auto& run : one.walls) {
      Json points = Json::array();
      for (const Vec2& p : run.p_OP) points.push_back(flat(p));
      walls.push_back({{"thickness", run.thickness_m}, {"points", std::move(points)}});
    }
    const section::SectionProperties& p = one.properties;
    Json numbers = Json::array();
    const auto add = [&](const char* id, const char* label, const Number& value) {
      numbers.push_back({{"id", id}, {"label", label}, {"value", json_from(value)}});
    };
    const bool rail = !one.crossmember;
    add("area", "Area", print.length_power(p.area_m2, 2));
    add("I_y", "Second moment, bending up and down", print.length_power(p.I_y_m4, 4));
    add("I_z", rail ? "Second moment, bending sideways" : "Second moment, bending fore and aft",
        print.length_power(p.I_z_m4, 4));
    add("J", "Torsion constant", print.length_power(p.torsion_constant_m4, 4));
    add("C_w", "Warping constant",
        print.length_power(p.warping_constant_m6 + p.warping_across_m6, 6));
    add("weight", "Weighs", print.mass_per_length(one.kg_per_m));
    sections.push_back({{"where", one.where},
                        {"paths", one.paths},
                        {"seen", rail ? "from behind" : "from the left"},
                        {"walls", std::move(walls)},
                        {"centroid", flat(p.p_OC)},
                        {"shear_centre", flat(p.p_OS)},
                        {"numbers", std::move(numbers)}});
  }
  return sections.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace rig::check
