#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace rig::serve {

/// Number of an entry; later entries have greater ones.
using EntryId = std::int64_t;

enum class EntryKind {
  kStart,    ///< The file as it was found first.
  kEdit,     ///< By a screen.
  kOutside,  ///< The file was changed by another program.
  kRestore,  ///< Gone back to an earlier entry.
};

/// Who makes a change.
struct Author {
  std::string screen;    ///< The page's own name for itself; empty: none.
  std::string initials;  ///< As the person gave them; may be empty.
};

/// What is told of a step besides the text.
struct Step {
  EntryKind kind = EntryKind::kEdit;
  Author by;
  std::string what;             ///< In words.
  std::string patch;            ///< JSON Patch; empty: none.
  std::string variant;          ///< That the patch was made to; empty: the build itself.
  std::int64_t made_at_ms = 0;  ///< Since 1970-01-01 UTC.
};

/// Where the file stands in the journal.
struct Head {
  EntryId entry = 0;
  std::string text;        ///< The file, byte for byte.
  std::string tag;         ///< Of the text.
  std::string before_tag;  ///< Of the text that the head was moved from.
  bool can_undo = false;
  bool can_redo = false;
};

struct HistoryEntry {
  EntryId entry = 0;
  std::optional<EntryId> parent;
  Step step;
  std::optional<std::string> version;  ///< Its name, if it has one.
  bool on_path = false;                ///< The head, or one that the head was made on.
};

/// Every state that one build file was in (docs/design/serve.md). Kept by SQLite, flushed to disk
/// before a function returns. Only one process can hold a journal. Not for several threads at once.
class Journal {
 public:
  /// Opens the journal, or makes an empty one.
  /// @errors serve.journal_held (by another process), serve.journal_damaged, serve.disk.
  static Result<std::unique_ptr<Journal>> open(const std::string& path);

  ~Journal();
  Journal(const Journal&) = delete;
  Journal& operator=(const Journal&) = delete;

  /// Absent: nothing is in it yet.
  const std::optional<Head>& head() const { return head_; }

  /// Adds an entry made on the head (or the first one) and moves the head to it.
  /// @errors serve.disk; nothing has changed then.
  Result<EntryId> add(const Step& step, const std::string& text);

  /// Adds an entry made on the head, and leaves the head where it is.
  /// @errors serve.disk; nothing has changed then.
  Result<EntryId> set_aside(const Step& step, const std::string& text);

  /// Whether this very step (screen, variant, patch) was made on an entry before and leads to the
  /// head: the answer to it got lost on its way. One that was undone doesn't count.
  /// @errors serve.disk.
  Result<bool> was_made(EntryId on, const Step& step) const;

  /// The entry that undo or redo would go to.
  std::optional<EntryId> undo_target() const { return undo_target_; }
  std::optional<EntryId> redo_target() const { return redo_target_; }

  /// Moves the head to an entry with this text. From an entry to its parent, it is what a redo of
  /// the parent goes back to.
  /// @errors serve.disk; nothing has changed then.
  Result<EntryId> move(EntryId entry, const std::string& text);

  /// The file as it was at an entry.
  /// @errors serve.no_entry, serve.disk.
  Result<std::string> text_of(EntryId entry) const;

  /// The newest entry whose text has this tag.
  /// @errors serve.no_entry, serve.disk.
  Result<EntryId> entry_of(const std::string& tag) const;

  /// Newest first, those before `before` (0: all), at most `limit`.
  /// @errors serve.disk.
  Result<std::vector<HistoryEntry>> history(EntryId before, int limit) const;

  /// Gives an entry a name.
  /// @errors serve.no_entry, serve.name_taken, serve.disk.
  Result<EntryId> name_version(EntryId entry, const std::string& name);

 private:
  struct Store;
  explicit Journal(std::unique_ptr<Store> store);
  EntryId insert(const Step& step, const std::string& text);
  void read_head();

  std::unique_ptr<Store> store_;
  std::optional<Head> head_;
  std::optional<EntryId> undo_target_, redo_target_;
};

}  // namespace rig::serve
