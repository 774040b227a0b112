#include "serve/open_build.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <csignal>
#include <future>
#include <nlohmann/json.hpp>
#include <thread>

#include "serve/digest.h"
#include "serve/test_shop_internal.h"

namespace rig::serve {
namespace {

using Json = nlohmann::json;

std::string set(const std::string& path, const Json& value) {
  return Json::array({{{"op", "add"}, {"path", path}, {"value", value}}}).dump();
}

class Opened : public ::testing::Test {
 protected:
  Opened() : path_(folder_.add_small("tow.rig.json")) { reopen(); }

  void reopen() {
    build_.reset();
    auto opened = OpenBuild::open(path_);
    ASSERT_TRUE(opened.has_value()) << opened.error().front().message;
    build_ = std::move(*opened);
  }
  std::string file() const { return read_text(path_).value(); }
  std::string tag() const { return build_->snapshot()->tag(); }
  ChangeRequest on(const std::string& tag, const std::string& screen = "one") const {
    return {.tag = tag, .variant = "", .by = {screen, "AB"}};
  }
  ChangeAnswer patch(const std::string& patch) { return build_->patch(on(tag()), patch); }
  Json value(const std::string& pointer) const {
    return Json::parse(file()).at(Json::json_pointer(pointer));
  }

  TestFolder folder_;
  std::string path_;
  std::shared_ptr<OpenBuild> build_;
};

TEST_F(Opened, ShowsTheFileAsItStands) {
  const auto now = build_->snapshot();
  EXPECT_EQ(now->text(), file());
  EXPECT_EQ(now->tag(), tag_of(file()));
  EXPECT_FALSE(now->can_undo());
  EXPECT_TRUE(now->fault().empty());
}

TEST_F(Opened, AChangeIsOnDiskAndInTheHistory) {
  const auto answer = patch(set("/axles/front/track", "63 in"));
  ASSERT_FALSE(answer.refusal);
  EXPECT_EQ(value("/axles/front/track"), "63 in");
  EXPECT_EQ(answer.now->text(), file());
  const auto history = *build_->history(0, 10);
  ASSERT_EQ(history.size(), 2U);
  EXPECT_NE(history[0].step.what.find("63 in"), std::string::npos) << history[0].step.what;
  EXPECT_EQ(history[0].step.by.initials, "AB");
}

TEST_F(Opened, UndoAndRedoGiveTheVerySameBytesAcrossARestart) {
  const std::string first = file();
  patch(set("/name", "Other"));
  const std::string second = file();
  reopen();
  ASSERT_FALSE(build_->undo(on(tag())).refusal);
  EXPECT_EQ(file(), first);
  EXPECT_EQ(build_->undo(on(tag())).refusal, Refusal::kNothing);
  reopen();
  ASSERT_FALSE(build_->redo(on(tag())).refusal);
  EXPECT_EQ(file(), second);
  EXPECT_EQ(build_->redo(on(tag())).refusal, Refusal::kNothing);
  EXPECT_EQ(build_->undo(on("0000")).refusal, Refusal::kConflict);
}

TEST_F(Opened, ChangesToDifferentValuesBothStand) {
  const std::string base = tag();
  ASSERT_FALSE(build_->patch(on(base, "one"), set("/axles/front/track", "63 in")).refusal);
  const auto second = build_->patch(on(base, "two"), set("/axles/rear/track", "64 in"));
  ASSERT_FALSE(second.refusal);
  EXPECT_TRUE(second.merged);
  EXPECT_EQ(value("/axles/front/track"), "63 in");
  EXPECT_EQ(value("/axles/rear/track"), "64 in");
}

TEST_F(Opened, ChangesToTheSameValueShowTheConflict) {
  const std::string base = tag();
  const Json before = value("/axles/front/track");
  ASSERT_FALSE(build_->patch(on(base, "one"), set("/axles/front/track", "63 in")).refusal);
  const auto second = build_->patch(on(base, "two"), set("/axles/front/track", "64 in"));
  ASSERT_EQ(second.refusal, Refusal::kConflict);
  ASSERT_EQ(second.conflicts.size(), 1U);
  EXPECT_EQ(second.conflicts[0].path, "/axles/front/track");
  EXPECT_EQ(Json::parse(*second.conflicts[0].base), before);
  EXPECT_EQ(second.conflicts[0].theirs, "\"63 in\"");
  EXPECT_EQ(second.conflicts[0].yours, "\"64 in\"");
  EXPECT_EQ(value("/axles/front/track"), "63 in");
  // The same wanted twice is no conflict.
  EXPECT_FALSE(build_->patch(on(base, "two"), set("/axles/front/track", "63 in")).refusal);
  EXPECT_EQ(build_->patch(on("unknown"), set("/name", "X")).refusal, Refusal::kConflict);
}

TEST_F(Opened, AnAnswerLostOnItsWayMayBeAskedForAgain) {
  const std::string base = tag();
  const std::string add = set("/load_states/road/aboard/-", "no_such_thing");
  const std::string named = set("/name", "Once");
  EXPECT_EQ(build_->patch(on(base), add).refusal, Refusal::kDoesNotRead);
  ASSERT_FALSE(build_->patch(on(base), named).refusal);
  const auto again = build_->patch(on(base), named);
  EXPECT_FALSE(again.refusal);
  EXPECT_EQ(build_->history(0, 10)->size(), 2U);
}

TEST_F(Opened, AnUndoneEditIsMadeAgainWhenItIsSentAgain) {
  const std::string base = tag();
  const std::string track = set("/axles/front/track", "63 in");
  ASSERT_FALSE(build_->patch(on(base, "one"), track).refusal);
  ASSERT_FALSE(build_->undo(on(tag())).refusal);
  ASSERT_FALSE(build_->patch(on(base, "two"), set("/name", "Other")).refusal);
  const auto again = build_->patch(on(base, "one"), track);
  ASSERT_FALSE(again.refusal);
  EXPECT_TRUE(again.merged);
  EXPECT_EQ(value("/axles/front/track"), "63 in");
  EXPECT_EQ(value("/name"), "Other");
}

TEST_F(Opened, AnEditThatChangesNothingIsNoStep) {
  patch(set("/name", "Other"));
  ASSERT_FALSE(build_->undo(on(tag())).refusal);
  const auto answer = patch(set("/name", value("/name")));
  ASSERT_FALSE(answer.refusal);
  EXPECT_TRUE(answer.now->can_redo());
  EXPECT_EQ(build_->history(0, 10)->size(), 2U);
  ASSERT_FALSE(build_->redo(on(tag())).refusal);
  EXPECT_EQ(value("/name"), "Other");
}

TEST_F(Opened, WhatDoesNotReadChangesNothing) {
  const std::string before = file();
  const auto answer = patch(set("/axles/front/track", "62 lb"));
  ASSERT_EQ(answer.refusal, Refusal::kDoesNotRead);
  EXPECT_EQ(answer.diagnostics.front().code, "units.wrong_dimension");
  EXPECT_EQ(patch("{").refusal, Refusal::kDoesNotRead);
  EXPECT_EQ(file(), before);
  EXPECT_EQ(build_->history(0, 10)->size(), 1U);
}

TEST_F(Opened, AFileChangedOutsideBecomesAnEntryAndIsMerged) {
  const std::string base = tag();
  write_plainly(path_, with(file(), "\"name\": \"", "\"name\": \"By hand "));
  const auto answer = build_->patch(on(base), set("/axles/front/track", "63 in"));
  ASSERT_FALSE(answer.refusal);
  EXPECT_TRUE(answer.merged);
  EXPECT_EQ(value("/axles/front/track"), "63 in");
  EXPECT_EQ(value("/name").get<std::string>().substr(0, 7), "By hand");
  EXPECT_EQ(build_->history(0, 10)->at(1).step.kind, EntryKind::kOutside);
}

TEST_F(Opened, WhatAnotherProgramWritesDuringAnEditIsNotLost) {
  // An edit that takes long enough to be met under way.
  path_ = folder_.add_example("large.rig.json");
  reopen();
  const std::string outside = with(file(), "\"name\": \"", "\"name\": \"By hand ");
  // What waits beside the file shows that the edit is under way.
  auto writer = std::async(std::launch::async, [&] {
    while (!std::filesystem::exists(path_beside(path_))) std::this_thread::yield();
    write_plainly(folder_.in("saving"), outside);
    std::filesystem::rename(folder_.in("saving"), path_);
  });
  const auto edited = patch(set("/axles/front/track", "63 in"));
  writer.get();
  build_->snapshot();
  EXPECT_TRUE(build_->document_at(tag_of(outside), "").has_value());
  EXPECT_TRUE(!edited.refusal || edited.refusal == Refusal::kConflict);
  EXPECT_EQ(value("/name").get<std::string>().substr(0, 7), "By hand");
}

TEST_F(Opened, WhatADiskHasNoRoomForIsTakenInLater) {
  const std::string outside = with(file(), "\"name\": \"", "\"name\": \"By hand ");
  write_plainly(path_, outside);
  rlimit usual{};
  ::getrlimit(RLIMIT_FSIZE, &usual);
  const auto old_handler = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit none{.rlim_cur = 16, .rlim_max = usual.rlim_max};
  ::setrlimit(RLIMIT_FSIZE, &none);
  const auto full = build_->snapshot();
  ::setrlimit(RLIMIT_FSIZE, &usual);
  std::signal(SIGXFSZ, old_handler);
  ASSERT_FALSE(full->fault().empty());
  EXPECT_EQ(full->fault().front().code, "serve.disk");
  EXPECT_TRUE(build_->snapshot()->fault().empty());
  EXPECT_EQ(build_->snapshot()->text(), outside);
}

TEST_F(Opened, AnEditKeepsTheRightsOfTheFile) {
  using std::filesystem::perms;
  const auto all = perms::owner_read | perms::owner_write | perms::group_read | perms::group_write |
                   perms::others_read | perms::others_write;
  std::filesystem::permissions(path_, all);
  const mode_t old_mask = ::umask(077);
  patch(set("/name", "Other"));
  ::umask(old_mask);
  EXPECT_EQ(std::filesystem::status(path_).permissions(), all);
}

TEST_F(Opened, ClosingTellsThoseWhoListen) {
  std::vector<HeadEvent> events;
  build_->listen([&](const HeadEvent& event) { events.push_back(event); });
  build_->close();
  ASSERT_EQ(events.size(), 1U);
  EXPECT_EQ(events[0].entry, 0);
}

TEST_F(Opened, AFileLeftUnreadableIsToldAndNeverWrittenOver) {
  const std::string good = file();
  write_plainly(path_, "{ half a file");
  EXPECT_FALSE(build_->snapshot()->fault().empty());
  EXPECT_EQ(build_->snapshot()->text(), good);
  EXPECT_EQ(patch(set("/name", "X")).refusal, Refusal::kFileFault);
  EXPECT_EQ(file(), "{ half a file");
  reopen();
  EXPECT_FALSE(build_->snapshot()->fault().empty());
  const auto restored = build_->restore(on(tag()), build_->snapshot()->entry());
  ASSERT_FALSE(restored.refusal);
  EXPECT_EQ(file(), good);
  EXPECT_TRUE(restored.now->fault().empty());
  const auto history = *build_->history(0, 10);
  ASSERT_EQ(history.size(), 3U);
  EXPECT_EQ(history[1].step.kind, EntryKind::kOutside);
  EXPECT_FALSE(history[1].on_path);
}

TEST_F(Opened, AFileMendedOutsideIsGoodAgain) {
  const std::string good = file();
  write_plainly(path_, "nothing");
  EXPECT_FALSE(build_->snapshot()->fault().empty());
  write_plainly(path_, good);
  EXPECT_TRUE(build_->snapshot()->fault().empty());
  EXPECT_EQ(build_->history(0, 10)->size(), 1U);
}

TEST_F(Opened, ACrashAfterTheCommitIsFinishedAtTheNextStart) {
  const std::string before = file();
  patch(set("/name", "Committed"));
  const std::string after = file();
  build_.reset();
  // As if the power had gone before the rename.
  write_plainly(path_beside(path_), after);
  write_plainly(path_, before);
  reopen();
  EXPECT_EQ(file(), after);
  EXPECT_FALSE(std::filesystem::exists(path_beside(path_)));
}

TEST_F(Opened, ACrashBeforeTheCommitLeavesTheOldState) {
  const std::string before = file();
  build_.reset();
  write_plainly(path_beside(path_), with(before, "\"name\": \"", "\"name\": \"Never "));
  reopen();
  EXPECT_EQ(file(), before);
  EXPECT_FALSE(std::filesystem::exists(path_beside(path_)));
  EXPECT_EQ(build_->history(0, 10)->size(), 1U);
}

TEST_F(Opened, TellsTheOthers) {
  std::vector<HeadEvent> events;
  const int number = build_->listen([&](const HeadEvent& event) { events.push_back(event); });
  EXPECT_TRUE(build_->is_watched());
  patch(set("/name", "A"));
  // Of another length: the disk's clock may not have gone on since the edit.
  write_plainly(path_, with(file(), "\"A\"", "\"By hand\""));
  build_->snapshot();
  build_->stop_listening(number);
  patch(set("/name", "C"));
  ASSERT_EQ(events.size(), 2U);
  EXPECT_EQ(events[0].by.screen, "one");
  EXPECT_EQ(events[1].by.screen, "");
  EXPECT_GT(events[1].entry, events[0].entry);
}

TEST_F(Opened, AClosedBuildIsGone) {
  build_->close();
  EXPECT_EQ(patch(set("/name", "A")).refusal, Refusal::kGone);
  EXPECT_FALSE(build_->history(0, 1).has_value());
  EXPECT_FALSE(build_->name_version(1, "x").has_value());
}

TEST_F(Opened, AVariantIsChangedByItself) {
  const Json before = value("/axles/front/track");
  patch(set("/variants", {{"wide", {{"label", "Wider"}, {"changes", Json::object()}}}}));
  const auto request = [&] {
    return ChangeRequest{.tag = tag(), .variant = "wide", .by = {"one", ""}};
  };
  const auto answer = build_->patch(request(), set("/axles/front/track", "66 in"));
  ASSERT_FALSE(answer.refusal) << answer.diagnostics.front().message;
  EXPECT_EQ(value("/axles/front/track"), before);
  const auto varied = answer.now->answers("wide");
  ASSERT_TRUE(varied.has_value());
  EXPECT_EQ(Json::parse((*varied)->document_json)["axles"]["front"]["track"], "66 in");
  const auto nested = build_->patch(request(), set("/variants/wide/label", "Wide"));
  ASSERT_EQ(nested.refusal, Refusal::kDoesNotRead);
  EXPECT_EQ(nested.diagnostics.front().code, "build.bad_patch");
  EXPECT_EQ(answer.now->answers("no_such").error().front().code, "build.no_variant");
}

TEST(OpenBuild, TellsWhatIsWrongWithAFile) {
  EXPECT_EQ(OpenBuild::open("/no/such/file").error().front().code, "serve.cannot_read");
  const TestFolder folder;
  write_plainly(folder.in("bad.rig.json"), "{");
  EXPECT_FALSE(OpenBuild::open(folder.in("bad.rig.json")).has_value());
}

}  // namespace
}  // namespace rig::serve
