// The changes that can be made to an open build.
#include <fmt/format.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <future>

#include "build/variant.h"
#include "serve/change_words.h"
#include "serve/digest.h"
#include "serve/file.h"
#include "serve/open_build.h"

namespace rig::serve {

namespace {

bool changes_variants(const std::string& patch) {
  const auto touched = build::touched_paths(patch);
  return touched && std::any_of(touched->begin(), touched->end(), [](const std::string& path) {
           return path == "/variants" || path.starts_with("/variants/");
         });
}

/// Lets every other thread go before this one and those it starts: what is tried out while a hand
/// moves, and the page that draws it, need the processor sooner than the answers to everything.
/// Niceness belongs to a thread on Linux; one that can't be made nicer is only not as quick for the
/// others.
void give_way_to_others() {
  constexpr int kNiceness = 10;
  ::setpriority(PRIO_PROCESS, 0, kNiceness);
}

}  // namespace

Failure build_is_gone() {
  return fail("serve.no_build", "", "there is no build of that name here",
              "look at the list of builds");
}

ChangeAnswer OpenBuild::refuse(Refusal refusal, Diagnostics diagnostics) const {
  return {.now = now_, .refusal = refusal, .diagnostics = std::move(diagnostics)};
}

/// Looks at the file and says why nothing can be changed, if so.
std::optional<ChangeAnswer> OpenBuild::ready(const ChangeRequest& request, bool must_be_newest) {
  if (!journal_) return refuse(Refusal::kGone, build_is_gone().diagnostics);
  look(/*closely=*/true);
  if (is_unplaced_) {
    return refuse(Refusal::kDisk,
                  fail("serve.cannot_write", "", "the last change can't be put into the file yet",
                       "it is kept in the journal: free some space or mend the folder's rights")
                      .diagnostics);
  }
  if (!now_->fault().empty()) return refuse(Refusal::kFileFault, now_->fault());
  if (must_be_newest && request.tag != now_->tag()) return refuse(Refusal::kConflict);
  return std::nullopt;
}

/// Puts a state on disk and shows it: waiting beside the file, then in the journal, then in place.
ChangeAnswer OpenBuild::keep(build::ReadBuild read, const std::string& text,
                             const std::function<Result<EntryId>()>& commit, const Author& by) {
  auto answers = std::async(std::launch::async, [&] {
    give_way_to_others();
    return make_answers(std::move(read), now_->plain().get());
  });
  const auto written = write_beside(path_, text);
  auto made = answers.get();
  if (!written) return refuse(Refusal::kDisk, written.error());
  // Another program may have written while this was being worked out.
  const auto is_as_taken_in = [&] {
    const auto on_disk = read_text(path_);
    const bool is_faulty = !now_->fault().empty();
    if (!on_disk) return is_faulty && unreadable_.empty();
    return *on_disk == (is_faulty ? unreadable_ : now_->text());
  };
  const auto give_way = [&] {
    ::unlink(path_beside(path_).c_str());
    look(/*closely=*/true);
    return refuse(Refusal::kConflict);
  };
  if (!is_as_taken_in()) return give_way();
  const Head before = *journal_->head();
  if (const auto entry = commit(); !entry) {
    ::unlink(path_beside(path_).c_str());
    return refuse(Refusal::kDisk, entry.error());
  }
  // Once more, as the commit takes its time too; what was committed stays as a branch.
  is_unplaced_ = !is_as_taken_in();
  if (is_unplaced_ && journal_->move(before.entry, before.text)) {
    is_unplaced_ = false;
    return give_way();
  }
  if (is_unplaced_ || !place()) {
    return refuse(Refusal::kDisk,
                  fail("serve.cannot_write", "", "the change can't be put into the file yet",
                       "it is kept in the journal: free some space or mend the folder's rights")
                      .diagnostics);
  }
  seen_ = see();
  set_now(std::make_shared<Snapshot>(*journal_->head(), std::move(made)), by);
  return {.now = now_};
}

Result<std::shared_ptr<const build::Document>> OpenBuild::find_document(
    const std::string& tag, const std::string& variant) const {
  if (tag == now_->tag()) {
    const auto answers = now_->answers(variant);
    if (!answers) return Failure{answers.error()};
    return (*answers)->document;
  }
  const auto entry = journal_->entry_of(tag);
  if (!entry) return Failure{entry.error()};
  const auto text = journal_->text_of(*entry);
  if (!text) return Failure{text.error()};
  auto read = build::read_build(*text);
  if (!read) return Failure{read.error()};
  if (variant.empty()) return read->document;
  auto varied = build::vary_build(*read->document, variant);
  if (!varied) return Failure{varied.error()};
  return varied->document;
}

Result<std::shared_ptr<const build::Document>> OpenBuild::document_at(const std::string& tag,
                                                                      const std::string& variant) {
  const std::lock_guard lock(mutex_);
  if (!journal_) return build_is_gone();
  look(/*closely=*/true);
  return find_document(tag, variant);
}

ChangeAnswer OpenBuild::patch(const ChangeRequest& request, const std::string& patch) {
  // The page tries an entry out before it makes it, to be told the open sheet's numbers first: both
  // at once would share the memory's and the processor's time, and neither be soon.
  trials_.wait_for_begun();
  const std::lock_guard lock(mutex_);
  if (auto refused = ready(request, /*must_be_newest=*/false)) return *std::move(refused);
  const bool merge = request.tag != now_->tag();
  const auto head = now_->answers(request.variant);
  if (!head) return refuse(Refusal::kDoesNotRead, head.error());
  const build::Document& before = *(*head)->document;
  if (!request.variant.empty() && changes_variants(patch)) {
    return refuse(Refusal::kDoesNotRead,
                  fail("build.bad_patch", "/variants",
                       "a variant's changes can't change the variants themselves",
                       "change /variants in the build itself")
                      .diagnostics);
  }
  Step step{.kind = EntryKind::kEdit,
            .by = request.by,
            .patch = patch,
            .variant = request.variant,
            .made_at_ms = now_ms()};

  if (merge) {
    const auto base_entry = journal_->entry_of(request.tag);
    const auto base = find_document(request.tag, request.variant);
    if (!base_entry || !base) return refuse(Refusal::kConflict);
    const auto made = journal_->was_made(*base_entry, step);
    if (made && *made && !request.by.screen.empty()) return {.now = now_, .merged = true};
    auto conflicts = build::find_conflicts(**base, before, patch);
    if (!conflicts) return refuse(Refusal::kDoesNotRead, conflicts.error());
    // Both wanted the same.
    std::erase_if(*conflicts, [](const auto& c) { return c.theirs == c.yours; });
    if (!conflicts->empty()) {
      ChangeAnswer refused = refuse(Refusal::kConflict);
      refused.conflicts = std::move(*conflicts);
      return refused;
    }
  }
  auto changed = build::patch_build(before, patch);
  if (changed && !request.variant.empty()) {
    changed = build::set_variant(*now_->plain()->document, request.variant, *changed->document);
  }
  if (!changed) {
    const bool misfit = merge && changed.error().front().code == "build.bad_patch";
    return refuse(misfit ? Refusal::kConflict : Refusal::kDoesNotRead, changed.error());
  }
  step.what = change_words(*now_->plain()->document, *changed->document);
  const std::string text = build::write_build(*changed->document);
  // What changes nothing is no step, and leaves what can be redone.
  if (text == build::write_build(*now_->plain()->document)) return {.now = now_, .merged = merge};
  ChangeAnswer answer = keep(
      std::move(*changed), text, [&] { return journal_->add(step, text); }, request.by);
  answer.merged = merge && !answer.refusal;
  return answer;
}

ChangeAnswer OpenBuild::go_to(std::optional<EntryId> entry, const ChangeRequest& request) {
  if (!entry) {
    return refuse(Refusal::kNothing, fail("serve.nothing_to_undo", "", "there is nothing to go to",
                                          "the history shows every state")
                                         .diagnostics);
  }
  const auto text = journal_->text_of(*entry);
  if (!text) return refuse(Refusal::kDisk, text.error());
  auto read = build::read_build(*text);
  if (!read) return refuse(Refusal::kDoesNotRead, read.error());
  return keep(
      std::move(*read), *text, [&] { return journal_->move(*entry, *text); }, request.by);
}

ChangeAnswer OpenBuild::undo(const ChangeRequest& request) {
  const std::lock_guard lock(mutex_);
  if (auto refused = ready(request, /*must_be_newest=*/true)) return *std::move(refused);
  return go_to(journal_->undo_target(), request);
}

ChangeAnswer OpenBuild::redo(const ChangeRequest& request) {
  const std::lock_guard lock(mutex_);
  if (auto refused = ready(request, /*must_be_newest=*/true)) return *std::move(refused);
  return go_to(journal_->redo_target(), request);
}

ChangeAnswer OpenBuild::restore(const ChangeRequest& request, EntryId entry) {
  const std::lock_guard lock(mutex_);
  auto refused = ready(request, /*must_be_newest=*/true);
  const bool is_faulty = refused && refused->refusal == Refusal::kFileFault;
  if (refused && !is_faulty) return *std::move(refused);
  if (request.tag != now_->tag()) return refuse(Refusal::kConflict);

  const auto text = journal_->text_of(entry);
  if (!text) return refuse(Refusal::kNothing, text.error());
  auto read = build::read_build(*text);
  if (!read) return refuse(Refusal::kDoesNotRead, read.error());
  const auto told = journal_->history(entry + 1, 1);
  if (!told) return refuse(Refusal::kDisk, told.error());
  const HistoryEntry& target = told->front();
  const Step step{.kind = EntryKind::kRestore,
                  .by = request.by,
                  .what = fmt::format("Back to: {}", target.version.value_or(target.step.what)),
                  .made_at_ms = now_ms()};
  if (is_faulty && !unreadable_.empty()) {
    const Step aside{.kind = EntryKind::kOutside,
                     .what = "What another program left, which could not be read",
                     .made_at_ms = step.made_at_ms};
    if (const auto kept = journal_->set_aside(aside, unreadable_); !kept) {
      return refuse(Refusal::kDisk, kept.error());
    }
  }
  return keep(
      std::move(*read), *text, [&] { return journal_->add(step, *text); }, request.by);
}

}  // namespace rig::serve
