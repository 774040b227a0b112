#include "serve/journal.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "serve/digest.h"
#include "serve/sqlite_internal.h"
#include "serve/text_change.h"

namespace rig::serve {
namespace {

/// Where flushing costs nothing, if there is such a place.
std::filesystem::path quick_folder() {
  const std::filesystem::path memory = "/dev/shm";
  return std::filesystem::exists(memory) ? memory : std::filesystem::temp_directory_path();
}

/// A folder of its own that is gone afterwards.
class JournalFolder {
 public:
  JournalFolder() {
    static int count = 0;
    path_ = std::filesystem::canonical(quick_folder()) /
            ("rig_journal_" + std::to_string(::getpid()) + "_" + std::to_string(count++));
    std::filesystem::create_directories(path_);
  }
  ~JournalFolder() { std::filesystem::remove_all(path_); }
  JournalFolder(const JournalFolder&) = delete;
  JournalFolder& operator=(const JournalFolder&) = delete;

  std::string file() const { return (path_ / "truck.rig.journal").string(); }
  std::unique_ptr<Journal> open() const {
    auto journal = Journal::open(file());
    EXPECT_TRUE(journal.has_value()) << (journal ? "" : journal.error().front().message);
    return journal ? std::move(*journal) : nullptr;
  }

 private:
  std::filesystem::path path_;
};

Step step(EntryKind kind, std::string what = {}) {
  return {.kind = kind, .by = {"screen-1", "AB"}, .what = std::move(what), .made_at_ms = 7};
}

TEST(Digest, IsSha256) {
  // FIPS 180-4's own example, "abc" (NIST CSRC, SHA examples).
  EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(tag_of("abc"), "ba7816bf8f01cfea");
}

TEST(Digest, SecretsAreEvenlySpread) {
  std::vector<int> counts(10);
  for (int i = 0; i < 10000; ++i) ++counts[random_below(10)];
  // Binomial, standard deviation 30: seven of them either way.
  for (const int count : counts) EXPECT_NEAR(count, 1000, 210);
  EXPECT_EQ(random_hex(16).size(), 32U);
  EXPECT_NE(random_hex(16), random_hex(16));
  EXPECT_TRUE(same_secret("123456", "123456"));
  EXPECT_FALSE(same_secret("123456", "123457"));
  EXPECT_FALSE(same_secret("123456", "12345"));
}

RC_GTEST_PROP(TextChange, GoesForthAndBack, (const std::string& a, const std::string& b)) {
  const TextChange change = find_text_change(a, b);
  RC_ASSERT(apply_change(a, change) == b);
  RC_ASSERT(apply_change(b, inverse_of(change)) == a);
}

TEST(TextChange, IsShort) {
  EXPECT_EQ(find_text_change("62 in wide", "63 in wide"), (TextChange{1, "2", "3"}));
  EXPECT_EQ(find_text_change("aa", "aaa"), (TextChange{2, "", "a"}));
  EXPECT_EQ(find_text_change("same", "same"), (TextChange{4, "", ""}));
}

TEST(Journal, BeginsEmpty) {
  const JournalFolder folder;
  const auto journal = folder.open();
  EXPECT_FALSE(journal->head().has_value());
  EXPECT_EQ(journal->text_of(1).error().front().code, "serve.no_entry");
  EXPECT_EQ(journal->entry_of("x").error().front().code, "serve.no_entry");
}

TEST(Journal, UndoLeavesABranchThatCanBeGoneBackTo) {
  const JournalFolder folder;
  const auto journal = folder.open();
  const EntryId first = *journal->add(step(EntryKind::kStart), "one");
  const EntryId second = *journal->add(step(EntryKind::kEdit, "to two"), "two");
  EXPECT_EQ(journal->undo_target(), first);
  EXPECT_FALSE(journal->head()->can_redo);
  ASSERT_TRUE(journal->move(first, *journal->text_of(first)));
  EXPECT_EQ(journal->redo_target(), second);
  const EntryId third = *journal->add(step(EntryKind::kEdit), "three");
  EXPECT_EQ(*journal->text_of(second), "two");
  EXPECT_EQ(*journal->text_of(third), "three");
  EXPECT_EQ(*journal->entry_of(tag_of("two")), second);

  const auto history = *journal->history(0, 10);
  ASSERT_EQ(history.size(), 3U);
  EXPECT_EQ(history[0].entry, third);
  EXPECT_EQ(history[0].parent, first);
  EXPECT_TRUE(history[0].on_path);
  EXPECT_FALSE(history[1].on_path);
  EXPECT_EQ(history[1].step.what, "to two");
  EXPECT_EQ(history[1].step.by.initials, "AB");
  EXPECT_TRUE(history[2].on_path);
  EXPECT_EQ(history[2].step.kind, EntryKind::kStart);
  EXPECT_EQ(journal->history(third, 1)->front().entry, second);
}

TEST(Journal, KnowsAStepAgainOnlyWhileItLeadsToTheHead) {
  const JournalFolder folder;
  const auto journal = folder.open();
  const EntryId first = *journal->add(step(EntryKind::kStart), "one");
  Step edit = step(EntryKind::kEdit);
  edit.patch = "[]";
  edit.variant = "lift";
  ASSERT_TRUE(journal->add(edit, "two"));
  EXPECT_TRUE(*journal->was_made(first, edit));
  ASSERT_TRUE(journal->add(step(EntryKind::kEdit), "three"));
  EXPECT_TRUE(*journal->was_made(first, edit));
  Step other = edit;
  other.variant = "";
  EXPECT_FALSE(*journal->was_made(first, other));
  ASSERT_TRUE(journal->move(first, "one"));
  EXPECT_FALSE(*journal->was_made(first, edit));
  ASSERT_TRUE(journal->add(step(EntryKind::kEdit), "four"));
  EXPECT_FALSE(*journal->was_made(first, edit));
}

TEST(Journal, ReadsOneOfTheFirstFormat) {
  const JournalFolder folder;
  folder.open()->add(step(EntryKind::kStart), "one").value();
  {
    sql::Database database(folder.file());
    database.run(
        "DROP INDEX entry_parent; ALTER TABLE entry DROP COLUMN variant; PRAGMA user_version = 1;");
  }
  const auto journal = folder.open();
  ASSERT_TRUE(journal->head().has_value());
  EXPECT_EQ(journal->head()->text, "one");
  EXPECT_TRUE(journal->add(step(EntryKind::kEdit), "two").has_value());
}

TEST(Journal, NamesVersions) {
  const JournalFolder folder;
  auto journal = folder.open();
  const EntryId first = *journal->add(step(EntryKind::kStart), "one");
  const EntryId second = *journal->add(step(EntryKind::kEdit), "two");
  ASSERT_TRUE(journal->name_version(first, "as bought"));
  EXPECT_EQ(journal->name_version(second, "as bought").error().front().code, "serve.name_taken");
  EXPECT_EQ(journal->name_version(99, "x").error().front().code, "serve.no_entry");
  ASSERT_TRUE(journal->name_version(first, "as it came"));
  journal.reset();
  EXPECT_EQ(folder.open()->history(0, 10)->back().version, "as it came");
}

TEST(Journal, IsHeldByOneProcess) {
  const JournalFolder folder;
  const auto journal = folder.open();
  EXPECT_EQ(Journal::open(folder.file()).error().front().code, "serve.journal_held");
}

TEST(Journal, TellsADamagedOneAndAMissingFolder) {
  const JournalFolder folder;
  std::ofstream(folder.file()) << std::string(4096, 'x');
  EXPECT_EQ(Journal::open(folder.file()).error().front().code, "serve.journal_damaged");
  EXPECT_EQ(Journal::open("/no/such/folder/x.rig.journal").error().front().code, "serve.disk");
}

/// What a journal promises, told with whole texts.
struct Model {
  std::vector<std::string> texts;  ///< By entry, from 1.
  std::vector<EntryId> parent, next;
  EntryId head = 0;
};

RC_GTEST_PROP(Journal, GivesTheVerySameBytes, ()) {
  const JournalFolder folder;
  auto journal = folder.open();
  Model model;
  const auto add = [&](EntryKind kind, const std::string& text) {
    const auto entry = journal->add(step(kind), text);
    RC_ASSERT(entry.has_value());
    model.texts.push_back(text);
    model.parent.push_back(model.head);
    model.next.push_back(0);
    model.head = static_cast<EntryId>(model.texts.size());
    RC_ASSERT(*entry == model.head);
  };
  const auto at = [](const auto& list, EntryId entry) {
    return list.at(static_cast<std::size_t>(entry - 1));
  };
  add(EntryKind::kStart, *rc::gen::arbitrary<std::string>());
  const int steps = *rc::gen::inRange(1, 40);
  for (int i = 0; i < steps; ++i) {
    switch (*rc::gen::inRange(0, 5)) {
      case 0:
        add(EntryKind::kEdit, *rc::gen::arbitrary<std::string>());
        break;
      case 1: {
        const auto target = journal->undo_target();
        RC_ASSERT(target.value_or(0) == at(model.parent, model.head));
        if (!target) break;
        RC_ASSERT(journal->move(*target, *journal->text_of(*target)).has_value());
        model.next.at(static_cast<std::size_t>(*target - 1)) = model.head;
        model.head = *target;
        break;
      }
      case 2: {
        const auto target = journal->redo_target();
        RC_ASSERT(target.value_or(0) == at(model.next, model.head));
        if (!target) break;
        RC_ASSERT(journal->move(*target, *journal->text_of(*target)).has_value());
        model.head = *target;
        break;
      }
      case 3: {
        const EntryId entry =
            *rc::gen::inRange<EntryId>(1, static_cast<EntryId>(model.texts.size()) + 1);
        add(EntryKind::kRestore, *journal->text_of(entry));
        break;
      }
      default:
        journal.reset();
        journal = folder.open();
    }
    RC_ASSERT(journal->head()->text == at(model.texts, model.head));
    RC_ASSERT(journal->head()->entry == model.head);
  }
  for (EntryId entry = 1; entry <= static_cast<EntryId>(model.texts.size()); ++entry) {
    RC_ASSERT(*journal->text_of(entry) == at(model.texts, entry));
  }
}

}  // namespace
}  // namespace rig::serve
