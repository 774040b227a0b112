#include "build/place_words.h"

#include <algorithm>
#include <vector>

#include "build/describe.h"
#include "build/tree_internal.h"

namespace rig::build {
namespace {

/// The visitor that gathers the keys of maps, everywhere in the file.
class CollectionKeys {
 public:
  template <typename T, typename... More>
  void field(std::string_view key, T& member, const More&...) {
    visit(key, member);
  }
  template <typename... More>
  void reference(const More&...) {}

  const std::vector<std::string_view>& keys() const { return keys_; }

 private:
  template <typename T>
  void visit(std::string_view key, Map<T>&) {
    if (std::find(keys_.begin(), keys_.end(), key) != keys_.end()) return;
    keys_.push_back(key);
    T within;
    describe(*this, within);
  }
  template <typename T>
  void visit(std::string_view, std::optional<T>&) {
    T within;
    if constexpr (!kStructName<T>.empty()) describe(*this, within);
  }
  template <typename T>
  requires(!kStructName<T>.empty()) void visit(std::string_view, T& within) {
    describe(*this, within);
  }
  template <typename T>
  requires(kStructName<T>.empty()) void visit(std::string_view, T&) {}

  std::vector<std::string_view> keys_;
};

/// "axle" in a link means its end there.
bool is_link_end(const Node& parent, std::string_view step) {
  return (step == "axle" || step == "frame") && parent.find("role") != nullptr;
}

}  // namespace

bool is_collection(std::string_view key) {
  static const std::vector<std::string_view> keys = [] {
    CollectionKeys visitor;
    Build build;
    describe(visitor, build);
    return visitor.keys();
  }();
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

std::string place_words(const Document& document, std::string_view pointer) {
  const auto steps = split_pointer(pointer).value_or(std::vector<std::string>{});
  std::string words;
  const Node* node = &document.root();
  bool in_collection = false;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const Node* parent = node;
    node = node == nullptr ? nullptr : child_of(*node, steps[i]);
    const bool names_next = !in_collection && is_collection(steps[i]) && i + 1 < steps.size();
    const bool changes = i == 2 && steps[0] == "variants";
    if (changes && i + 1 < steps.size()) {
      // What a variant changes is told by its place in the build.
      return words + ", " + place_words(document, steps[i + 1]);
    }
    const bool unsaid = steps[i] == "at" || steps[i] == "value";
    if (!names_next && !unsaid) {
      const Member* label = in_collection && node != nullptr ? node->find("label") : nullptr;
      std::string own = label != nullptr && label->value.kind == Kind::kString ? label->value.text
                                                                               : spaced(steps[i]);
      if (parent != nullptr && is_link_end(*parent, steps[i])) own += " end";
      words += (words.empty() ? "" : ", ") + own;
    }
    in_collection = names_next;
  }
  return words;
}

}  // namespace rig::build
