#include "build/read.h"

#include <fmt/format.h>

#include <cmath>

#include "build/describe.h"
#include "build/document_internal.h"
#include "build/read_internal.h"

namespace rig::build {
namespace {

/// The format the file says it has, if it is one that isn't known here.
bool report_other_version(const Node& root, Faults& faults) {
  const Member* version = root.find("version");
  if (version == nullptr || version->value.kind != Kind::kNumber) return false;
  const std::string& raw = version->value.raw;
  const std::optional<double> number = number_from_raw(raw);
  if (number == kVersions.back()) return false;
  const bool newer = number > kVersions.back() && *number == std::floor(*number);
  faults.add("build.version", "/version", version->value.at,
             newer ? fmt::format("the file is of version {}, made by a newer Rigwright", shown(raw))
                   : fmt::format("there is no version {}", shown(raw)),
             newer
                 ? fmt::format("this one knows version {}; use the newer program", kVersions.back())
                 : fmt::format("give \"version\": {}", kVersions.back()));
  return true;
}

/// The datum is the front axle's own line.
void place_front_axle(Build& build) {
  for (auto& axle : build.axles) {
    if (axle.value.end == End::kFront && !axle.value.station.known()) axle.value.station.si = 0;
  }
}

}  // namespace

Result<ReadBuild> read_build(std::string_view text) {
  if (text.size() > kLargest_bytes) {
    Failure failure =
        fail("build.too_large", "", fmt::format("the file has {} MiB", text.size() >> 20U),
             fmt::format("a build file has at most {} MiB", kLargest_bytes >> 20U));
    failure.diagnostics.front().at = TextPosition{1, 1};
    return failure;
  }
  Faults faults;
  ReadBuild read;
  std::optional<Node> root = parse_json(text, faults);
  if (root && !report_other_version(*root, faults)) {
    std::vector<IdUse> uses;
    read_tree(*root, read.build, uses, faults);
    check_references(*root, uses, faults);
    check_together(*root, read.build, faults);
    if (faults.empty()) check_variants(*root, faults);
  }
  if (!faults.empty()) return Failure{faults.take()};
  place_front_axle(read.build);
  read.document = std::make_shared<const Document>(*std::move(root));
  return read;
}

}  // namespace rig::build
