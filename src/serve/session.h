#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "build/read.h"
#include "check/report.h"

namespace rig::serve {

/// One state of the build with everything that is told about it; never changes once made.
struct Snapshot {
  int revision = 0;
  std::string text;  ///< The file, byte for byte.
  std::shared_ptr<const build::Document> document;
  build::Build build;
  check::Report report;
  std::string report_json;
  std::string scene_json;
};

/// Why an edit was not taken.
enum class EditFault {
  kOldRevision,  ///< Another edit came first, or the file was changed outside.
  kDoesNotRead,  ///< The edited build has faults: nothing changed.
  kCannotWrite,  ///< The disk refused: nothing changed.
};

struct EditAnswer {
  std::shared_ptr<const Snapshot> now;  ///< The newest state, changed or not.
  std::optional<EditFault> fault;
  Diagnostics diagnostics;
};

/// A build file open in the page. Safe to use from several threads.
class Session {
 public:
  /// Reads the file and answers it for the first time.
  /// @errors serve.cannot_read, serve.too_large, and all of `build::read_build`.
  static Result<std::unique_ptr<Session>> open(const std::string& path);

  const std::string& path() const { return path_; }
  std::shared_ptr<const Snapshot> snapshot() const;

  /// Applies edits made against a revision; the file is on disk before this returns.
  EditAnswer edit(int revision, const std::vector<build::Edit>& edits);

 private:
  explicit Session(std::string path) : path_(std::move(path)) {}

  std::string path_;
  mutable std::mutex mutex_;
  std::shared_ptr<const Snapshot> now_;
};

}  // namespace rig::serve
