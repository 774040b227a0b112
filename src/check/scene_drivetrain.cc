#include "build/drivetrain_lookup.h"
#include "build/move_cases.h"
#include "check/scene_frame_internal.h"

namespace rig::check {
namespace {

// Sizes to draw what the file gives no size for, m.
constexpr double kCaseRadius_m = 0.12;
constexpr double kShaftRadius_m = 0.038;

Json end(const std::string& body, const Vec3& p_VoP_V, const std::string& path) {
  return {{"body", body}, {"p", json_from(p_VoP_V)}, {"path", path}};
}

template <typename T>
std::string name_of(const build::Entry<T>& entry) {
  return entry.value.label.empty() ? entry.id : entry.value.label;
}

/// Four of its front face and four of its rear face, each from the left upper one round; nothing
/// where the file tells none of its sizes.
Json corners_of(const build::CaseFaces& faces) {
  const build::Segment& segment = faces.segment->value;
  const auto size = [](const build::Length& told, double share) {
    return told.known() ? share * told.si : kCaseRadius_m;
  };
  if (!segment.width.known() && !segment.above.known() && !segment.below.known()) return nullptr;
  const Vec3 left = Vec3::UnitY();
  const Vec3 up = left.cross(faces.d_V).normalized();
  const Vec3 half = size(segment.width, 0.5) * left;
  const Vec3 above = size(segment.above, 1) * up, below = -size(segment.below, 1) * up;
  Json corners = Json::array();
  for (const Vec3& middle : {faces.p_VoF_V, faces.p_VoR_V}) {
    for (const Vec3& off :
         {Vec3(half + above), Vec3(above - half), Vec3(below - half), Vec3(half + below)}) {
      corners.push_back(json_from(Vec3(middle + off)));
    }
  }
  return corners;
}

/// The ways in which a hand can move the line of cases that one belongs to.
Json moves_of(const build::Drivetrain& drivetrain, const build::CaseFaces& faces) {
  if (!build::moves_sideways(drivetrain, faces.line)) return {"station", "height"};
  return {"station", "offset", "height"};
}

void add_cases(const build::Drivetrain& drivetrain, Json& parts) {
  for (const auto& faces : build::find_faces(drivetrain, build::Carried::kAsPlanned)) {
    if (!faces.p_VoR_V.allFinite()) continue;
    const auto& entry = *faces.segment;
    const bool starts = entry.value.starts_at.known();
    parts.push_back({{"kind", "case"},
                     {"name", entry.id},
                     {"path", entry.path},
                     {"label", name_of(entry)},
                     {"a", end("frame", faces.p_VoF_V, starts ? entry.path + "/starts_at" : "")},
                     {"b", end("frame", faces.p_VoR_V, "")},
                     {"radius", kCaseRadius_m},
                     {"corners", corners_of(faces)},
                     {"moves", moves_of(drivetrain, faces)}});
  }
}

void add_mounts(const build::Drivetrain& drivetrain, Json& parts) {
  for (const auto& entry : drivetrain.mounts) {
    if (!build::is_in(entry.value.fate, build::Carried::kAsPlanned)) continue;
    for (const build::MountSide& side : build::find_sides(entry.value)) {
      const char* suffix = side.sign > 0 ? ".left" : side.sign < 0 ? ".right" : "";
      parts.push_back({{"kind", "mount"},
                       {"name", entry.id + suffix},
                       {"path", entry.path},
                       {"label", name_of(entry)},
                       {"at", end("frame", side.p_VoM_V, entry.path + "/at")},
                       {"axis", json_from(side.axis_V)}});
    }
  }
}

void add_shafts(const build::Build& build, Json& parts) {
  for (const auto& entry : build.drivetrain.shafts) {
    const auto* output = build::find(build.drivetrain.outputs, entry.value.from.id);
    if (output == nullptr || !output->value.joint.known() || !entry.value.end_joint.known()) {
      continue;
    }
    const bool on_axle = build::find(build.axles, entry.value.to.id) != nullptr;
    const auto piece = [&](const std::string& suffix, Json a, Json b,
                           const build::ShaftTube& tube) {
      parts.push_back({{"kind", "shaft"},
                       {"name", entry.id + suffix},
                       {"path", entry.path},
                       {"label", name_of(entry)},
                       {"a", std::move(a)},
                       {"b", std::move(b)},
                       {"radius", tube.outside_diameter.known() ? tube.outside_diameter.si / 2
                                                                : kShaftRadius_m}});
    };
    Json from = end("frame", output->value.joint.p_VP(), output->path + "/joint");
    if (entry.value.bearing && entry.value.bearing->joint.known()) {
      Json middle = end("frame", entry.value.bearing->joint.p_VP(), entry.path + "/bearing/joint");
      piece(".front", std::move(from), middle, entry.value.bearing->front_tube);
      from = std::move(middle);
    }
    piece("", std::move(from),
          end(on_axle ? entry.value.to.id : "frame", entry.value.end_joint.p_VP(),
              entry.path + "/end_joint"),
          entry.value.tube);
  }
}

void add_gaps(const build::Build& build, Json& parts) {
  for (const auto& entry : build.drivetrain.gaps) {
    const build::Gap& gap = entry.value;
    if (!gap.at.known() || !gap.to.known()) continue;
    const bool on_axle = build::find(build.axles, gap.axle.id) != nullptr;
    parts.push_back(
        {{"kind", "gap"},
         {"name", entry.id},
         {"path", entry.path},
         {"label", name_of(entry)},
         {"a", end("frame", gap.at.p_VP(), entry.path + "/at")},
         {"b", end(on_axle ? gap.axle.id : "frame", gap.to.p_VP(), entry.path + "/to")}});
  }
}

}  // namespace

Json drivetrain_parts_json(const build::Build& build) {
  Json parts = Json::array();
  add_cases(build.drivetrain, parts);
  add_mounts(build.drivetrain, parts);
  add_shafts(build, parts);
  add_gaps(build, parts);
  return parts;
}

}  // namespace rig::check
