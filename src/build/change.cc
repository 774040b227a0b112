#include "build/change.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "build/document_internal.h"
#include "build/patch_lines_internal.h"
#include "build/place_words.h"
#include "build/read_internal.h"
#include "build/tree_internal.h"

namespace rig::build {
namespace {

bool is_within(std::string_view path, std::string_view whole) {
  return path == whole || (path.starts_with(whole) && path[whole.size()] == '/');
}

std::string_view parent_of(std::string_view path) { return path.substr(0, path.rfind('/')); }

std::string last_step(std::string_view path) {
  return split_pointer(path.substr(path.rfind('/')))->back();
}

/// The thing at a path, if it is one of a collection: a mass, an axle, a link.
const Node* find_thing(const Node& root, std::string_view path) {
  if (path.empty() || !split_pointer(path)) return nullptr;
  const std::string_view holder = parent_of(path);
  if (holder.empty() || !is_collection(last_step(holder))) return nullptr;
  return find_node(root, path);
}

Failure no_thing(std::string_view path) {
  return bad_change(path, fmt::format("there is no such thing at {}", shown(path)),
                    "give the place of a mass, an axle, a link and so on");
}

/// A place that names a thing: as a value, as one of a list, or as a key.
struct Use {
  enum class How { kValue, kInList, kAsKey } how = How::kValue;
  std::string path;
};

/// The uses of the thing at `path` from outside it, in the order of the file.
std::vector<Use> uses_of(const Node& root, std::string_view path) {
  std::vector<Use> found;
  const auto steps = split_pointer(path);
  if (!steps || steps->empty()) return found;
  if (steps->size() <= 3) {
    Build build;
    std::vector<IdUse> uses;
    Faults faults;
    read_tree(root, build, uses, faults);
    for (const IdUse& use : uses) {
      const auto ways = target_ways(use.target);
      if (use.id != steps->back() || is_within(use.path, path) ||
          std::find(ways.begin(), ways.end(), parent_of(path)) == ways.end()) {
        continue;
      }
      const Node* holder = find_node(root, parent_of(use.path));
      const Node* value = find_node(root, use.path);
      const bool names = value != nullptr && value->kind == Kind::kString;
      found.push_back({!names                         ? Use::How::kAsKey
                       : holder->kind == Kind::kArray ? Use::How::kInList
                                                      : Use::How::kValue,
                       use.path});
    }
  }
  // What a variant changes in it.
  if (const Node* variants = find_node(root, "/variants")) {
    for (const Member& variant : variants->members) {
      const Member* changes = variant.value.find("changes");
      if (changes == nullptr) continue;
      for (const Member& change : changes->value.members) {
        if (!is_within(change.key, path)) continue;
        found.push_back(
            {Use::How::kAsKey, fmt::format("/variants/{}/changes/{}", escape_pointer(variant.key),
                                           escape_pointer(change.key))});
      }
    }
  }
  return found;
}

/// The new name of a key that names a thing: an id, or a pointer into it.
std::string renamed_key(const std::string& key, std::string_view path, std::string_view to) {
  if (key.empty() || key.front() != '/') return std::string(to);
  return fmt::format("{}/{}{}", parent_of(path), to, key.substr(path.size()));
}

std::optional<Failure> check_new_id(const Node& root, std::string_view path, std::string_view to) {
  if (find_thing(root, path) == nullptr) return no_thing(path);
  if (!is_id(to)) {
    return bad_change(path, fmt::format("{} can't be an id", shown(to)), std::string(kIdRemedy));
  }
  if (find_node(root, fmt::format("{}/{}", parent_of(path), to)) != nullptr) {
    return bad_change(path, fmt::format("there is a {} already", shown(to)),
                      "choose another name, or rename that one first");
  }
  return std::nullopt;
}

/// "left" for "right" and the reverse; nothing when it says neither.
std::optional<std::string> other_side(std::string text) {
  for (const auto& [a, b] : {std::pair("left", "right"), std::pair("right", "left"),
                             std::pair("Left", "Right"), std::pair("Right", "Left")}) {
    if (const auto at = text.find(a); at != std::string::npos) {
      return text.replace(at, std::string_view(a).size(), b);
    }
  }
  return std::nullopt;
}

/// Turns every offset and every word for a side in the thing at `path` round, as it is written.
void turn_sides(PatchLines& patch, const Node& node, const std::string& path) {
  for (std::size_t i = 0; i < node.elements.size(); ++i) {
    turn_sides(patch, node.elements[i], fmt::format("{}/{}", path, i));
  }
  for (const Member& member : node.members) {
    const std::string here = fmt::format("{}/{}", path, escape_pointer(member.key));
    const Node* value = &member.value;
    std::string at = here;
    if (member.key == "offset" && value->kind == Kind::kObject && value->find("value") != nullptr) {
      value = &value->find("value")->value;
      at += "/value";
    }
    if ((member.key == "side" || member.key == "direction") && value->kind == Kind::kString) {
      if (const auto other = other_side(value->text)) patch.replace(at, quote(*other));
    } else if (member.key == "offset" && value->kind == Kind::kString) {
      std::string text = value->text;
      const auto first = text.find_first_not_of(' ');
      text.erase(0, std::min(first, text.size()));
      if (text.starts_with('+')) text.erase(0, 1);
      if (text.starts_with('-')) {
        text.erase(0, 1);
      } else if (text.starts_with("\u2212")) {
        text.erase(0, std::string_view("\u2212").size());
      } else if (text.find_first_of("123456789") != std::string::npos) {
        text = fmt::format("-{}", text);
      }
      patch.replace(at, quote(text));
    } else {
      turn_sides(patch, member.value, here);
    }
  }
}

std::string free_id(const Node& root, std::string_view holder, const std::string& wanted) {
  for (int n = 1;; ++n) {
    std::string id = n == 1 ? wanted : fmt::format("{}_{}", wanted, n);
    if (find_node(root, fmt::format("{}/{}", holder, id)) == nullptr) return id;
  }
}

}  // namespace

std::vector<Dependant> find_dependants(const Document& document, std::string_view path) {
  std::vector<Dependant> dependants;
  for (const Use& use : uses_of(document.root(), path)) {
    const bool in_list = use.how == Use::How::kInList;
    dependants.push_back(
        {use.path, place_words(document, in_list ? parent_of(use.path) : use.path)});
  }
  return dependants;
}

Result<std::string> rename_patch(const Document& document, std::string_view path,
                                 std::string_view to) {
  const Node& root = document.root();
  if (auto failure = check_new_id(root, path, to)) return *std::move(failure);
  PatchLines patch;
  for (const Use& use : uses_of(root, path)) {
    if (use.how == Use::How::kAsKey) {
      const std::string key = renamed_key(last_step(use.path), path, to);
      patch.move(use.path, fmt::format("{}/{}", parent_of(use.path), escape_pointer(key)));
    } else {
      patch.replace(use.path, quote(to));
    }
  }
  patch.move(path, fmt::format("{}/{}", parent_of(path), to));
  return patch.text();
}

Result<std::string> copy_patch(const Document& document, std::string_view path,
                               std::string_view to) {
  if (auto failure = check_new_id(document.root(), path, to)) return *std::move(failure);
  PatchLines patch;
  patch.copy(path, fmt::format("{}/{}", parent_of(path), to));
  return patch.text();
}

Result<std::string> mirror_patch(const Document& document, std::string_view path) {
  const Node& root = document.root();
  const Node* thing = find_thing(root, path);
  if (thing == nullptr) return no_thing(path);
  const std::string holder(parent_of(path));
  const std::string id = last_step(path);
  const Member* both = thing->find("both_sides");
  const Member* label = thing->find("label");
  const bool labelled = label != nullptr && label->value.kind == Kind::kString;

  PatchLines patch;
  std::string from(path);
  std::string right_id;
  std::string right_label = labelled ? label->value.text : "";
  if (both != nullptr && both->value.raw == "true") {
    // Given once for both sides: now given twice.
    right_id = free_id(root, holder, id + "_right");
    from = fmt::format("{}/{}", holder, free_id(root, holder, id + "_left"));
    patch.move(path, from);
    patch.remove(from + "/both_sides");
    if (labelled) {
      patch.replace(from + "/label", quote(label->value.text + ", left"));
      right_label += ", right";
    }
  } else {
    right_id = free_id(root, holder, other_side(id).value_or(id + "_mirror"));
    right_label = other_side(right_label).value_or(right_label + ", mirrored");
  }
  if (!is_id(right_id)) {
    return bad_change(path, fmt::format("{} is too long to add a side to", shown(id)),
                      "rename it to something shorter first");
  }
  const std::string right = fmt::format("{}/{}", holder, right_id);
  patch.copy(from, right);
  if (labelled) patch.replace(right + "/label", quote(right_label));
  turn_sides(patch, *thing, right);
  return patch.text();
}

Result<std::string> remove_patch(const Document& document, std::string_view path) {
  const Node& root = document.root();
  if (find_thing(root, path) == nullptr) return no_thing(path);
  // The last first: taking one out of a list then moves none of the others.
  auto uses = uses_of(root, path);
  std::reverse(uses.begin(), uses.end());
  PatchLines patch;
  for (const Use& use : uses) patch.remove(use.path);
  patch.remove(path);
  return patch.text();
}

}  // namespace rig::build
