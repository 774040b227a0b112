// What is told of one build.
#include <fmt/format.h>

#include <filesystem>

#include "build/change.h"
#include "build/patch.h"
#include "build/variant.h"
#include "check/frame_drawing_json.h"
#include "check/report_json.h"
#include "check/scene_json.h"
#include "serve/compare.h"
#include "serve/picture.h"
#include "serve/routes_internal.h"
#include "serve/whole_change_internal.h"

namespace rig::serve::internal {
namespace {

/// One state, and the answers for the variant that was asked for.
struct Told {
  std::shared_ptr<OpenBuild> build;
  std::shared_ptr<const Snapshot> now;
  std::shared_ptr<const Answers> answers;
};

Result<Told> find_answers(Desk& desk, const std::string& id, const std::string& variant) {
  const auto build = desk.shop.find(id);
  if (!build) return Failure{build.error()};
  auto now = (*build)->snapshot();
  auto answers = now->answers(variant);
  if (!answers) return Failure{answers.error()};
  return Told{*build, std::move(now), std::move(*answers)};
}

/// What the shop calls a variant.
std::string variant_label(const Snapshot& now, const std::string& variant) {
  if (variant.empty()) return "As it is";
  const auto label = build::value_at(*now.plain()->document, "/variants/" + variant + "/label");
  if (!label) return variant;
  const Json text = Json::parse(*label, nullptr, false);
  return text.is_string() && !text.get_ref<const std::string&>().empty() ? text.get<std::string>()
                                                                         : variant;
}

std::string side_json(const Told& told, const std::string& variant) {
  return fmt::format("{{\"label\": {}, \"report\": {}, \"scene\": {}}}",
                     json_text(variant_label(*told.now, variant)), told.answers->report_json,
                     told.answers->scene_json);
}

}  // namespace

Reply get_build(Desk& desk, const Ask& ask, const std::string& id) {
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  const auto now = (*build)->snapshot();
  const auto answers = now->answers(ask.parameter("variant"));
  if (!answers) return failure_reply(answers.error());
  const std::string file = std::filesystem::path((*build)->path()).filename().string();
  const std::string fault =
      now->fault().empty()
          ? "null"
          : fmt::format("{{\"diagnostics\": {}}}", check::diagnostics_json(now->fault()));
  return tagged(
      {.body = fmt::format("{{\"etag\": \"{}\", \"entry\": {}, \"file\": {}, \"document\": {}, "
                           "\"units\": {}, \"can_undo\": {}, \"can_redo\": {}, \"fault\": {}}}",
                           now->tag(), now->entry(), json_text(file), (*answers)->document_json,
                           check::units_json((*answers)->build.units), now->can_undo(),
                           now->can_redo(), fault)},
      now->tag());
}

Reply get_file(Desk& desk, const Ask&, const std::string& id) {
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  const auto now = (*build)->snapshot();
  return tagged({.body = now->text(),
                 .headers = {{"Content-Disposition",
                              fmt::format("attachment; filename=\"{}.rig.json\"", id)}}},
                now->tag());
}

Reply get_report(Desk& desk, const Ask& ask, const std::string& id) {
  const auto told = find_answers(desk, id, ask.parameter("variant"));
  if (!told) return failure_reply(told.error());
  const std::string& tag = told->now->tag();
  return tagged({.body = fmt::format("{{\"etag\": \"{}\", \"report\": {}}}", tag,
                                     told->answers->report_json)},
                tag);
}

Reply get_scene(Desk& desk, const Ask& ask, const std::string& id) {
  const auto told = find_answers(desk, id, ask.parameter("variant"));
  if (!told) return failure_reply(told.error());
  const std::string& tag = told->now->tag();
  return tagged(
      {.body = fmt::format("{{\"etag\": \"{}\", \"scene\": {}}}", tag, told->answers->scene_json)},
      tag);
}

Reply get_picture(Desk& desk, const Ask& ask, const std::string& id) {
  constexpr const char* kSvg = "image/svg+xml";
  if (const std::string variant = ask.parameter("variant"); !variant.empty()) {
    const auto told = find_answers(desk, id, variant);
    if (!told) return failure_reply(told.error());
    return {.type = kSvg, .body = picture_svg(told->answers->scene_json)};
  }
  const auto glance = desk.shop.glance(id);
  if (!glance) return failure_reply(glance.error());
  if ((*glance)->picture.empty()) {
    return error_reply(422, "the build can't be read, so there is no picture of it");
  }
  return {.type = kSvg, .body = (*glance)->picture};
}

Reply post_pose(Desk& desk, const Ask& ask, const std::string& id) {
  const auto told = find_answers(desk, id, ask.parameter("variant"));
  if (!told) return failure_reply(told.error());
  const auto question = check::read_pose_question(ask.body);
  if (!question) return error_reply(400, question.error().front().message, question.error());
  const auto pose = check::pose_json(told->answers->build, told->answers->report, *question);
  if (!pose) return error_reply(400, pose.error().front().message, pose.error());
  const std::string& tag = told->now->tag();
  return tagged({.body = fmt::format("{{\"etag\": \"{}\", \"pose\": {}}}", tag, *pose)}, tag);
}

Reply post_trial(Desk& desk, const Ask& ask, const std::string& id) {
  const auto work = check::find_work(ask.parameter("work"));
  if (!work) return error_reply(400, "work is none of weigh, axles, frame, drivetrain");
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  const Trials::Turn turn((*build)->trials());
  const auto answers = (*build)->last_seen()->answers(ask.parameter("variant"));
  if (!answers) return failure_reply(answers.error());
  const build::Document& document = *(*answers)->document;
  std::string patch = ask.body;
  if (const auto body = read_object(ask)) {
    const auto change = whole_change(document, *body);
    if (!change) return bad_body();
    if (!change->patch) return failure_reply(change->patch.error());
    patch = *change->patch;
  }
  const auto changed = build::patch_build(document, patch);
  if (!changed) return failure_reply(changed.error());
  const check::Report report = check::check_work(changed->build, *work, &(*answers)->report);
  return {.body = fmt::format("{{\"trial\": {}, \"scene\": {}}}",
                              check::trial_json(changed->build, report,
                                                {.work = *work, .axle = ask.parameter("axle")}),
                              check::scene_json(changed->build, report))};
}

Reply get_next(Desk& desk, const Ask& ask, const std::string& id) {
  for (;;) {
    const auto told = find_answers(desk, id, ask.parameter("variant"));
    if (!told) return failure_reply(told.error());
    // Given up when the build has gone on meanwhile: then for the newest state.
    const auto readings = told->answers->next_json(
        [&told] { return told->build->last_seen()->entry() == told->now->entry(); });
    if (!readings) continue;
    return tagged({.body = fmt::format("{{\"readings\": {}}}", *readings)}, told->now->tag());
  }
}

Reply get_frame_drawing(Desk& desk, const Ask& ask, const std::string& id) {
  const auto told = find_answers(desk, id, ask.parameter("variant"));
  if (!told) return failure_reply(told.error());
  const auto drawing = told->answers->frame_drawing_json(ask.parameter("case"));
  if (!drawing) return failure_reply(drawing.error());
  const std::string& tag = told->now->tag();
  return tagged({.body = fmt::format("{{\"etag\": \"{}\", \"drawing\": {}}}", tag, *drawing)}, tag);
}

Reply get_frame_sections(Desk& desk, const Ask& ask, const std::string& id) {
  const auto told = find_answers(desk, id, ask.parameter("variant"));
  if (!told) return failure_reply(told.error());
  const std::string& tag = told->now->tag();
  return tagged({.body = fmt::format("{{\"etag\": \"{}\", \"sections\": {}}}", tag,
                                     check::frame_sections_json(told->answers->build))},
                tag);
}

Reply get_compare(Desk& desk, const Ask& ask, const std::string& id) {
  const std::string variant_a = ask.parameter("a"), variant_b = ask.parameter("b");
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  const auto now = (*build)->snapshot();
  const auto a = now->answers(variant_a), b = now->answers(variant_b);
  if (!a) return failure_reply(a.error());
  if (!b) return failure_reply(b.error());
  Json inputs = Json::array();
  for (const auto& input : build::find_differences(*(*a)->document, *(*b)->document)) {
    // The list of variants itself is no difference between two of them.
    if (input.path.starts_with("/variants")) continue;
    inputs.push_back(
        {{"path", input.path}, {"label", input.label}, {"a", input.a}, {"b", input.b}});
  }
  const Json words = compare_words((*a)->report, (*b)->report);
  return tagged({.body = fmt::format("{{\"a\": {}, \"b\": {}, \"inputs\": {}, \"words\": {}}}",
                                     side_json({*build, now, *a}, variant_a),
                                     side_json({*build, now, *b}, variant_b), json_text(inputs),
                                     json_text(words))},
                now->tag());
}

Reply get_dependants(Desk& desk, const Ask& ask, const std::string& id) {
  const auto told = find_answers(desk, id, ask.parameter("variant"));
  if (!told) return failure_reply(told.error());
  Json dependants = Json::array();
  for (const auto& one : build::find_dependants(*told->answers->document, ask.parameter("path"))) {
    dependants.push_back({{"path", one.path}, {"label", one.label}});
  }
  return {.body = json_text({{"dependants", std::move(dependants)}})};
}

Reply get_events(Desk& desk, const Ask&, const std::string& id) {
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  const auto now = (*build)->snapshot();
  constexpr const char* kRetry = "retry: 1000\n\n";
  return {.type = "text/event-stream",
          .body = kRetry + event_text({.tag = now->tag(), .entry = now->entry(), .by = {}}),
          .events = *build};
}

}  // namespace rig::serve::internal
