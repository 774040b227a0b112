#include "serve/journal.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/require.h"
#include "serve/digest.h"
#include "serve/sqlite_internal.h"
#include "serve/text_change.h"

namespace rig::serve {
namespace {

constexpr std::int64_t kFormat = 2;

// Exclusive: one process, and no shared-memory file that a full disk could pull from under us.
constexpr const char* kSettings =
    "PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;"
    "PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF;"
    // A few edits' worth of pages, so that the log beside the journal stays small on a full disk.
    "PRAGMA wal_autocheckpoint = 32; PRAGMA journal_size_limit = 262144;";

// `next`: where a redo goes. The change is from the parent's text to this one's.
constexpr const char* kTables = R"(
CREATE TABLE entry (
  id INTEGER PRIMARY KEY AUTOINCREMENT, parent INTEGER REFERENCES entry, next INTEGER,
  made_at INTEGER NOT NULL, screen TEXT NOT NULL, who TEXT NOT NULL, kind INTEGER NOT NULL,
  what TEXT NOT NULL, patch TEXT NOT NULL, tag TEXT NOT NULL,
  place INTEGER NOT NULL, removed BLOB, inserted BLOB);
CREATE INDEX entry_tag ON entry (tag);
CREATE TABLE head (
  one INTEGER PRIMARY KEY CHECK (one = 1), entry INTEGER NOT NULL REFERENCES entry,
  content BLOB, before_tag TEXT NOT NULL);
CREATE TABLE version (entry INTEGER PRIMARY KEY REFERENCES entry, name TEXT NOT NULL UNIQUE);
PRAGMA user_version = 1;
)";

// From 1 to 2.
constexpr const char* kUpgrade = R"(
ALTER TABLE entry ADD COLUMN variant TEXT NOT NULL DEFAULT '';
CREATE INDEX entry_parent ON entry (parent);
PRAGMA user_version = 2;
)";

Failure failure_of(const sql::Error& error) {
  switch (error.code() & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return fail("serve.journal_held", "", "this build is open in another running rigwright",
                  "use that one, or stop it first");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return fail("serve.journal_damaged", "", "the build's journal (.rig.journal) is damaged",
                  "the build file itself is whole: move the journal away to go on without its "
                  "history");
    default:
      return fail("serve.disk", "",
                  fmt::format("the build's journal can't be written: {}", error.what()),
                  "nothing was changed: free some space or mend the folder's rights, then try "
                  "again");
  }
}

Failure no_entry() {
  return fail("serve.no_entry", "", "the build's journal has no such entry",
              "ask for the history again");
}

/// Runs what may be refused by SQLite.
template <typename Work>
auto attempt(Work work) -> decltype(work()) {
  try {
    return work();
  } catch (const sql::Error& error) {
    return failure_of(error);
  }
}

}  // namespace

struct Journal::Store {
  explicit Store(const std::string& path) : database(path) {}
  sql::Database database;

  /// 0: it has none.
  EntryId parent_of(EntryId entry) const {
    sql::Statement ask(database, "SELECT parent FROM entry WHERE id = ?");
    return ask.bind(entry).step() ? ask.number(0) : 0;
  }

  void put_head(EntryId entry, const std::string& text, const std::string& before_tag) {
    sql::Statement put(database, "INSERT OR REPLACE INTO head VALUES (1, ?, ?, ?)");
    put.bind(entry).bind_bytes(text).bind(std::string_view(before_tag)).run();
  }
};

Journal::Journal(std::unique_ptr<Store> store) : store_(std::move(store)) {}
Journal::~Journal() = default;

Result<std::unique_ptr<Journal>> Journal::open(const std::string& path) {
  return attempt([&]() -> Result<std::unique_ptr<Journal>> {
    auto store = std::make_unique<Store>(path);
    store->database.run(kSettings);
    sql::Transaction transaction(store->database);
    sql::Statement format(store->database, "PRAGMA user_version");
    format.step();
    const std::int64_t found = format.number(0);
    format.again();
    if (found > kFormat) {
      return fail("serve.journal_damaged", "", "the build's journal is of a newer rigwright",
                  "open the build with that one");
    }
    if (found == 0) store->database.run(kTables);
    if (found < 2) store->database.run(kUpgrade);
    transaction.commit();
    std::unique_ptr<Journal> journal(new Journal(std::move(store)));
    journal->read_head();
    return journal;
  });
}

void Journal::read_head() {
  sql::Statement ask(store_->database,
                     "SELECT entry, content, before_tag, parent, next FROM head JOIN entry "
                     "ON entry.id = head.entry");
  if (!ask.step()) return;
  Head head{.entry = ask.number(0),
            .text = ask.text(1),
            .before_tag = ask.text(2),
            .can_undo = !ask.is_null(3),
            .can_redo = !ask.is_null(4)};
  head.tag = tag_of(head.text);
  undo_target_ = head.can_undo ? std::optional(ask.number(3)) : std::nullopt;
  redo_target_ = head.can_redo ? std::optional(ask.number(4)) : std::nullopt;
  head_ = std::move(head);
}

EntryId Journal::insert(const Step& step, const std::string& text) {
  const TextChange change = find_text_change(head_ ? head_->text : std::string(), text);
  const auto parent = head_ ? std::optional(head_->entry) : std::nullopt;
  sql::Statement put(
      store_->database,
      "INSERT INTO entry (parent, made_at, screen, who, kind, what, patch, tag, place, removed, "
      "inserted, variant) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  put.bind(parent)
      .bind(step.made_at_ms)
      .bind(std::string_view(step.by.screen))
      .bind(std::string_view(step.by.initials))
      .bind(static_cast<std::int64_t>(step.kind))
      .bind(std::string_view(step.what))
      .bind(std::string_view(step.patch))
      .bind(std::string_view(tag_of(text)))
      .bind(static_cast<std::int64_t>(change.offset))
      .bind_bytes(change.removed)
      .bind_bytes(change.inserted)
      .bind(std::string_view(step.variant))
      .run();
  return store_->database.last_id();
}

Result<EntryId> Journal::add(const Step& step, const std::string& text) {
  return attempt([&]() -> Result<EntryId> {
    sql::Transaction transaction(store_->database);
    const EntryId entry = insert(step, text);
    store_->put_head(entry, text, head_ ? head_->tag : std::string());
    transaction.commit();
    read_head();
    return entry;
  });
}

Result<EntryId> Journal::set_aside(const Step& step, const std::string& text) {
  return attempt([&]() -> Result<EntryId> {
    sql::Transaction transaction(store_->database);
    const EntryId entry = insert(step, text);
    transaction.commit();
    return entry;
  });
}

Result<bool> Journal::was_made(EntryId on, const Step& step) const {
  return attempt([&]() -> Result<bool> {
    sql::Statement ask(store_->database,
                       "SELECT id FROM entry WHERE parent = ? AND screen = ? AND variant = ? AND "
                       "patch = ? ORDER BY id DESC");
    ask.bind(on)
        .bind(std::string_view(step.by.screen))
        .bind(std::string_view(step.variant))
        .bind(std::string_view(step.patch));
    EntryId ancestor = head_ ? head_->entry : 0;
    while (ask.step()) {
      while (ancestor > ask.number(0)) ancestor = store_->parent_of(ancestor);
      if (ancestor == ask.number(0)) return true;
    }
    return false;
  });
}

Result<EntryId> Journal::move(EntryId entry, const std::string& text) {
  RIG_REQUIRE(head_.has_value());
  return attempt([&]() -> Result<EntryId> {
    sql::Transaction transaction(store_->database);
    if (undo_target_ == entry) {
      sql::Statement leave(store_->database, "UPDATE entry SET next = ? WHERE id = ?");
      leave.bind(head_->entry).bind(entry).run();
    }
    store_->put_head(entry, text, head_->tag);
    transaction.commit();
    read_head();
    return entry;
  });
}

Result<std::string> Journal::text_of(EntryId entry) const {
  if (!head_) return no_entry();
  return attempt([&]() -> Result<std::string> {
    sql::Statement ask(store_->database,
                       "SELECT parent, place, removed, inserted FROM entry WHERE id = ?");
    // A parent's number is less than its child's: the greater of the two is taken back until both
    // are the same.
    std::string text = head_->text;
    std::vector<TextChange> forward;
    EntryId from = head_->entry, to = entry;
    while (from != to) {
      const bool back = from > to;
      if (!ask.again().bind(back ? from : to).step() || ask.is_null(0)) return no_entry();
      TextChange change{.offset = static_cast<std::size_t>(ask.number(1)),
                        .removed = ask.text(2),
                        .inserted = ask.text(3)};
      if (back) {
        text = apply_change(text, inverse_of(change));
      } else {
        forward.push_back(std::move(change));
      }
      (back ? from : to) = ask.number(0);
    }
    std::reverse(forward.begin(), forward.end());
    for (const TextChange& change : forward) text = apply_change(text, change);
    return text;
  });
}

Result<EntryId> Journal::entry_of(const std::string& tag) const {
  return attempt([&]() -> Result<EntryId> {
    sql::Statement ask(store_->database, "SELECT max(id) FROM entry WHERE tag = ?");
    ask.bind(std::string_view(tag));
    if (!ask.step() || ask.is_null(0)) return no_entry();
    return ask.number(0);
  });
}

Result<std::vector<HistoryEntry>> Journal::history(EntryId before, int limit) const {
  return attempt([&]() -> Result<std::vector<HistoryEntry>> {
    std::vector<HistoryEntry> entries;
    sql::Statement ask(
        store_->database,
        "SELECT id, parent, made_at, screen, who, kind, what, patch, name FROM entry LEFT JOIN "
        "version ON version.entry = entry.id WHERE id < ? ORDER BY id DESC LIMIT ?");
    ask.bind(before > 0 ? before : INT64_MAX).bind(std::int64_t{limit});
    while (ask.step()) {
      entries.push_back({.entry = ask.number(0),
                         .parent = ask.is_null(1) ? std::nullopt : std::optional(ask.number(1)),
                         .step = {.kind = static_cast<EntryKind>(ask.number(5)),
                                  .by = {.screen = ask.text(3), .initials = ask.text(4)},
                                  .what = ask.text(6),
                                  .patch = ask.text(7),
                                  .made_at_ms = ask.number(2)},
                         .version = ask.is_null(8) ? std::nullopt : std::optional(ask.text(8))});
    }
    EntryId ancestor = head_ ? head_->entry : 0;
    for (HistoryEntry& entry : entries) {
      while (ancestor > entry.entry) ancestor = store_->parent_of(ancestor);
      entry.on_path = ancestor == entry.entry;
    }
    return entries;
  });
}

Result<EntryId> Journal::name_version(EntryId entry, const std::string& name) {
  return attempt([&]() -> Result<EntryId> {
    sql::Transaction transaction(store_->database);
    sql::Statement there(store_->database, "SELECT 1 FROM entry WHERE id = ?");
    if (!there.bind(entry).step()) return no_entry();
    sql::Statement taken(store_->database, "SELECT 1 FROM version WHERE name = ? AND entry != ?");
    if (taken.bind(std::string_view(name)).bind(entry).step()) {
      return fail("serve.name_taken", "/name",
                  fmt::format("another version is called \"{}\" already", name),
                  "give this one another name");
    }
    sql::Statement put(store_->database, "INSERT OR REPLACE INTO version VALUES (?, ?)");
    put.bind(entry).bind(std::string_view(name)).run();
    transaction.commit();
    return entry;
  });
}

}  // namespace rig::serve
