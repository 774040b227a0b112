#include "build/patch.h"

#include <fmt/format.h>

#include <algorithm>

#include "build/document_internal.h"
#include "build/read_internal.h"
#include "build/tree_internal.h"

namespace rig::build {
namespace {

/// Lines of a patch, beyond what any edit needs.
constexpr std::size_t kMostSteps = 1000;

enum class Op { kAdd, kRemove, kReplace, kMove, kCopy, kTest };

constexpr std::pair<std::string_view, Op> kOps[] = {
    {"add", Op::kAdd},   {"remove", Op::kRemove}, {"replace", Op::kReplace},
    {"move", Op::kMove}, {"copy", Op::kCopy},     {"test", Op::kTest}};

/// One line of a patch.
struct Step {
  Op op = Op::kTest;
  std::string path;
  std::string from;  ///< Of a move or a copy.
  Node value;        ///< Of an add, a replacement or a test.
};

Diagnostic bad_patch(std::string path, std::string message, std::string remedy) {
  return {.code = "build.bad_patch",
          .path = std::move(path),
          .message = sentence(std::move(message)),
          .remedy = sentence(std::move(remedy)),
          .at = {}};
}

/// A text member of a patch's line; nothing when it is missing or no pointer.
std::optional<std::string> pointer_in(const Node& line, std::string_view key) {
  const Member* member = line.find(key);
  if (member == nullptr || member->value.kind != Kind::kString) return std::nullopt;
  const auto steps = split_pointer(member->value.text);
  if (!steps || steps->size() > kDeepest) return std::nullopt;
  return member->value.text;
}

std::optional<Step> read_step(const Node& line) {
  const Member* op = line.find("op");
  const auto path = pointer_in(line, "path");
  if (op == nullptr || op->value.kind != Kind::kString || !path) return std::nullopt;
  const auto* const known = std::find_if(std::begin(kOps), std::end(kOps),
                                         [&](const auto& o) { return o.first == op->value.text; });
  if (known == std::end(kOps)) return std::nullopt;
  Step step{.op = known->second, .path = *path, .from = {}, .value = {}};
  if (step.op == Op::kMove || step.op == Op::kCopy) {
    auto from = pointer_in(line, "from");
    if (!from) return std::nullopt;
    step.from = *std::move(from);
  } else if (step.op != Op::kRemove) {
    const Member* value = line.find("value");
    if (value == nullptr) return std::nullopt;
    step.value = value->value;
  }
  return step;
}

Result<std::vector<Step>> read_patch(std::string_view text) {
  Faults faults;
  const auto root = parse_json(text, faults);
  if (!root || !faults.empty()) {
    const Diagnostics found = faults.take();
    return Failure{{bad_patch("", "the patch is not JSON",
                              found.empty() ? "send a JSON Patch" : found.front().message)}};
  }
  if (root->kind != Kind::kArray) {
    return Failure{{bad_patch("", "a patch is a list of changes", "send a list")}};
  }
  if (root->elements.size() > kMostSteps) {
    return Failure{{bad_patch("", fmt::format("a patch has at most {} changes", kMostSteps),
                              "send them in several")}};
  }
  std::vector<Step> steps;
  for (std::size_t i = 0; i < root->elements.size(); ++i) {
    auto step = read_step(root->elements[i]);
    if (!step) {
      return Failure{{bad_patch(
          "", fmt::format("change {} of the patch is not one of RFC 6902", i),
          "each has op (add, remove, replace, move, copy, test), path, and value or from")}};
    }
    steps.push_back(*std::move(step));
  }
  return steps;
}

Diagnostic too_large(std::string path) {
  return bad_patch(std::move(path), "the file would be larger than 8 MiB",
                   "a build file is a few hundred KiB at most");
}

/// Where a thing stands or would stand: the list or group that holds it, and the last step.
struct Slot {
  Node* parent = nullptr;
  std::string step;
};

/// Applies the lines of one patch to a tree.
class Patcher {
 public:
  explicit Patcher(Node& root) : root_(root), size_(write_compact(root).size()) {}

  /// What is wrong with this line here, if anything.
  std::optional<Diagnostic> apply(const Step& step) {
    if (step.path.empty() && step.op != Op::kTest) {
      return bad_patch("", "the whole file can't be changed at once", "change what is in it");
    }
    switch (step.op) {
      case Op::kAdd:
        return add(step.path, step.value, nullptr);
      case Op::kRemove:
        return remove(step.path);
      case Op::kReplace:
        return replace(step.path, step.value);
      case Op::kMove:
        return move(step.from, step.path);
      case Op::kCopy:
        return copy(step.from, step.path);
      case Op::kTest:
        return test(step.path, step.value);
    }
    return std::nullopt;
  }

 private:
  static Diagnostic nothing_at(const std::string& path) {
    return bad_patch(path, fmt::format("there is nothing at {}", shown(path)),
                     "it may have been taken out in the meantime");
  }

  std::optional<Slot> slot_of(const std::string& path) {
    const std::size_t cut = path.rfind('/');
    Node* parent = find_node(root_, path.substr(0, cut));
    if (parent == nullptr) return std::nullopt;
    return Slot{parent, split_pointer(path.substr(cut))->back()};
  }

  /// @param after  In a group: the member to stand behind; null: at the end.
  std::optional<Diagnostic> add(const std::string& path, Node value, const std::string* after) {
    const auto slot = slot_of(path);
    if (!slot) return nothing_at(path.substr(0, path.rfind('/')));
    Node& parent = *slot->parent;
    if (parent.kind == Kind::kObject) {
      if (Node* old = child_of(parent, slot->step)) {
        *old = std::move(value);
        return std::nullopt;
      }
      auto place = parent.members.end();
      if (after != nullptr) {
        place = std::find_if(parent.members.begin(), parent.members.end(),
                             [&](const Member& m) { return m.key == *after; });
        if (place != parent.members.end()) ++place;
      }
      parent.members.insert(place, Member{slot->step, {}, std::move(value)});
      return std::nullopt;
    }
    if (parent.kind != Kind::kArray) return nothing_at(path.substr(0, path.rfind('/')));
    const auto index =
        slot->step == "-" ? std::optional(parent.elements.size()) : index_from_step(slot->step);
    if (!index || *index > parent.elements.size()) return nothing_at(path);
    parent.elements.insert(parent.elements.begin() + static_cast<std::ptrdiff_t>(*index),
                           std::move(value));
    return std::nullopt;
  }

  std::optional<Diagnostic> remove(const std::string& path) {
    const auto slot = slot_of(path);
    const Node* leaving = slot ? child_of(*slot->parent, slot->step) : nullptr;
    if (leaving == nullptr) return nothing_at(path);
    erase_child(*slot->parent, *leaving);
    return std::nullopt;
  }

  std::optional<Diagnostic> replace(const std::string& path, Node value) {
    Node* node = find_node(root_, path);
    if (node == nullptr) return nothing_at(path);
    *node = std::move(value);
    return std::nullopt;
  }

  /// Within one group a move is a new name at the same place; a group's members have no order in
  /// JSON, so this too is what RFC 6902 says.
  std::optional<Diagnostic> move(const std::string& from, const std::string& path) {
    if (path == from)
      return find_node(root_, from) == nullptr ? std::optional(nothing_at(from)) : std::nullopt;
    if (path.starts_with(from + "/")) {
      return bad_patch(path, "a thing can't be moved into itself", "choose another place");
    }
    const auto source = slot_of(from);
    const auto target = slot_of(path);
    Node* node = source ? child_of(*source->parent, source->step) : nullptr;
    if (node == nullptr) return nothing_at(from);
    if (target && target->parent == source->parent && source->parent->kind == Kind::kObject &&
        child_of(*target->parent, target->step) == nullptr) {
      for (Member& member : source->parent->members) {
        if (&member.value == node) member.key = target->step;
      }
      return std::nullopt;
    }
    Node moved = *node;
    if (auto fault = remove(from)) return fault;
    return add(path, std::move(moved), nullptr);
  }

  std::optional<Diagnostic> copy(const std::string& from, const std::string& path) {
    const Node* node = find_node(root_, from);
    if (node == nullptr) return nothing_at(from);
    // A copy of what holds earlier copies doubles it, so a short patch could fill the memory. What
    // is taken out again counts too.
    size_ += write_compact(*node).size();
    if (size_ > kLargest_bytes) return too_large(path);
    Node copied = *node;
    if (from.empty()) return add(path, std::move(copied), nullptr);
    const std::string beside = slot_of(from)->step;
    const bool same_group = path.substr(0, path.rfind('/')) == from.substr(0, from.rfind('/'));
    return add(path, std::move(copied), same_group ? &beside : nullptr);
  }

  std::optional<Diagnostic> test(const std::string& path, const Node& value) {
    const Node* node = find_node(root_, path);
    if (node == nullptr) return nothing_at(path);
    if (is_same(*node, value)) return std::nullopt;
    return bad_patch(path, fmt::format("{} has changed in the meantime", shown(path)),
                     "look at it and change it again");
  }

  Node& root_;
  std::size_t size_;  ///< Of the text and all copies, bytes.
};

/// As far as a pointer leads without entering a list: what stands in a list shifts.
std::string_view before_list(const Node& root, std::string_view pointer) {
  std::size_t end = 0;
  const Node* node = &root;
  while (end < pointer.size()) {
    const std::size_t next = std::min(pointer.find('/', end + 1), pointer.size());
    if (node->kind == Kind::kArray) return pointer.substr(0, end);
    node = child_of(*node, split_pointer(pointer.substr(end, next - end))->front());
    if (node == nullptr) return pointer;
    end = next;
  }
  return pointer;
}

std::optional<std::string> compact_at(const Node& root, std::string_view pointer) {
  const Node* node = find_node(root, pointer);
  return node == nullptr ? std::nullopt : std::optional(write_compact(*node));
}

/// True when the nearest thing around `path` that `base` has is gone from `head`.
bool lost_its_place(const Node& base, const Node& head, std::string_view path) {
  while (!path.empty()) {
    path = path.substr(0, path.rfind('/'));
    if (find_node(base, path) != nullptr) return find_node(head, path) == nullptr;
  }
  return false;
}

}  // namespace

Result<ReadBuild> patch_build(const Document& document, std::string_view patch) {
  const auto steps = read_patch(patch);
  if (!steps) return Failure{steps.error()};
  Node root = document.root();
  Patcher patcher(root);
  for (const Step& step : *steps) {
    if (auto fault = patcher.apply(step)) return Failure{{*std::move(fault)}};
  }
  // Read anew from the text it makes, so that every fault has its line.
  const std::string text = write_build(Document(std::move(root)));
  if (text.size() > kLargest_bytes) return Failure{{too_large("")}};
  return read_build(text);
}

Result<std::vector<std::string>> touched_paths(std::string_view patch) {
  const auto steps = read_patch(patch);
  if (!steps) return Failure{steps.error()};
  std::vector<std::string> paths;
  for (const Step& step : *steps) {
    if (!step.from.empty()) paths.push_back(step.from);
    paths.push_back(step.path);
  }
  return paths;
}

std::optional<std::string> value_at(const Document& document, std::string_view pointer) {
  return compact_at(document.root(), pointer);
}

Result<std::vector<Conflict>> find_conflicts(const Document& base, const Document& head,
                                             std::string_view patch) {
  const auto steps = read_patch(patch);
  if (!steps) return Failure{steps.error()};
  std::vector<Conflict> conflicts;
  // What an earlier line of the patch has put in or changed is this patch's own.
  std::vector<std::string> own;
  const auto look_at = [&](std::string_view path, const Node* wanted) {
    const bool is_own = std::any_of(own.begin(), own.end(), [&](const std::string& o) {
      return path == o || path.starts_with(o + "/");
    });
    own.emplace_back(path);
    if (is_own) return;
    const std::string_view place = before_list(base.root(), path);
    auto was = compact_at(base.root(), place), is = compact_at(head.root(), place);
    const bool agreed = wanted != nullptr && place == path && is == write_compact(*wanted);
    if ((was == is && !lost_its_place(base.root(), head.root(), place)) || agreed) return;
    conflicts.push_back(
        {.path = std::string(place),
         .base = std::move(was),
         .theirs = std::move(is),
         .yours = wanted == nullptr ? std::nullopt : std::optional(write_compact(*wanted))});
  };
  for (const Step& step : *steps) {
    if (!step.from.empty()) look_at(step.from, nullptr);
    const bool sets = step.op == Op::kAdd || step.op == Op::kReplace;
    look_at(step.path, sets ? &step.value : nullptr);
  }
  return conflicts;
}

}  // namespace rig::build
