#include <fmt/format.h>

#include <algorithm>

#include "build/document_internal.h"
#include "build/read.h"

namespace rig::build {
namespace {

constexpr std::string_view kBehindLast = "-";  // RFC 6901: the place behind a list's last item

/// One edit on its way down the tree.
class Editor {
 public:
  explicit Editor(const Edit& edit) : edit_(edit) {}

  Diagnostics apply(Node& root) {
    const auto steps = split_pointer(edit_.path);
    if (!steps || steps->empty() || steps->size() > kDeepest) {
      report("is not the pointer of a value in the file", "such as /masses/winch/mass");
    } else if (edit_.json.empty()) {
      remove(root, *steps);
    } else if (auto value = read_json()) {
      set(root, *steps, *std::move(value));
    }
    return std::move(diagnostics_);
  }

 private:
  void report(std::string message, std::string remedy) {
    diagnostics_.push_back({.code = "build.bad_edit",
                            .path = edit_.path,
                            .message = sentence(fmt::format("{} {}", shown(edit_.path), message)),
                            .remedy = sentence(std::move(remedy)),
                            .at = {}});
  }

  std::optional<Node> read_json() {
    Faults faults;
    auto value = parse_json(edit_.json, faults);
    if (faults.empty()) return value;
    for (const Diagnostic& d : faults.take()) {
      report(fmt::format("can't be set: {}", d.message), d.remedy);
    }
    return std::nullopt;
  }

  void set(Node& root, const std::vector<std::string>& steps, Node value) {
    Node* node = &root;
    for (const std::string& step : steps) {
      if (node->kind == Kind::kNull) {
        // Nothing there yet: what it must be shows in the step into it.
        *node = Node{};
        node->kind = step == kBehindLast || index_from_step(step) ? Kind::kArray : Kind::kObject;
      }
      node = enter(*node, step, /*make=*/true);
      if (node == nullptr) return;
    }
    *node = std::move(value);
  }

  void remove(Node& root, std::vector<std::string> steps) {
    const std::string last = std::move(steps.back());
    steps.pop_back();
    Node* node = &root;
    for (const std::string& step : steps) {
      node = enter(*node, step, /*make=*/false);
      if (node == nullptr) return;
    }
    const Node* leaving = enter(*node, last, /*make=*/false);
    if (leaving == nullptr) return;
    if (node->kind == Kind::kArray) {
      node->elements.erase(node->elements.begin() + (leaving - node->elements.data()));
    } else {
      const auto found = std::find_if(node->members.begin(), node->members.end(),
                                      [&](const Member& m) { return &m.value == leaving; });
      node->members.erase(found);
    }
  }

  /// The child a step leads to, a new one that is null if there is none and `make`; null once
  /// reported.
  Node* enter(Node& node, const std::string& step, bool make) {
    if (node.kind == Kind::kObject) {
      const auto found = std::find_if(node.members.begin(), node.members.end(),
                                      [&](const Member& m) { return m.key == step; });
      if (found != node.members.end()) return &found->value;
      if (make) return &node.members.emplace_back(Member{step, {}, null_node()}).value;
    } else if (node.kind == Kind::kArray) {
      const std::size_t count = node.elements.size();
      const auto index = step == kBehindLast ? std::optional(count) : index_from_step(step);
      if (index && *index < count) return &node.elements[*index];
      if (make && index == count) return &node.elements.emplace_back(null_node());
      report(fmt::format("leads to {} in a list of {}", shown(step), count),
             "count from 0; - is the place behind the last");
      return nullptr;
    } else {
      report(fmt::format("leads into {} with {}", kind_name(node.kind), shown(step)),
             "set the whole value that stands there");
      return nullptr;
    }
    report(fmt::format("leads to nothing at {}", shown(step)), "there is nothing to remove");
    return nullptr;
  }

  static Node null_node() {
    Node node;
    node.raw = "null";
    return node;
  }

  const Edit& edit_;
  Diagnostics diagnostics_;
};

}  // namespace

Result<ReadBuild> edit_build(const Document& document, const std::vector<Edit>& edits) {
  Node root = document.root();
  Diagnostics diagnostics;
  for (const Edit& edit : edits) {
    Diagnostics more = Editor(edit).apply(root);
    diagnostics.insert(diagnostics.end(), more.begin(), more.end());
  }
  if (!diagnostics.empty()) return Failure{std::move(diagnostics)};
  // Read anew from the text it makes, so that every fault has its line.
  return read_build(write_build(Document(std::move(root))));
}

}  // namespace rig::build
