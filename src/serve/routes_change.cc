// What changes a build, and the record of it.
#include <fmt/format.h>

#include "build/change.h"
#include "serve/change_words.h"
#include "serve/routes_internal.h"
#include "serve/whole_change_internal.h"

namespace rig::serve::internal {
namespace {

const char* kind_name(EntryKind kind) {
  switch (kind) {
    case EntryKind::kStart:
      return "start";
    case EntryKind::kEdit:
      return "edit";
    case EntryKind::kOutside:
      return "outside";
    case EntryKind::kRestore:
      return "restore";
  }
  return "";
}

/// Finds the build, reads the headers, makes the change, answers it.
template <typename Change>
Reply change_build(Desk& desk, const Ask& ask, const std::string& id, Change change) {
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  auto [request, refusal] = read_change(ask);
  if (refusal) return std::move(*refusal);
  return change_reply(change(**build, request), request.variant);
}

Reply history_reply(OpenBuild& build, EntryId before, int limit) {
  const auto entries = build.history(before, limit);
  if (!entries) return failure_reply(entries.error());
  Json list = Json::array();
  for (const HistoryEntry& entry : *entries) {
    list.push_back({{"entry", entry.entry},
                    {"parent", entry.parent ? Json(*entry.parent) : Json(nullptr)},
                    {"when", time_text(entry.step.made_at_ms)},
                    {"who", entry.step.by.initials},
                    {"kind", kind_name(entry.step.kind)},
                    {"what", entry.step.what},
                    {"version", entry.version ? Json(*entry.version) : Json(nullptr)},
                    {"on_path", entry.on_path}});
  }
  return {.body = json_text({{"head", build.snapshot()->entry()}, {"entries", std::move(list)}})};
}

Reply dependants_reply(const std::vector<build::Dependant>& dependants) {
  Json list = Json::array();
  for (const auto& one : dependants) list.push_back({{"path", one.path}, {"label", one.label}});
  return error_reply(409, "something else names what is to be taken out", {},
                     "\"dependants\": " + json_text(list));
}

}  // namespace

Reply patch_build(Desk& desk, const Ask& ask, const std::string& id) {
  return change_build(desk, ask, id, [&](OpenBuild& build, const ChangeRequest& request) {
    return build.patch(request, ask.body);
  });
}

Reply post_undo(Desk& desk, const Ask& ask, const std::string& id) {
  return change_build(desk, ask, id, [](OpenBuild& build, const ChangeRequest& request) {
    return build.undo(request);
  });
}

Reply post_redo(Desk& desk, const Ask& ask, const std::string& id) {
  return change_build(desk, ask, id, [](OpenBuild& build, const ChangeRequest& request) {
    return build.redo(request);
  });
}

Reply post_restore(Desk& desk, const Ask& ask, const std::string& id) {
  const auto body = read_object(ask);
  if (!body || !body->contains("entry") || !(*body)["entry"].is_number_integer()) return bad_body();
  const auto entry = (*body)["entry"].get<EntryId>();
  return change_build(desk, ask, id, [&](OpenBuild& build, const ChangeRequest& request) {
    return build.restore(request, entry);
  });
}

Reply post_change(Desk& desk, const Ask& ask, const std::string& id) {
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  auto [request, refusal] = read_change(ask);
  if (refusal) return std::move(*refusal);
  const auto body = read_object(ask);
  if (!body) return bad_body();
  const auto document = (*build)->document_at(request.tag, request.variant);
  if (!document) {
    const bool is_old = document.error().front().code == "serve.no_entry";
    if (!is_old) return failure_reply(document.error());
    return change_reply({.now = (*build)->snapshot(), .refusal = Refusal::kConflict},
                        request.variant);
  }
  const auto change = whole_change(**document, *body);
  if (!change) return bad_body();
  if (!change->patch) return failure_reply(change->patch.error());
  if (text_in(*body, "kind") == "remove" && body->value("with_dependants", Json(false)) != true) {
    const auto dependants = build::find_dependants(**document, *text_in(*body, "path"));
    if (!dependants.empty()) return dependants_reply(dependants);
  }
  return change_reply((*build)->patch(request, *change->patch), request.variant,
                      "\"path\": " + json_text(change->path));
}

Reply get_history(Desk& desk, const Ask& ask, const std::string& id) {
  constexpr int kUsual = 50, kMost = 200;
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  const auto before = number_in(ask, "before", 0), limit = number_in(ask, "limit", kUsual);
  if (!before || !limit || *limit < 1 || *limit > kMost) {
    return error_reply(400, "before or limit is not a number that makes sense");
  }
  return history_reply(**build, *before, static_cast<int>(*limit));
}

Reply post_versions(Desk& desk, const Ask& ask, const std::string& id) {
  constexpr int kUsual = 50;
  constexpr std::size_t kLongestName = 80;
  const auto build = desk.shop.find(id);
  if (!build) return failure_reply(build.error());
  const auto body = read_object(ask);
  const auto name = body ? text_in(*body, "name") : std::nullopt;
  if (!name || name->empty() || name->size() > kLongestName || !body->contains("entry") ||
      !(*body)["entry"].is_number_integer()) {
    return bad_body();
  }
  const auto named = (*build)->name_version((*body)["entry"].get<EntryId>(), *name);
  if (!named) return failure_reply(named.error());
  return history_reply(**build, 0, kUsual);
}

}  // namespace rig::serve::internal
