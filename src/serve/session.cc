#include "serve/session.h"

#include "check/report_json.h"
#include "check/scene_json.h"
#include "serve/file.h"

namespace rig::serve {
namespace {

std::shared_ptr<const Snapshot> make_snapshot(int revision, std::string text,
                                              build::ReadBuild read) {
  auto snapshot = std::make_shared<Snapshot>();
  snapshot->revision = revision;
  snapshot->text = std::move(text);
  snapshot->document = std::move(read.document);
  snapshot->build = std::move(read.build);
  snapshot->report = check::check(snapshot->build);
  snapshot->report_json = check::report_json(snapshot->build, snapshot->report);
  snapshot->scene_json = check::scene_json(snapshot->build, snapshot->report);
  return snapshot;
}

}  // namespace

Result<std::unique_ptr<Session>> Session::open(const std::string& path) {
  auto text = read_text(path);
  if (!text) return Failure{text.error()};
  auto read = build::read_build(*text);
  if (!read) return Failure{read.error()};
  std::unique_ptr<Session> session(new Session(path));
  session->now_ = make_snapshot(1, std::move(*text), std::move(*read));
  return session;
}

std::shared_ptr<const Snapshot> Session::snapshot() const {
  const std::lock_guard lock(mutex_);
  return now_;
}

EditAnswer Session::edit(int revision, const std::vector<build::Edit>& edits) {
  const std::lock_guard lock(mutex_);
  // Someone may have changed the file in an editor: take that in, never write over it.
  const auto on_disk = read_text(path_);
  if (on_disk && *on_disk != now_->text) {
    auto read = build::read_build(*on_disk);
    if (!read) return {now_, EditFault::kOldRevision, read.error()};
    now_ = make_snapshot(now_->revision + 1, *on_disk, std::move(*read));
  }
  if (revision != now_->revision) return {now_, EditFault::kOldRevision, {}};

  auto edited = build::edit_build(*now_->document, edits);
  if (!edited) return {now_, EditFault::kDoesNotRead, edited.error()};
  std::string text = build::write_build(*edited->document);
  if (auto written = write_text(path_, text); !written) {
    return {now_, EditFault::kCannotWrite, written.error()};
  }
  now_ = make_snapshot(now_->revision + 1, std::move(text), std::move(*edited));
  return {now_, std::nullopt, {}};
}

}  // namespace rig::serve
