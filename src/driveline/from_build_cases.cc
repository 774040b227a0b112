#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "driveline/from_build.h"
#include "driveline/from_build_internal.h"
#include "weigh/items.h"

namespace rig::driveline {
namespace {

/// Makes the lines of one build.
class LineMaker {
 public:
  LineMaker(const build::Build& build, build::Carried carried) : build_(build), carried_(carried) {
    auto items = weigh::resolve_items(build, "");
    if (items) items_ = std::move(items->items);
  }

  std::vector<CaseLineFromBuild> make() {
    std::vector<CaseLineFromBuild> lines;
    for (const build::CaseFaces& faces : build::find_faces(build_.drivetrain, carried_)) {
      lines.resize(static_cast<std::size_t>(faces.line) + 1);
      add_case(faces, lines.back());
    }
    for (const auto& mount : build_.drivetrain.mounts) {
      if (build::is_in(mount.value.fate, carried_)) add_mount(mount, lines);
    }
    return lines;
  }

 private:
  void add_case(const build::CaseFaces& faces, CaseLineFromBuild& out) const {
    const auto& entry = *faces.segment;
    const build::Segment& segment = entry.value;
    const std::string name = name_of_entry(entry);
    const auto lack = [&](const char* key, const std::string& what) {
      out.missing.push_back({entry.path + key, fmt::format("{} of the {}", what, name),
                             "what the mounts and flanges of the cases carry"});
    };
    Case one{.id = entry.id, .label = name, .p_VoF_V = faces.p_VoF_V, .p_VoR_V = faces.p_VoR_V};
    if (out.line.cases.empty() && !segment.starts_at.known()) lack("/starts_at", "front face");
    if (!segment.length.known()) lack("/length", "length");
    const auto item = std::find_if(items_.begin(), items_.end(), [&](const weigh::Item& known) {
      return known.id == segment.mass.id;
    });
    if (item == items_.end()) {
      lack("/mass", "mass and balance point");
    } else {
      one.mass_kg = item->mass_kg();
      one.p_VoCm_V = item->p_VoCm_V();
      one.I_Cm_V = item->properties.I_BBcm_V;
    }
    if (segment.bending.known() && segment.length.known()) {
      // A beam under end moments M turns by M L / (E I) between its ends.
      one.bending_Nm2 = segment.bending.si * segment.length.si;
    }
    out.line.cases.push_back(std::move(one));
    out.paths.push_back(entry.path);
    out.front_patterns.push_back(segment.front_pattern);
    out.rear_patterns.push_back(segment.rear_pattern);
  }

  void add_mount(const build::Entry<build::DriveMount>& entry,
                 std::vector<CaseLineFromBuild>& lines) const {
    for (CaseLineFromBuild& line : lines) {
      for (std::size_t i = 0; i < line.line.cases.size(); ++i) {
        if (line.line.cases[i].id == entry.value.segment.id) return add_mount(entry, i, line);
      }
    }
    if (lines.empty()) return;
    lines.front().missing.push_back(
        {entry.path + "/segment", fmt::format("the case that the {} carries", name_of_entry(entry)),
         "what the mounts and flanges of the cases carry"});
  }

  static void add_mount(const build::Entry<build::DriveMount>& entry, std::size_t on,
                        CaseLineFromBuild& out) {
    const build::DriveMount& mount = entry.value;
    const std::string name = name_of_entry(entry);
    const auto lack = [&](const char* key, const char* what) {
      out.missing.push_back({entry.path + key, fmt::format("{} of the {}", what, name),
                             "what the mounts and flanges of the cases carry"});
    };
    if (!mount.at.known()) lack("/at", "place");
    if (!mount.compression.known()) lack("/compression", "rate");
    if (!mount.at.known() || !mount.compression.known()) return;
    if (!mount.shear.known()) {
      out.assumptions.push_back(fmt::format(
          "\"{}\" is a third as stiff across as along its axis (common practice)", name));
    }
    for (const build::MountSide& side : build::find_sides(mount)) {
      CaseMount made{.path = entry.path,
                     .sign = side.sign,
                     .label = name,
                     .on = on,
                     .p_VoM_V = side.p_VoM_V,
                     .K_V = build::mount_stiffness(mount, side),
                     .axis_V = side.axis_V};
      if (mount.snub_gap.known() && mount.snub_rate.known()) {
        made.snub_gap_m = mount.snub_gap.si;
        made.snub_rate_N_per_m = mount.snub_rate.si;
      }
      out.line.mounts.push_back(std::move(made));
    }
  }

  const build::Build& build_;
  build::Carried carried_;
  std::vector<weigh::Item> items_;
};

}  // namespace

std::vector<CaseLineFromBuild> case_lines_from_build(const build::Build& build,
                                                     build::Carried carried) {
  return LineMaker(build, carried).make();
}

}  // namespace rig::driveline
