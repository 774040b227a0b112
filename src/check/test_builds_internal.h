#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <map>
#include <string>

#include "build/read.h"
#include "check/report.h"

/// Builds for this module's tests: the examples, and changes of them.
namespace rig::check::testing {

inline constexpr const char* kTowRig = "01_tow_rig/tow_rig";
inline constexpr const char* kCrawler = "02_crawler/crawler";
inline constexpr const char* kShopTruck = "03_shop_truck/shop_truck";
inline constexpr const char* kExamples[] = {kTowRig, kCrawler, kShopTruck};

inline std::string example_text(const std::string& name) {
  std::ifstream file(std::string(RIG_SOURCE_DIR) + "/examples/" + name + ".rig.json",
                     std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

inline build::ReadBuild read_text(const std::string& text) {
  auto read = build::read_build(text);
  if (!read) {
    for (const auto& d : read.error()) ADD_FAILURE() << d.path << ": " << d.message;
    return {};
  }
  return std::move(*read);
}

inline bool says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

inline build::ReadBuild read_example(const std::string& name) {
  return read_text(example_text(name));
}

/// The whole report of an example as it stands: worked out once, for many tests look at it.
inline const Report& example_report(const std::string& name) {
  static std::map<std::string, Report> reports;
  const auto known = reports.find(name);
  if (known != reports.end()) return known->second;
  return reports.emplace(name, check(read_example(name).build)).first->second;
}

/// The build with values changed in its file.
inline build::ReadBuild edited(const build::ReadBuild& read,
                               const std::vector<build::Edit>& edits) {
  auto result = build::edit_build(*read.document, edits);
  if (!result) {
    for (const auto& d : result.error()) ADD_FAILURE() << d.path << ": " << d.message;
    return {};
  }
  return std::move(*result);
}

/// The report of an example with values changed in its file; what the changes leave of the frame is
/// taken over from the example's own report, as it is after an edit on the page.
inline Report check_edited(const std::string& name, const std::vector<build::Edit>& edits) {
  return check(edited(read_example(name), edits).build, Thorough::kWithAdvice,
               &example_report(name));
}

inline build::Edit set_length(const std::string& path, double length_m) {
  char text[64];
  std::snprintf(text, sizeof text, "\"%.12g m\"", length_m);
  return {path, text};
}

inline const Finding* find_finding(const Report& report, const std::string& id) {
  for (const auto& finding : report.findings) {
    if (finding.id == id) return &finding;
  }
  return nullptr;
}

inline void mirror(build::Point& point) { point.offset.si = -point.offset.si; }

/// Everything that is not given for both sides goes to the other side.
inline build::Build mirrored(build::Build build) {
  for (auto& item : build.masses) mirror(item.value.at);
  for (auto& axle : build.axles) {
    for (auto& link : axle.value.links) {
      if (link.value.both_sides) continue;
      mirror(link.value.frame.at);
      mirror(link.value.axle.at);
    }
  }
  for (auto& mount : build.frame.mounts) {
    if (!mount.value.both_sides && mount.value.offset.known()) mount.value.offset.si *= -1;
  }
  for (auto& pull : build.frame.pulls) mirror(pull.value.at);
  for (auto& torque : build.frame.drive_torques) torque.value.torque.si *= -1;
  for (auto& segment : build.drivetrain.segments) mirror(segment.value.starts_at);
  for (auto& mount : build.drivetrain.mounts) {
    if (!mount.value.both_sides) mirror(mount.value.at);
  }
  for (auto& output : build.drivetrain.outputs) mirror(output.value.joint);
  for (auto& shaft : build.drivetrain.shafts) mirror(shaft.value.end_joint);
  for (auto& gap : build.drivetrain.gaps) {
    mirror(gap.value.at);
    mirror(gap.value.to);
  }
  for (auto& weighing : build.corner_weighings) {
    std::swap(weighing.value.front_left, weighing.value.front_right);
    std::swap(weighing.value.rear_left, weighing.value.rear_right);
  }
  return build;
}

}  // namespace rig::check::testing
