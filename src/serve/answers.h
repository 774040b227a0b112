#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "build/read.h"
#include "check/report.h"
#include "serve/journal.h"

namespace rig::serve {

/// A build, or one of its variants, with everything that is told about it; never changes once made.
struct Answers {
  std::shared_ptr<const build::Document> document;
  build::Build build;
  check::Report report;
  std::string document_json;
  std::string report_json;
  std::string scene_json;

  /// The readings worth taking next, done when first asked for: two checks for each value that is
  /// not sure.
  /// @param is_wanted  As of `check::find_next_readings`; once false, nothing is returned.
  std::optional<std::string> next_json(const std::function<bool()>& is_wanted) const;

  /// The frame under one case, kept once worked out.
  /// @errors  Those of `check::frame_drawing_json`.
  Result<std::string> frame_drawing_json(const std::string& case_id) const;

 private:
  mutable std::mutex next_mutex_;
  mutable std::optional<std::string> next_json_;
  mutable std::mutex frame_mutex_;
  mutable std::map<std::string, std::string> frame_drawings_;  ///< By case.
};

/// @param last  Answers to an earlier state, or null: `check::check`.
std::shared_ptr<const Answers> make_answers(build::ReadBuild read, const Answers* last);

/// One state of a build file.
class Snapshot {
 public:
  /// @param fault  What is wrong with the file on disk, when another program left it so that it
  ///               can't be read; this is then the last state that could be.
  Snapshot(const Head& head, std::shared_ptr<const Answers> plain, Diagnostics fault = {});

  EntryId entry() const { return entry_; }
  const std::string& tag() const { return tag_; }
  const std::string& text() const { return text_; }
  bool can_undo() const { return can_undo_; }
  bool can_redo() const { return can_redo_; }
  const Diagnostics& fault() const { return fault_; }
  const std::shared_ptr<const Answers>& plain() const { return plain_; }

  /// The answers for a variant; empty: the build as it is. Worked out when first asked for.
  /// @errors build.no_variant, and all of `build::read_build`.
  Result<std::shared_ptr<const Answers>> answers(const std::string& variant) const;

 private:
  EntryId entry_;
  std::string tag_, text_;
  bool can_undo_, can_redo_;
  Diagnostics fault_;
  std::shared_ptr<const Answers> plain_;
  mutable std::mutex mutex_;
  mutable std::map<std::string, std::shared_ptr<const Answers>> variants_;
};

}  // namespace rig::serve
