#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "build/document_internal.h"

namespace rig::build {

std::string_view kind_name(Kind kind) {
  switch (kind) {
    case Kind::kNull:
      return "null";
    case Kind::kBoolean:
      return "true or false";
    case Kind::kNumber:
      return "a bare number";
    case Kind::kString:
      return "text";
    case Kind::kArray:
      return "a list [ ]";
    case Kind::kObject:
      return "a group { }";
  }
  return "";
}

const Member* Node::find(std::string_view key) const {
  const auto found =
      std::find_if(members.begin(), members.end(), [&](const Member& m) { return m.key == key; });
  return found == members.end() ? nullptr : &*found;
}

std::optional<double> number_from_raw(std::string_view raw) {
  double number = 0;
  const auto [end, error] = std::from_chars(raw.data(), raw.data() + raw.size(), number);
  if (error != std::errc{} || end != raw.data() + raw.size()) return std::nullopt;
  return number;
}

std::string quote(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
    } else {
      out += c;
    }
  }
  return out + '"';
}

std::string escape_pointer(std::string_view key) {
  std::string out;
  for (const char c : key) {
    if (c == '~') {
      out += "~0";
    } else if (c == '/') {
      out += "~1";
    } else {
      out += c;
    }
  }
  return out;
}

std::optional<std::vector<std::string>> split_pointer(std::string_view pointer) {
  std::vector<std::string> steps;
  if (!pointer.empty() && pointer.front() != '/') return std::nullopt;
  for (std::size_t i = 0; i < pointer.size(); ++i) {
    if (pointer[i] == '/') {
      steps.emplace_back();
    } else if (pointer[i] != '~') {
      steps.back() += pointer[i];
    } else {
      const char escaped = ++i < pointer.size() ? pointer[i] : '\0';
      if (escaped != '0' && escaped != '1') return std::nullopt;
      steps.back() += escaped == '0' ? '~' : '/';
    }
  }
  return steps;
}

std::optional<std::size_t> index_from_step(std::string_view step) {
  std::size_t index = 0;
  const auto [end, error] = std::from_chars(step.data(), step.data() + step.size(), index);
  const bool whole = error == std::errc{} && end == step.data() + step.size();
  if (!whole || (step.size() > 1 && step[0] == '0')) return std::nullopt;
  return index;
}

Located locate(const Node& root, std::string_view pointer) {
  const Node* node = &root;
  TextPosition key_at = root.at;
  for (const std::string& step : split_pointer(pointer).value_or(std::vector<std::string>{})) {
    if (node->kind == Kind::kArray) {
      const auto index = index_from_step(step);
      if (!index || *index >= node->elements.size()) break;
      node = &node->elements[*index];
      key_at = node->at;
    } else {
      const Member* member = node->find(step);
      if (member == nullptr) break;
      node = &member->value;
      key_at = member->key_at;
    }
  }
  return {.key = key_at, .value = node->at};
}

}  // namespace rig::build
