#include "serve/open_build.h"

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>

#include "base/require.h"
#include "serve/change_words.h"
#include "serve/digest.h"
#include "serve/file.h"

namespace rig::serve {

std::string journal_path(const std::string& build_path) {
  const std::filesystem::path whole(build_path);
  std::string stem = whole.stem().string();  // Without .json.
  if (!stem.ends_with(".rig")) stem += ".rig";
  return (whole.parent_path() / (stem + ".journal")).string();
}

Result<std::shared_ptr<OpenBuild>> OpenBuild::open(const std::string& path) {
  std::error_code error;
  const auto whole = std::filesystem::canonical(path, error);
  if (error) return Failure{read_text(path).error()};
  std::shared_ptr<OpenBuild> opened(new OpenBuild(whole.string()));
  auto journal = Journal::open(journal_path(opened->path_));
  if (!journal) return Failure{journal.error()};
  opened->journal_ = std::move(*journal);
  if (auto failure = opened->recover()) return std::move(*failure);
  return opened;
}

OpenBuild::Seen OpenBuild::see() const {
  struct stat found {};
  if (::stat(path_.c_str(), &found) != 0) return {};
  return {.changed_ns = found.st_mtim.tv_sec * 1'000'000'000 + found.st_mtim.tv_nsec,
          .size = found.st_size,
          .inode = static_cast<std::int64_t>(found.st_ino)};
}

std::optional<Failure> OpenBuild::recover() {
  const auto& head = journal_->head();
  if (!head) {
    const auto text = read_text(path_);
    if (!text) return Failure{text.error()};
    auto read = build::read_build(*text);
    if (!read) return Failure{read.error()};
    const auto entry = journal_->add(
        {.kind = EntryKind::kStart, .what = "As it was found", .made_at_ms = now_ms()}, *text);
    if (!entry) return Failure{entry.error()};
    set_now(std::make_shared<Snapshot>(*journal_->head(), make_answers(std::move(*read), nullptr)),
            {});
    seen_ = see();
    return std::nullopt;
  }
  // What was committed to the journal before a crash, but not put in its place any more.
  const auto on_disk = read_text(path_);
  const auto beside = read_text(path_beside(path_));
  const bool is_committed = beside && *beside == head->text;
  if (is_committed && (!on_disk || tag_of(*on_disk) == head->before_tag)) {
    if (auto placed = put_in_place(path_); !placed) return Failure{placed.error()};
  } else if (beside) {
    ::unlink(path_beside(path_).c_str());
  }
  if (auto failure = load()) return failure;
  look(/*closely=*/true);
  return std::nullopt;
}

std::optional<Failure> OpenBuild::load() {
  auto read = build::read_build(journal_->head()->text);
  if (!read) return Failure{read.error()};
  const Answers* last = now_ == nullptr ? nullptr : now_->plain().get();
  set_now(std::make_shared<Snapshot>(*journal_->head(), make_answers(std::move(*read), last)), {});
  return std::nullopt;
}

std::shared_ptr<const Snapshot> OpenBuild::snapshot() {
  const std::lock_guard lock(mutex_);
  if (journal_) look(/*closely=*/false);
  return now_;
}

std::shared_ptr<const Snapshot> OpenBuild::last_seen() const {
  const std::lock_guard lock(now_mutex_);
  return now_;
}

bool OpenBuild::place() {
  is_unplaced_ = !put_in_place(path_).has_value();
  return !is_unplaced_;
}

void OpenBuild::look(bool closely) {
  if (is_unplaced_) {
    // What another program wrote meanwhile is not written over: it is taken in after what waits.
    const auto on_disk = read_text(path_);
    if (!on_disk || tag_of(*on_disk) == journal_->head()->before_tag) {
      if (!place()) return;
    } else {
      ::unlink(path_beside(path_).c_str());
      is_unplaced_ = false;
    }
    if (load()) return;
  }
  // A change within one tick of the disk's clock may leave size and time as they were, so the
  // whole text is compared before anything is written over it.
  const Seen seen = see();
  if (!closely && seen == seen_) return;
  seen_ = seen;
  const auto on_disk = read_text(path_);
  try {
    take_in(on_disk);
  } catch (const LogicError&) {
    // A mistake of the program itself: told like a file that can't be read, and lived on with.
    unreadable_ = on_disk ? *on_disk : "";
    set_now(std::make_shared<Snapshot>(
                *journal_->head(), now_->plain(),
                fail("serve.cannot_read", "",
                     "the file as another program left it can't be worked out: a mistake of this "
                     "program",
                     "go back to an entry of the history, or change the file back")
                    .diagnostics),
            {});
  }
}

void OpenBuild::take_in(const Result<std::string>& on_disk) {
  const bool was_faulty = !now_->fault().empty();
  const auto hold = [&](const Diagnostics& fault, const std::string& text) {
    if (was_faulty && text == unreadable_) return;
    unreadable_ = text;
    set_now(std::make_shared<Snapshot>(*journal_->head(), now_->plain(), fault), {});
  };
  if (!on_disk) return hold(on_disk.error(), "");
  if (*on_disk == now_->text()) {
    if (was_faulty) {
      set_now(std::make_shared<Snapshot>(*journal_->head(), now_->plain()), {});
    }
    return;
  }
  auto read = build::read_build(*on_disk);
  if (!read) return hold(read.error(), *on_disk);
  const Step step{.kind = EntryKind::kOutside,
                  .what = change_words(*now_->plain()->document, *read->document),
                  .made_at_ms = now_ms()};
  auto answers = make_answers(std::move(*read), now_->plain().get());
  const auto entry = journal_->add(step, *on_disk);
  if (!entry) {
    hold(fail(entry.error().front().code, "",
              "the file was changed by another program, and there is no room yet to keep that in "
              "the journal",
              "free some space or mend the folder's rights: it is then taken in by itself")
             .diagnostics,
         *on_disk);
    seen_ = {};  // Another try at the next look.
    return;
  }
  set_now(std::make_shared<Snapshot>(*journal_->head(), std::move(answers)), {});
}

void OpenBuild::set_now(std::shared_ptr<const Snapshot> now, const Author& by) {
  {
    const std::lock_guard lock(now_mutex_);
    now_ = std::move(now);
  }
  const HeadEvent event{.tag = now_->tag(), .entry = now_->entry(), .by = by};
  const std::lock_guard lock(listeners_mutex_);
  for (const auto& [number, listener] : listeners_) listener(event);
}

int OpenBuild::listen(std::function<void(const HeadEvent&)> listener) {
  const std::lock_guard lock(listeners_mutex_);
  // Closed since it was found: told at once, as those were who listened then.
  if (is_closed_) listener({});
  listeners_.emplace(++next_listener_, std::move(listener));
  return next_listener_;
}

void OpenBuild::stop_listening(int number) {
  const std::lock_guard lock(listeners_mutex_);
  listeners_.erase(number);
}

bool OpenBuild::is_watched() {
  const std::lock_guard lock(listeners_mutex_);
  return !listeners_.empty();
}

Result<std::vector<HistoryEntry>> OpenBuild::history(EntryId before, int limit) {
  const std::lock_guard lock(mutex_);
  if (!journal_) return build_is_gone();
  look(/*closely=*/false);
  return journal_->history(before, limit);
}

Result<EntryId> OpenBuild::name_version(EntryId entry, const std::string& name) {
  const std::lock_guard lock(mutex_);
  if (!journal_) return build_is_gone();
  return journal_->name_version(entry, name);
}

void OpenBuild::close() {
  const std::lock_guard lock(mutex_);
  journal_.reset();
  const std::lock_guard listeners_lock(listeners_mutex_);
  is_closed_ = true;
  for (const auto& [number, listener] : listeners_) listener({});
}

}  // namespace rig::serve
