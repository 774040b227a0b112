#include <fmt/format.h>

#include <algorithm>
#include <concepts>
#include <type_traits>

#include "build/describe.h"
#include "build/quantity_form_internal.h"
#include "build/read_internal.h"
#include "build/utf8_internal.h"

namespace rig::build {
namespace {

/// The way to a node, made into a JSON pointer only when it is needed.
struct Place {
  const Place* parent = nullptr;
  std::string_view step;

  std::string pointer() const {
    return parent == nullptr ? "" : parent->pointer() + "/" + escape_pointer(step);
  }
};

/// What the reading of all nodes shares.
struct Reading {
  const Units& units;  ///< Of the build being read; known before its first quantity.
  std::vector<IdUse>& uses;
  Faults& faults;

  units::UnitChoices choices() const { return {units.metric, units.fraction_of_inch}; }

  void report(std::string_view code, const Place& place, TextPosition at, std::string message,
              std::string remedy) {
    faults.add(code, place.pointer(), at, std::move(message), std::move(remedy));
  }
  void report_kind(const Place& place, const Node& node, std::string_view wanted) {
    std::string seen(kind_name(node.kind));
    if (node.kind == Kind::kString) seen += fmt::format(" {}", shown(node.text));
    if (node.kind == Kind::kNumber) seen += fmt::format(" {}", shown(node.raw));
    report("build.wrong_type", place, node.at,
           fmt::format("{} stands here where {} should", seen, wanted),
           fmt::format("give {}, or leave the key out while it is not known", wanted));
  }
};

/// "a point", "an axle", but "units".
std::string one(std::string_view name) {
  constexpr std::string_view kVowels = "aeiou";
  if (name.back() == 's') return spaced(name);
  const bool vowel = kVowels.find(name.front()) != std::string_view::npos;
  return (vowel ? "an " : "a ") + spaced(name);
}

template <typename E>
std::vector<std::string_view> words_of() {
  std::vector<std::string_view> words;
  words.reserve(kNames<E>.size());
  for (const auto& [value, name] : kNames<E>) words.push_back(name);
  return words;
}

/// What can stand for a value, for a remedy.
template <typename E, typename Rule>
std::string words_for(const E&, const Rule&) {
  return listed(words_of<E>());
}
std::string words_for(const int&, const Allowed& allowed) {
  return fmt::format("{}", fmt::join(allowed.values, ", "));
}

std::string allowed_range(units::Dimension dimension, const Bounds& key,
                          const units::UnitChoices& choices) {
  const Bounds bounds = bounds_of(dimension, key);
  const auto print = [&](double si) { return units::print_quantity(si, dimension, choices); };
  return fmt::format("give {} {} and at most {}", bounds.above_min ? "more than" : "at least",
                     print(bounds.min), print(bounds.max));
}

// One read_value for each kind of member. A key whose value is null counts as left out and gets to
// none.

template <units::Dimension D>
void read_value(Reading& reading, const Node& node, const Place& place, Amount<D>& amount,
                const Bounds& bounds) {
  const auto choices = reading.choices();
  double si = 0;
  if (node.kind == Kind::kNumber && D == units::Dimension::kGearRatio) {
    si = number_from_raw(node.raw).value_or(kNaN);
  } else if (node.kind == Kind::kNumber && D == units::Dimension::kRatio) {
    // A bare number is a fraction of one; 60 would leave open whether 60 % is meant.
    const auto number = number_from_raw(node.raw);
    if (!number || *number < 0 || *number > 1) {
      reading.report("build.out_of_range", place, node.at,
                     fmt::format("the bare number {} is outside 0 to 1", shown(node.raw)),
                     "give a fraction from 0 to 1, or a percentage such as \"60 %\"");
      return;
    }
    si = *number;
  } else if (node.kind == Kind::kNumber) {
    reading.report(
        "units.no_unit", place, node.at,
        fmt::format("the bare number {} has no unit", shown(node.raw)),
        fmt::format("give {} as text with its unit, such as \"{} {}\"", units::dimension_name(D),
                    node.raw.size() > 20 ? "1" : node.raw, units::unit_name(D, choices)));
    return;
  } else if (node.kind == Kind::kString) {
    constexpr std::size_t kLongest = 100;
    if (count_characters(node.text) > kLongest) {
      reading.report("units.not_a_number", place, node.at,
                     fmt::format("{} is too long for a quantity", shown(node.text)),
                     "put words about it in its \"note\"");
      return;
    }
    const auto parsed = units::parse_quantity(node.text, D);
    if (!parsed) {
      for (const Diagnostic& d : parsed.error()) {
        reading.report(d.code, place, node.at, d.message, d.remedy);
      }
      return;
    }
    si = parsed->si;
  } else {
    reading.report_kind(place, node, fmt::format("{} in quotes", units::dimension_name(D)));
    return;
  }
  if (is_within(si, D, bounds)) {
    amount.si = si;
  } else {
    reading.report(
        "build.out_of_range", place, node.at,
        fmt::format("{} is out of range", shown(node.kind == Kind::kString ? node.text : node.raw)),
        allowed_range(D, bounds, choices));
  }
}

template <typename Rule>
void read_value(Reading& reading, const Node& node, const Place& place, bool& flag, Rule) {
  if (node.kind != Kind::kBoolean) return reading.report_kind(place, node, "true or false");
  flag = node.raw == "true";
}

template <typename Rule>
void read_value(Reading& reading, const Node& node, const Place& place, std::string& text, Rule) {
  if (node.kind != Kind::kString) return reading.report_kind(place, node, "text in quotes");
  constexpr std::size_t kLongest = 400;
  const bool control = std::any_of(node.text.begin(), node.text.end(), is_control);
  if (control || count_characters(node.text) > kLongest) {
    reading.report("build.bad_text", place, node.at,
                   control
                       ? fmt::format("{} holds a control character", shown(node.text))
                       : fmt::format("{} is longer than {} letters", shown(node.text), kLongest),
                   "give one line of plain text");
    return;
  }
  text = node.text;
}

void read_value(Reading& reading, const Node& node, const Place& place, int& number,
                const Allowed& allowed) {
  if (node.kind != Kind::kNumber) return reading.report_kind(place, node, "a whole number");
  const auto read = number_from_raw(node.raw);
  const auto found = std::find_if(allowed.values.begin(), allowed.values.end(),
                                  [&](int value) { return read && *read == value; });
  if (found == allowed.values.end()) {
    reading.report("build.out_of_range", place, node.at,
                   fmt::format("{} is none of the values known here", shown(node.raw)),
                   "give one of: " + words_for(number, allowed));
    return;
  }
  number = *found;
}

template <typename E, typename Rule>
requires std::is_enum_v<E>
void read_value(Reading& reading, const Node& node, const Place& place, E& member, Rule) {
  const auto words = words_of<E>();
  if (node.kind != Kind::kString) {
    return reading.report_kind(place, node, "one of the words " + listed(words));
  }
  for (const auto& [value, name] : kNames<E>) {
    if (name == node.text) {
      member = value;
      return;
    }
  }
  reading.report("build.unknown_word", place, node.at,
                 fmt::format("{} is not a word known here", shown(node.text)),
                 suggest(node.text, words, "Give one of"));
}

void read_value(Reading& reading, const Node& node, const Place& place, Reference& reference,
                std::string_view target) {
  if (node.kind != Kind::kString) {
    return reading.report_kind(place, node, fmt::format("an id out of \"{}\"", target));
  }
  reference.id = node.text;
  reading.uses.push_back({node.text, place.pointer(), node.at, target});
}

/// A variant's changes: what they make of the build is read on its own, so here only their places.
template <typename Rule>
void read_value(Reading& reading, const Node& node, const Place& place, Changes&, Rule) {
  if (node.kind != Kind::kObject) return reading.report_kind(place, node, "changes in { }");
  for (const Member& change : node.members) {
    const auto steps = split_pointer(change.key);
    if (steps && !steps->empty() && steps->size() <= kDeepest && steps->front() != "variants" &&
        steps->front() != "version") {
      continue;
    }
    reading.report("build.bad_change", Place{&place, change.key}, change.key_at,
                   fmt::format("{} is no place that a variant can change", shown(change.key)),
                   "give the pointer of a value, such as /axles/front/track");
  }
}

template <typename T, typename Rule>
void read_value(Reading&, const Node&, const Place&, std::optional<T>&, Rule);
template <typename T, typename Rule>
void read_value(Reading&, const Node&, const Place&, std::vector<T>&, Rule);
template <typename T, typename Rule>
void read_value(Reading&, const Node&, const Place&, Map<T>&, Rule);
template <units::Dimension D, typename Rule>
void read_value(Reading&, const Node&, const Place&, Quantity<D>&, Rule);
template <typename T, typename Rule>
requires(!kStructName<T>.empty()) void read_value(Reading&, const Node&, const Place&, T&, Rule);

/// The visitor that reads one group of keys; whatever is left over afterwards is unknown.
class GroupReader {
 public:
  GroupReader(Reading& reading, const Node& node, const Place& place)
      : reading_(reading), node_(node), place_(place) {}

  template <typename T, typename Rule = NoRule>
  void field(std::string_view key, T& member, std::string_view doc, const Rule& rule = {}) {
    if (const Node* value = take(key)) {
      read_value(reading_, *value, Place{&place_, key}, member, rule);
      return;
    }
    if constexpr (std::is_same_v<Rule, Required>) {
      report_missing(key, doc, words_for(member, rule));
    } else if constexpr (std::is_same_v<Rule, Allowed>) {
      if (rule.required) report_missing(key, doc, words_for(member, rule));
    }
  }

  template <typename T>
  void reference(std::string_view key, T& member, std::string_view target, std::string_view) {
    if (const Node* value = take(key)) {
      read_value(reading_, *value, Place{&place_, key}, member, target);
    }
  }

  void report_unknown_keys(std::string_view group) {
    for (const Member& member : node_.members) {
      if (std::find(known_.begin(), known_.end(), member.key) != known_.end()) continue;
      if (reading_.faults.full()) return;
      reading_.report("build.unknown_key", Place{&place_, member.key}, member.key_at,
                      fmt::format("{} is not a key of {}", shown(member.key), one(group)),
                      suggest(member.key, known_, "Known here"));
    }
  }

 private:
  /// The value of a key; null if it is left out or written as null.
  const Node* take(std::string_view key) {
    known_.push_back(key);
    const Member* member = node_.find(key);
    return member == nullptr || member->value.kind == Kind::kNull ? nullptr : &member->value;
  }

  void report_missing(std::string_view key, std::string_view doc, std::string_view words) {
    reading_.report("build.missing_key", Place{&place_, key}, node_.at,
                    fmt::format("\"{}\" is missing here: {}", key, doc),
                    fmt::format("give one of: {}", words));
  }

  Reading& reading_;
  const Node& node_;
  const Place& place_;
  std::vector<std::string_view> known_;
};

template <typename T>
void read_group(Reading& reading, const Node& node, const Place& place, T& group,
                std::string_view name) {
  GroupReader reader(reading, node, place);
  describe(reader, group);
  reader.report_unknown_keys(name);
}

template <typename T, typename Rule>
requires(!kStructName<T>.empty()) void read_value(Reading& reading, const Node& node,
                                                  const Place& place, T& group, Rule) {
  if (node.kind != Kind::kObject) {
    return reading.report_kind(place, node, one(kStructName<T>) + " in { }");
  }
  read_group(reading, node, place, group, kStructName<T>);
}

template <units::Dimension D, typename Rule>
void read_value(Reading& reading, const Node& node, const Place& place, Quantity<D>& quantity,
                Rule rule) {
  QuantityForm<D> form;
  if constexpr (std::is_same_v<Rule, Bounds>) form.bounds = rule;
  if (node.kind == Kind::kObject) {
    read_group(reading, node, place, form, "quantity");
  } else {
    read_value(reading, node, place, form.value, form.bounds);
  }
  quantity.si = form.value.si;
  quantity.plus_minus_si = form.plus_minus.si;
  quantity.from = form.from;
  quantity.note = std::move(form.note);
}

template <typename T, typename Rule>
void read_value(Reading& reading, const Node& node, const Place& place, std::optional<T>& member,
                Rule rule) {
  read_value(reading, node, place, member.emplace(), rule);
}

template <typename T, typename Rule>
void read_value(Reading& reading, const Node& node, const Place& place, std::vector<T>& list,
                Rule rule) {
  if (node.kind != Kind::kArray) return reading.report_kind(place, node, "a list in [ ]");
  for (std::size_t i = 0; i < node.elements.size() && !reading.faults.full(); ++i) {
    const std::string step = std::to_string(i);
    read_value(reading, node.elements[i], Place{&place, step}, list.emplace_back(), rule);
  }
}

template <typename T, typename Rule>
void read_value(Reading& reading, const Node& node, const Place& place, Map<T>& map, Rule rule) {
  if (node.kind != Kind::kObject) {
    return reading.report_kind(
        place, node, fmt::format("a group of {}s by id in {{ }}", spaced(kStructName<T>)));
  }
  for (const Member& member : node.members) {
    if (reading.faults.full()) return;
    const Place here{&place, member.key};
    if (!is_id(member.key)) {
      reading.report("build.bad_id", here, member.key_at,
                     fmt::format("{} can't be an id", shown(member.key)), std::string(kIdRemedy));
    } else if constexpr (std::is_same_v<Rule, KeysOf>) {
      reading.uses.push_back({member.key, here.pointer(), member.key_at, rule.target});
    }
    if (member.value.kind == Kind::kNull) continue;
    map.push_back({member.key, here.pointer(), {}});
    read_value(reading, member.value, here, map.back().value, NoRule{});
  }
}

}  // namespace

bool is_id(std::string_view text) {
  constexpr std::size_t kLongest = 40;
  if (text.empty() || text.size() > kLongest || text[0] < 'a' || text[0] > 'z') return false;
  return std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
}

void read_tree(const Node& root, Build& build, std::vector<IdUse>& uses, Faults& faults) {
  Reading reading{build.units, uses, faults};
  const Place place;
  read_value(reading, root, place, build, NoRule{});
}

}  // namespace rig::build
