#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "check/report.h"

namespace rig::serve {

struct Verdicts {
  int good = 0, look = 0, stop = 0;
};

Verdicts count_verdicts(const check::Report& report);

/// What there is to see of a build file from outside.
struct Glance {
  std::string name;  ///< The file's name where it can't be read.
  std::string notice;
  std::string tag;
  std::optional<Verdicts> verdicts;  ///< Absent: it can't be read.
  std::size_t faults = 0;
  std::string picture;  ///< SVG; empty: it can't be read.
};

/// Glances at files, looked at again only when size or time of change are others. Safe to use from
/// several threads.
class Glances {
 public:
  std::shared_ptr<const Glance> at(const std::string& path);

 private:
  struct Seen {
    std::int64_t changed_ns = 0, size = -1;
    bool operator==(const Seen&) const = default;
  };
  struct Known {
    Seen seen;
    std::shared_ptr<const Glance> glance;
  };
  std::mutex mutex_;
  std::map<std::string, Known> known_;
};

}  // namespace rig::serve
