#include "build/variant.h"

#include <fmt/format.h>

#include <algorithm>

#include "build/document_internal.h"
#include "build/place_words.h"
#include "build/read_internal.h"
#include "build/tree_internal.h"

namespace rig::build {
namespace {

const Node* changes_of(const Node& root, std::string_view variant) {
  const Node* entry = find_node(root, fmt::format("/variants/{}", escape_pointer(variant)));
  if (entry == nullptr || entry->kind != Kind::kObject) return nullptr;
  const Member* changes = entry->find("changes");
  return changes == nullptr ? nullptr : &changes->value;
}

Node without_variants(const Node& root) {
  Node bare = root;
  if (const Node* variants = child_of(bare, "variants")) erase_child(bare, *variants);
  return bare;
}

/// The tree with a variant's changes laid over it; `on_bad` is told of each that leads nowhere.
template <typename OnBad>
Node lay_over(const Node& root, const Node* changes, OnBad on_bad) {
  Node varied = without_variants(root);
  if (changes == nullptr) return varied;
  for (const Member& change : changes->members) {
    if (!set_at(varied, change.key, change.value)) on_bad(change);
  }
  return varied;
}

/// Calls `tell(path, a, b)` for each value that differs, as near to the leaves as can be; a or b is
/// null where there is none. A value of null counts as none.
template <typename Tell>
void compare(const Node& a, const Node& b, const std::string& path, Tell tell) {
  if (is_same(a, b)) return;
  if (a.kind != Kind::kObject || b.kind != Kind::kObject) {
    tell(path, &a, &b);
    return;
  }
  const auto is_given = [](const Node* node) {
    return node != nullptr && node->kind != Kind::kNull;
  };
  for (const Member& member : a.members) {
    const std::string here = path + "/" + escape_pointer(member.key);
    const Node* other = child_of(b, member.key);
    if (is_given(&member.value) && is_given(other)) {
      compare(member.value, *other, here, tell);
    } else if (is_given(&member.value)) {
      tell(here, &member.value, nullptr);
    } else if (is_given(other)) {
      tell(here, nullptr, other);
    }
  }
  for (const Member& member : b.members) {
    if (child_of(a, member.key) == nullptr && is_given(&member.value)) {
      tell(path + "/" + escape_pointer(member.key), nullptr, &member.value);
    }
  }
}

/// A value as a shop reads it.
std::string value_words(const Node* node) {
  if (node == nullptr) return "not given";
  switch (node->kind) {
    case Kind::kNull:
      return "not given";
    case Kind::kBoolean:
      return node->raw == "true" ? "yes" : "no";
    case Kind::kNumber:
      return node->raw;
    case Kind::kString:
      return node->text;
    case Kind::kArray: {
      std::string words;
      for (const Node& element : node->elements) {
        words += (words.empty() ? "" : ", ") + value_words(&element);
      }
      return words.empty() ? "none" : words;
    }
    case Kind::kObject: {
      const Member* value = node->find("value");
      return value == nullptr ? "there" : value_words(&value->value);
    }
  }
  return "";
}

Failure no_variant(std::string_view variant) {
  return Failure{{{.code = "build.no_variant",
                   .path = fmt::format("/variants/{}", escape_pointer(variant)),
                   .message = sentence(fmt::format("there is no variant {}", shown(variant))),
                   .remedy = sentence("choose one that the build has"),
                   .at = {}}}};
}

}  // namespace

void check_variants(const Node& root, Faults& faults) {
  const Node* variants = child_of(root, "variants");
  if (variants == nullptr) return;
  for (const Member& variant : variants->members) {
    const Node* changes = changes_of(root, variant.key);
    if (changes == nullptr) continue;
    const std::string place = fmt::format("/variants/{}/changes", escape_pointer(variant.key));
    bool laid = true;
    const Node varied = lay_over(root, changes, [&](const Member& change) {
      laid = false;
      faults.add("build.bad_change", place + "/" + escape_pointer(change.key), change.key_at,
                 fmt::format("{} leads to nothing in this build", shown(change.key)),
                 "take the change out, or put in what it changes first");
    });
    if (!laid) continue;
    const auto read = read_build(write_build(Document(varied)));
    if (read) continue;
    for (const Diagnostic& d : read.error()) {
      // The change that brought it about, if one touches the place; else all of them together.
      const auto cause =
          std::find_if(changes->members.begin(), changes->members.end(), [&](const Member& change) {
            return d.path.starts_with(change.key) || change.key.starts_with(d.path);
          });
      const bool found = cause != changes->members.end();
      faults.add(d.code, found ? place + "/" + escape_pointer(cause->key) : place,
                 found ? cause->key_at : changes->at,
                 fmt::format("with this variant: {}", d.message), d.remedy);
    }
  }
}

Result<ReadBuild> vary_build(const Document& document, std::string_view variant) {
  const Node* entry =
      find_node(document.root(), fmt::format("/variants/{}", escape_pointer(variant)));
  if (entry == nullptr) return no_variant(variant);
  return read_build(write_build(Document(
      lay_over(document.root(), changes_of(document.root(), variant), [](const auto&) {}))));
}

Result<ReadBuild> set_variant(const Document& document, std::string_view variant,
                              const Document& varied) {
  Node changes;
  changes.kind = Kind::kObject;
  compare(without_variants(document.root()), without_variants(varied.root()), "",
          [&](const std::string& path, const Node*, const Node* b) {
            Node value;
            value.raw = "null";
            changes.members.push_back({path, {}, b == nullptr ? value : *b});
          });
  Node root = document.root();
  set_at(root, fmt::format("/variants/{}/changes", escape_pointer(variant)), changes);
  return read_build(write_build(Document(std::move(root))));
}

std::vector<Difference> find_differences(const Document& a, const Document& b) {
  std::vector<Difference> differences;
  compare(a.root(), b.root(), "", [&](const std::string& path, const Node* was, const Node* is) {
    differences.push_back({.path = path,
                           .label = place_words(is == nullptr ? a : b, path),
                           .a = value_words(was),
                           .b = value_words(is),
                           .in_a = was != nullptr,
                           .in_b = is != nullptr});
  });
  return differences;
}

}  // namespace rig::build
