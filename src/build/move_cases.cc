#include "build/move_cases.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "build/drivetrain_lookup.h"
#include "build/patch_lines_internal.h"
#include "build/read_internal.h"
#include "units/factors.h"

namespace rig::build {
namespace {

/// A move, read.
struct CasesMotion {
  Vec3 travel_V = Vec3::Zero();
  double tilt_rad = 0;
  Vec3 p_VoPivot_V = Vec3::Zero();

  Vec3 move(const Vec3& p_VoP_V) const {
    // Down to the rear: what points to the rear, -x, gets a part along -z.
    return p_VoPivot_V + travel_V +
           Eigen::AngleAxisd(-tilt_rad, Vec3::UnitY()) * (p_VoP_V - p_VoPivot_V);
  }
};

units::UnitChoices choices_of(const Build& build) {
  return {build.units.metric, build.units.fraction_of_inch};
}

class CasesMover {
 public:
  CasesMover(const Node& root, const Build& build, int line, CasesMotion motion)
      : root_(root),
        build_(build),
        line_(line),
        motion_(std::move(motion)),
        choices_(choices_of(build)) {}

  std::string write() {
    const Drivetrain& drivetrain = build_.drivetrain;
    move_line();
    for (const auto& output : drivetrain.outputs) {
      if (!is_moved(output.value.segment)) continue;
      move(output.path + "/joint", output.value.joint);
      turn(output.path + "/slope", output.value.slope);
    }
    for (const auto& mount : drivetrain.mounts) {
      if (is_moved(mount.value.segment)) move(mount.path + "/at", mount.value.at);
    }
    for (const auto& gap : drivetrain.gaps) {
      if (is_moved(gap.value.segment)) move(gap.path + "/at", gap.value.at);
    }
    return patch_.text();
  }

 private:
  void move_line() {
    for (const CaseFaces& faces : find_faces(build_.drivetrain, Carried::kAsPlanned)) {
      if (faces.line != line_) continue;
      const Entry<Segment>& entry = *faces.segment;
      const bool is_first = moved_.empty();
      moved_.insert(entry.id);
      move(entry.path + "/starts_at", entry.value.starts_at);
      if (is_first && !entry.value.slope.known()) {
        write_angle(entry.path + "/slope", motion_.tilt_rad);
      } else {
        turn(entry.path + "/slope", entry.value.slope);
      }
      const auto* mass = find(build_.masses, entry.value.mass.id);
      if (mass != nullptr) move(mass->path + "/at", mass->value.at);
    }
  }

  bool is_moved(const Reference& segment) const { return moved_.contains(segment.id); }

  void move(const std::string& path, const Point& point) {
    if (!point.known()) return;
    const Vec3 from = point.p_VP(), to = motion_.move(from);
    write_length(path + "/station", -from.x(), -to.x());
    write_length(path + "/offset", from.y(), to.y());
    write_length(path + "/height", from.z(), to.z());
  }

  void turn(const std::string& path, const Angle& slope) {
    if (slope.known()) write_angle(path, slope.si + motion_.tilt_rad);
  }

  void write_length(const std::string& path, double from_m, double to_m) {
    constexpr double kNone_m = 1e-9;
    if (std::abs(to_m - from_m) < kNone_m) return;
    const double in_unit = to_m * units::per_si(units::Dimension::kLength, choices_);
    write(path, fmt::format("{:.{}f} {}", in_unit, choices_.metric ? 2 : 3,
                            units::unit_name(units::Dimension::kLength, choices_)));
  }
  void write_angle(const std::string& path, double rad) {
    if (motion_.tilt_rad == 0) return;
    write(path, fmt::format("{:.3f} deg", units::deg_from_rad(rad)));
  }

  /// Over the value alone where it is known how it came about.
  void write(const std::string& path, const std::string& text) {
    const Node* there = find_node(root_, path);
    if (there == nullptr) {
      patch_.add(path, quote(text));
    } else if (there->kind == Kind::kObject) {
      patch_.replace(path + "/value", quote(text));
    } else {
      patch_.replace(path, quote(text));
    }
  }

  const Node& root_;
  const Build& build_;
  int line_;
  CasesMotion motion_;
  units::UnitChoices choices_;
  std::set<std::string> moved_;
  PatchLines patch_;
};

/// A mount of a line that is given once for both sides; null: it has none.
const Entry<DriveMount>* mirrored_mount(const Drivetrain& drivetrain, int line) {
  const auto cases = find_faces(drivetrain, Carried::kAsPlanned);
  const auto of_line = [&](const std::string& id) {
    return std::ranges::any_of(cases, [&](const CaseFaces& faces) {
      return faces.line == line && faces.segment->id == id;
    });
  };
  for (const auto& mount : drivetrain.mounts) {
    if (mount.value.both_sides && of_line(mount.value.segment.id)) return &mount;
  }
  return nullptr;
}

/// One number of the move.
void read_number(const std::string& text, const char* key, units::Dimension dimension,
                 std::string_view unit, double& out, Diagnostics& faults) {
  if (text.empty()) return;
  const auto read = units::parse_quantity(text, dimension, unit);
  if (read) {
    out = read->si;
    return;
  }
  for (const Diagnostic& fault : read.error()) {
    faults.push_back({.code = "build.bad_change",
                      .path = key,
                      .message = fault.message,
                      .remedy = fault.remedy,
                      .at = {}});
  }
}

}  // namespace

bool moves_sideways(const Drivetrain& drivetrain, int line) {
  return mirrored_mount(drivetrain, line) == nullptr;
}

Result<std::string> move_cases_patch(const Document& document, const AskedMove& move) {
  constexpr const char* kCases = "/drivetrain/segments";
  const Node& root = document.root();
  Build build;
  std::vector<IdUse> uses;
  Faults found;
  read_tree(root, build, uses, found);
  const auto cases = find_faces(build.drivetrain, Carried::kAsPlanned);
  const auto named = std::ranges::find_if(cases, [&move](const CaseFaces& faces) {
    return move.segment.empty() || faces.segment->path == move.segment;
  });
  if (named == cases.end() && !cases.empty()) {
    return bad_change(move.segment, "this is none of the cases as planned",
                      "name one of those below " + std::string(kCases));
  }
  const auto first = std::ranges::find_if(
      cases, [&](const CaseFaces& faces) { return faces.line == named->line; });
  if (first == cases.end() || !first->p_VoF_V.allFinite()) {
    return bad_change(kCases, "nothing tells where the cases are",
                      "give the place where the first case starts");
  }
  CasesMotion motion{.p_VoPivot_V = first->p_VoF_V};
  Diagnostics faults;
  const auto unit = units::unit_name(units::Dimension::kLength, choices_of(build));
  double rearward_m = 0;
  read_number(move.rearward, "rearward", units::Dimension::kLength, unit, rearward_m, faults);
  read_number(move.left, "left", units::Dimension::kLength, unit, motion.travel_V.y(), faults);
  read_number(move.up, "up", units::Dimension::kLength, unit, motion.travel_V.z(), faults);
  read_number(move.tilt, "tilt", units::Dimension::kAngle, "deg", motion.tilt_rad, faults);
  if (!faults.empty()) return Failure{std::move(faults)};
  motion.travel_V.x() = -rearward_m;
  const auto* mirrored = mirrored_mount(build.drivetrain, first->line);
  if (motion.travel_V.y() != 0 && mirrored != nullptr) {
    return bad_change(mirrored->path + "/both_sides",
                      "a mount that is mirrored to the other side can't move sideways",
                      "split it into a left and a right one first (Mirror)");
  }
  return CasesMover(root, build, first->line, motion).write();
}

}  // namespace rig::build
