#include <algorithm>
#include <utility>

#include "build/tree_internal.h"

namespace rig::build {

const Node* child_of(const Node& node, std::string_view step) {
  if (node.kind == Kind::kObject) {
    const Member* member = node.find(step);
    return member == nullptr ? nullptr : &member->value;
  }
  if (node.kind != Kind::kArray) return nullptr;
  const auto index = index_from_step(step);
  return index && *index < node.elements.size() ? &node.elements[*index] : nullptr;
}

Node* child_of(Node& node, std::string_view step) {
  return const_cast<Node*>(child_of(std::as_const(node), step));
}

const Node* find_node(const Node& root, std::string_view pointer) {
  const auto steps = split_pointer(pointer);
  if (!steps) return nullptr;
  const Node* node = &root;
  for (const std::string& step : *steps) {
    node = child_of(*node, step);
    if (node == nullptr) return nullptr;
  }
  return node;
}

Node* find_node(Node& root, std::string_view pointer) {
  return const_cast<Node*>(find_node(std::as_const(root), pointer));
}

void erase_child(Node& parent, const Node& child) {
  if (parent.kind == Kind::kArray) {
    parent.elements.erase(parent.elements.begin() + (&child - parent.elements.data()));
    return;
  }
  const auto found = std::find_if(parent.members.begin(), parent.members.end(),
                                  [&](const Member& m) { return &m.value == &child; });
  parent.members.erase(found);
}

bool is_same(const Node& a, const Node& b) {
  if (a.kind != b.kind) return false;
  switch (a.kind) {
    case Kind::kNull:
      return true;
    case Kind::kBoolean:
      return a.raw == b.raw;
    case Kind::kNumber:
      return number_from_raw(a.raw) == number_from_raw(b.raw);
    case Kind::kString:
      return a.text == b.text;
    case Kind::kArray:
      return std::equal(a.elements.begin(), a.elements.end(), b.elements.begin(), b.elements.end(),
                        is_same);
    case Kind::kObject:
      return a.members.size() == b.members.size() &&
             std::all_of(a.members.begin(), a.members.end(), [&](const Member& m) {
               const Member* other = b.find(m.key);
               return other != nullptr && is_same(m.value, other->value);
             });
  }
  return false;
}

bool set_at(Node& root, std::string_view pointer, const Node& value) {
  const auto steps = split_pointer(pointer);
  if (!steps || steps->empty()) return false;
  Node* node = &root;
  for (const std::string& step : *steps) {
    if (node->kind == Kind::kNull) {
      *node = Node{};
      node->kind = Kind::kObject;
    }
    Node* parent = node;
    node = child_of(*parent, step);
    if (node != nullptr) continue;
    if (value.kind == Kind::kNull) return true;
    if (parent->kind != Kind::kObject) return false;
    node = &parent->members.emplace_back(Member{step, {}, {}}).value;
  }
  if (value.kind != Kind::kNull) {
    *node = value;
    return true;
  }
  Node* parent = find_node(root, pointer.substr(0, pointer.rfind('/')));
  erase_child(*parent, *node);
  return true;
}

}  // namespace rig::build
