#include "serve/answers.h"

#include <array>
#include <functional>
#include <nlohmann/json.hpp>

#include "base/side_by_side.h"
#include "build/variant.h"
#include "check/frame_drawing_json.h"
#include "check/next.h"
#include "check/report_json.h"
#include "check/scene_json.h"

namespace rig::serve {

std::shared_ptr<const Answers> make_answers(build::ReadBuild read, const Answers* last) {
  auto answers = std::make_shared<Answers>();
  answers->document = std::move(read.document);
  answers->build = std::move(read.build);
  answers->report = check::check(answers->build, check::Thorough::kWithAdvice,
                                 last == nullptr ? nullptr : &last->report);
  const std::array<std::function<std::string()>, 3> texts{
      [&] { return check::report_json(answers->build, answers->report); },
      [&] { return check::scene_json(answers->build, answers->report); },
      [&] { return build::write_build(*answers->document); }};
  auto written = make_side_by_side(texts.size(), [&](std::size_t i) { return texts[i](); });
  answers->report_json = std::move(written[0]);
  answers->scene_json = std::move(written[1]);
  answers->document_json = std::move(written[2]);
  return answers;
}

std::optional<std::string> Answers::next_json(const std::function<bool()>& is_wanted) const {
  // Held while working it out: a second asker waits for the first one's answer.
  const std::lock_guard lock(next_mutex_);
  if (next_json_) return next_json_;
  const auto found = check::find_next_readings({build, document}, is_wanted);
  if (!found) return std::nullopt;
  nlohmann::ordered_json readings = nlohmann::ordered_json::array();
  for (const auto& reading : *found) {
    auto moves = nlohmann::ordered_json::array();
    for (const auto& move : reading.moved) {
      moves.push_back({{"finding", move.finding}, {"sentence", move.sentence}, {"by", move.by}});
    }
    readings.push_back({{"path", reading.path},
                        {"label", reading.label},
                        {"now", reading.now},
                        {"plus_minus", reading.plus_minus},
                        {"moves", std::move(moves)}});
  }
  next_json_ = readings.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  return next_json_;
}

Result<std::string> Answers::frame_drawing_json(const std::string& case_id) const {
  const std::lock_guard lock(frame_mutex_);
  if (const auto known = frame_drawings_.find(case_id); known != frame_drawings_.end()) {
    return known->second;
  }
  auto drawn = check::frame_drawing_json(build, report, case_id);
  if (drawn) frame_drawings_.emplace(case_id, *drawn);
  return drawn;
}

Snapshot::Snapshot(const Head& head, std::shared_ptr<const Answers> plain, Diagnostics fault)
    : entry_(head.entry),
      tag_(head.tag),
      text_(head.text),
      can_undo_(head.can_undo),
      can_redo_(head.can_redo),
      fault_(std::move(fault)),
      plain_(std::move(plain)) {}

Result<std::shared_ptr<const Answers>> Snapshot::answers(const std::string& variant) const {
  if (variant.empty()) return plain_;
  // Held while working it out: a second asker waits for the first one's answer.
  const std::lock_guard lock(mutex_);
  auto& known = variants_[variant];
  if (!known) {
    auto varied = build::vary_build(*plain_->document, variant);
    if (!varied) {
      variants_.erase(variant);
      return Failure{varied.error()};
    }
    known = make_answers(std::move(*varied), plain_.get());
  }
  return known;
}

}  // namespace rig::serve
