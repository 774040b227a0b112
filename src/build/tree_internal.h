#pragma once

#include <string>
#include <string_view>

#include "build/document_internal.h"

/// Going about in a document's tree.
namespace rig::build {

/// The value one step down; null when there is none.
Node* child_of(Node& node, std::string_view step);
const Node* child_of(const Node& node, std::string_view step);

/// The value at a pointer; null when there is none, or it is no pointer.
Node* find_node(Node& root, std::string_view pointer);
const Node* find_node(const Node& root, std::string_view pointer);

/// Takes a direct child out of its list or group.
void erase_child(Node& parent, const Node& child);

/// Equal as JSON: numbers by value, groups whatever the order of their members.
bool is_same(const Node& a, const Node& b);

/// A value on one line, whatever its length.
std::string write_compact(const Node& node);

/// Puts a value at a pointer, making the groups on its way; a value of null takes it out.
/// @return  False when the way leads through a scalar or past the end of a list.
bool set_at(Node& root, std::string_view pointer, const Node& value);

}  // namespace rig::build
