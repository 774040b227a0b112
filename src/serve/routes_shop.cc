// The list of builds, and what makes one.
#include <fmt/format.h>

#include "build/patch.h"
#include "build/start.h"
#include "serve/change_words.h"
#include "serve/page_files.h"
#include "serve/routes_internal.h"
#include "serve/understand.h"

namespace rig::serve::internal {
namespace {

constexpr std::size_t kLongestName = 120;

Json listing_json(const Listing& listing) {
  const Glance& glance = *listing.glance;
  Json verdicts = nullptr;
  if (glance.verdicts) {
    verdicts = {{"good", glance.verdicts->good},
                {"look", glance.verdicts->look},
                {"stop", glance.verdicts->stop}};
  }
  return {{"id", listing.id},
          {"name", glance.name},
          {"file", listing.file},
          {"notice", glance.notice},
          {"etag", glance.tag},
          {"changed", time_text(listing.changed_ms)},
          {"verdicts", std::move(verdicts)},
          {"faults", glance.faults},
          {"archived", listing.is_archived}};
}

/// The document's text under another name.
Result<std::string> renamed(const build::Document& document, const std::string& name) {
  const Json patch = Json::array({{{"op", "add"}, {"path", "/name"}, {"value", name}}});
  const auto named = build::patch_build(document, json_text(patch));
  if (!named) return Failure{named.error()};
  return build::write_build(*named->document);
}

std::optional<std::map<std::string, std::string>> read_answers(const Json& json) {
  if (!json.is_object()) return std::nullopt;
  std::map<std::string, std::string> answers;
  for (const auto& [id, value] : json.items()) {
    if (!value.is_string()) return std::nullopt;
    answers[id] = value.get<std::string>();
  }
  return answers;
}

/// The text of the new build that is asked for; nothing when the body doesn't say one.
std::optional<Result<std::string>> new_text(Desk& desk, const Json& body, const std::string& name) {
  if (body.contains("answers")) {
    const auto answers = read_answers(body["answers"]);
    if (!answers) return std::nullopt;
    const auto started = build::start_build(*answers);
    if (!started) return Failure{started.error()};
    return renamed(*started->document, name);
  }
  if (const auto copied = text_in(body, "copy_of")) {
    const auto found = desk.shop.find(*copied);
    if (!found) return Failure{found.error()};
    return renamed(*(*found)->snapshot()->plain()->document, name);
  }
  if (const auto text = text_in(body, "text")) {
    // Kept byte for byte, once it is known to read.
    const auto read = build::read_build(*text);
    if (!read) return Failure{read.error()};
    return *text;
  }
  return std::nullopt;
}

}  // namespace

Reply get_shop(Desk& desk, const Ask&, const std::string&) {
  Json builds = Json::array();
  for (const Listing& listing : desk.shop.list()) builds.push_back(listing_json(listing));
  return {.body = json_text({{"folder", desk.shop.folder_name()},
                             {"single", desk.shop.is_single()},
                             {"lan", desk.door.is_locked()},
                             {"builds", std::move(builds)}})};
}

Reply get_questions(Desk&, const Ask&, const std::string&) {
  Json questions = Json::array();
  for (const auto& question : build::start_questions()) {
    Json choices = Json::array();
    for (const auto& [value, label] : question.choices) {
      choices.push_back({{"value", value}, {"label", label}});
    }
    questions.push_back({{"id", question.id},
                         {"label", question.label},
                         {"doc", question.doc},
                         {"kind", question.kind},
                         {"dimension", question.dimension},
                         {"choices", std::move(choices)},
                         {"usual", question.usual.empty() ? Json(nullptr) : Json(question.usual)},
                         {"needed", question.needed}});
  }
  return {.body = json_text({{"questions", std::move(questions)}})};
}

Reply post_builds(Desk& desk, const Ask& ask, const std::string&) {
  const auto body = read_object(ask);
  const auto name = body ? text_in(*body, "name") : std::nullopt;
  if (!name || name->empty() || name->size() > kLongestName) return bad_body();
  const auto text = new_text(desk, *body, *name);
  if (!text) return bad_body();
  if (!*text) return failure_reply(text->error());
  const auto id = desk.shop.add(*name, **text);
  if (!id) return failure_reply(id.error());
  return {.status = 201, .body = json_text({{"id", *id}})};
}

Reply post_archive(Desk& desk, const Ask& ask, const std::string& id) {
  const auto body = read_object(ask);
  const auto asked = body ? text_in(*body, "id") : std::nullopt;
  if (!asked || !body->contains("archived") || !(*body)["archived"].is_boolean()) return bad_body();
  const auto moved = desk.shop.archive(*asked, (*body)["archived"].get<bool>());
  if (!moved) return failure_reply(moved.error());
  return get_shop(desk, ask, id);
}

Reply get_understand(Desk&, const Ask& ask, const std::string&) {
  const auto fraction = number_in(ask, "fraction", 16);
  if (!fraction || *fraction < 1 || *fraction > 1024) {
    return error_reply(400, "fraction is not a number from 1 to 1024");
  }
  const units::UnitChoices choices{.metric = ask.parameter("metric") == "true",
                                   .fraction_of_inch = static_cast<int>(*fraction)};
  const auto understood = understand(ask.parameter("dimension"), ask.parameter("text"), choices);
  if (!understood) return failure_reply(understood.error());
  return {.body = json_text({{"si", understood->si},
                             {"text", understood->text},
                             {"written", understood->written},
                             {"also", understood->also}})};
}

Reply get_schema(Desk&, const Ask&, const std::string&) { return {.body = build::schema_json()}; }

Reply get_openapi(Desk&, const Ask&, const std::string&) {
  return {.body = std::string(openapi_json())};
}

}  // namespace rig::serve::internal
