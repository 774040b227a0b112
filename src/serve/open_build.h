#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "build/patch.h"
#include "serve/answers.h"
#include "serve/journal.h"
#include "serve/trials.h"

namespace rig::serve {

/// What a change is asked on and by whom.
struct ChangeRequest {
  std::string tag;      ///< Of the state that it was made on.
  std::string variant;  ///< Empty: the build itself.
  Author by;
};

/// Why a change was not made. Nothing has changed then.
enum class Refusal {
  kConflict,     ///< Others changed the same values, or the state it was made on isn't known.
  kNothing,      ///< Nothing to undo or redo.
  kFileFault,    ///< Another program left the file so that it can't be read.
  kDoesNotRead,  ///< The changed build has faults.
  kDisk,         ///< The disk refused.
  kGone,         ///< The build was closed.
};

struct ChangeAnswer {
  std::shared_ptr<const Snapshot> now;  ///< The newest state, changed or not.
  bool merged = false;                  ///< Made on an older state, and stands in the newest.
  std::optional<Refusal> refusal;
  Diagnostics diagnostics;
  std::vector<build::Conflict> conflicts;
};

/// The head has moved, or the file on disk became unreadable or readable again; entry 0: closed.
struct HeadEvent {
  std::string tag;
  EntryId entry = 0;
  Author by;
};

/// A build file held open with its answers and its journal; docs/design/serve.md. Safe to use from
/// several threads.
class OpenBuild {
 public:
  /// Opens the file, finishing what a crash may have left half done.
  /// @errors serve.cannot_read, serve.too_large, all of `build::read_build` and of `Journal::open`.
  static Result<std::shared_ptr<OpenBuild>> open(const std::string& path);

  const std::string& path() const { return path_; }

  /// The newest state, after a look at the file.
  std::shared_ptr<const Snapshot> snapshot();

  /// The newest state as far as it was last looked at, without waiting for what is being done with
  /// the build.
  std::shared_ptr<const Snapshot> last_seen() const;

  /// What is being tried out on this build. Changes let it through.
  Trials& trials() { return trials_; }

  /// A document as it was at a state that is known by its tag.
  /// @errors serve.no_entry, build.no_variant, serve.disk.
  Result<std::shared_ptr<const build::Document>> document_at(const std::string& tag,
                                                             const std::string& variant);

  /// Makes a change; it is on disk before this returns.
  ChangeAnswer patch(const ChangeRequest& request, const std::string& patch);
  ChangeAnswer undo(const ChangeRequest& request);
  ChangeAnswer redo(const ChangeRequest& request);
  /// Goes back to an entry by a new one. The only change that is made to a file that another
  /// program left unreadable; what that program wrote is kept in the journal.
  ChangeAnswer restore(const ChangeRequest& request, EntryId entry);

  /// @errors those of `Journal`.
  Result<std::vector<HistoryEntry>> history(EntryId before, int limit);
  Result<EntryId> name_version(EntryId entry, const std::string& name);

  /// Calls back, from any thread and without delay, at every event until told to stop; at once when
  /// the build is closed already.
  int listen(std::function<void(const HeadEvent&)> listener);
  void stop_listening(int number);

  /// Whether anybody listens.
  bool is_watched();

  /// Lets go of the journal, so that the files can be moved; every later change is refused.
  void close();

 private:
  explicit OpenBuild(std::string path) : path_(std::move(path)) {}

  /// What the file looked like when it was last seen.
  struct Seen {
    std::int64_t changed_ns = 0, size = -1, inode = 0;
    bool operator==(const Seen&) const = default;
  };

  std::optional<Failure> recover();
  std::optional<Failure> load();
  std::optional<ChangeAnswer> ready(const ChangeRequest& request, bool must_be_newest);
  void look(bool closely);
  void take_in(const Result<std::string>& on_disk);
  bool place();
  ChangeAnswer refuse(Refusal refusal, Diagnostics diagnostics = {}) const;
  ChangeAnswer keep(build::ReadBuild read, const std::string& text,
                    const std::function<Result<EntryId>()>& commit, const Author& by);
  ChangeAnswer go_to(std::optional<EntryId> entry, const ChangeRequest& request);
  Result<std::shared_ptr<const build::Document>> find_document(const std::string& tag,
                                                               const std::string& variant) const;
  void set_now(std::shared_ptr<const Snapshot> now, const Author& by);
  Seen see() const;

  std::string path_;
  std::mutex mutex_;
  std::unique_ptr<Journal> journal_;
  mutable std::mutex now_mutex_;  ///< Held, within `mutex_`, while `now_` is set.
  std::shared_ptr<const Snapshot> now_;
  Trials trials_;
  std::string unreadable_;    ///< What another program wrote, when that can't be read.
  bool is_unplaced_ = false;  ///< The journal's head waits beside the file.
  Seen seen_;
  std::mutex listeners_mutex_;
  bool is_closed_ = false;
  std::map<int, std::function<void(const HeadEvent&)>> listeners_;
  int next_listener_ = 0;
};

/// The journal of a build file: NAME.rig.journal for NAME.rig.json.
std::string journal_path(const std::string& build_path);

/// The failure of a build that is not, or no longer, there.
Failure build_is_gone();

}  // namespace rig::serve
