#include "serve/glance.h"

#include <sys/stat.h>

#include <filesystem>

#include "build/read.h"
#include "check/scene_json.h"
#include "serve/digest.h"
#include "serve/file.h"
#include "serve/picture.h"

namespace rig::serve {
namespace {

/// Far more than the builds of any shop; beyond it all is looked at anew.
constexpr std::size_t kMostKnown = 2000;

std::shared_ptr<const Glance> look_at(const std::string& path) {
  auto glance = std::make_shared<Glance>();
  glance->name = std::filesystem::path(path).filename().string();
  const auto text = read_text(path);
  if (!text) {
    glance->faults = text.error().size();
    return glance;
  }
  glance->tag = tag_of(*text);
  const auto read = build::read_build(*text);
  if (!read) {
    glance->faults = read.error().size();
    return glance;
  }
  const check::Report report = check::check(read->build);
  if (!read->build.name.empty()) glance->name = read->build.name;
  glance->notice = read->build.notice;
  glance->verdicts = count_verdicts(report);
  glance->picture = picture_svg(check::scene_json(read->build, report));
  return glance;
}

}  // namespace

Verdicts count_verdicts(const check::Report& report) {
  Verdicts verdicts;
  for (const auto& finding : report.findings) {
    switch (finding.verdict) {
      case check::Verdict::kGood:
        ++verdicts.good;
        break;
      case check::Verdict::kLook:
        ++verdicts.look;
        break;
      case check::Verdict::kStop:
        ++verdicts.stop;
        break;
    }
  }
  return verdicts;
}

std::shared_ptr<const Glance> Glances::at(const std::string& path) {
  struct stat found {};
  Seen seen;
  if (::stat(path.c_str(), &found) == 0) {
    seen = {.changed_ns = found.st_mtim.tv_sec * 1'000'000'000 + found.st_mtim.tv_nsec,
            .size = found.st_size};
  }
  const std::lock_guard lock(mutex_);
  if (known_.size() > kMostKnown) known_.clear();
  Known& known = known_[path];
  if (!known.glance || known.seen != seen) known = {seen, look_at(path)};
  return known.glance;
}

}  // namespace rig::serve
