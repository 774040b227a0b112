#include "mutations.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <nlohmann/json.hpp>

namespace rig {
namespace {

using Json = nlohmann::ordered_json;
using Pointer = Json::json_pointer;

/// Pointers of all values, groups and lists included.
void list_pointers(const Json& json, const Pointer& here, std::vector<Pointer>& out) {
  if (!here.empty()) out.push_back(here);
  if (json.is_object()) {
    for (const auto& [key, value] : json.items()) list_pointers(value, here / key, out);
  } else if (json.is_array()) {
    for (std::size_t i = 0; i < json.size(); ++i) list_pointers(json[i], here / i, out);
  }
}

/// Groups whose keys are ids: a misspelt one is only another id.
bool holds_ids(const Pointer& group) {
  if (group.empty()) return false;
  static const std::vector<std::string> maps = {"load_states",
                                                "masses",
                                                "tyres",
                                                "axles",
                                                "corner_weighings",
                                                "lifted_weighings",
                                                "links",
                                                "arms",
                                                "coils",
                                                "leaf_packs",
                                                "bump_stops",
                                                "dampers",
                                                "fills",
                                                "anti_roll_bars",
                                                "steels",
                                                "rails",
                                                "stretches",
                                                "plates",
                                                "holes",
                                                "gaps",
                                                "crossmembers",
                                                "mounts",
                                                "pulls",
                                                "drive_torques",
                                                "stages",
                                                "segments",
                                                "outputs",
                                                "shafts",
                                                "gears",
                                                "ranges",
                                                "lifts",
                                                "variants",
                                                "changes",
                                                "stands"};
  return std::find(maps.begin(), maps.end(), group.back()) != maps.end();
}

/// The same group with one key renamed in its place.
Json renamed(const Json& group, const std::string& key, const std::string& new_key) {
  Json out = Json::object();
  for (const auto& [old_key, value] : group.items())
    out[old_key == key ? new_key : old_key] = value;
  return out;
}

/// A number with its unit, not a label that begins with one.
bool is_quantity(const Pointer& pointer, const Json& value) {
  if (!value.is_string() || pointer.back() == "label" || pointer.back() == "note") return false;
  const char first = value.get_ref<const std::string&>()[0];
  return first == '-' || (first >= '0' && first <= '9');
}

/// What may be a bare number of any size.
bool is_gear_ratio(const Pointer& pointer) {
  return pointer.back() == "gear_ratio" || pointer.back() == "ratio" ||
         pointer.back() == "converter";
}

class Mutator {
 public:
  Mutator(std::string name, std::string text, std::size_t stride)
      : name_(std::move(name)),
        text_(std::move(text)),
        stride_(stride),
        json_(Json::parse(text_)) {}

  std::vector<MutatedFile> make() {
    std::vector<Pointer> pointers;
    list_pointers(json_, Pointer(), pointers);
    for (const Pointer& pointer : pointers) {
      change_key(pointer);
      change_kind(pointer);
      if (is_quantity(pointer, json_.at(pointer))) change_quantity(pointer);
    }
    cut_off();
    damage_bytes();
    damage_lines();
    add_whole_file_faults();
    return std::move(files_);
  }

 private:
  /// Whether this place is taken; called once for each.
  bool takes() { return places_++ % stride_ == 0; }

  void add(const std::string& what, std::string text, bool wrong) {
    files_.push_back(
        {fmt::format("{}-{:04}-{}", name_, files_.size(), what), std::move(text), wrong});
  }
  void add_with(const std::string& what, const Pointer& pointer, Json value, bool wrong) {
    Json json = json_;
    json[pointer] = std::move(value);
    add(what, json.dump(2), wrong);
  }

  void change_key(const Pointer& pointer) {
    const Json& parent = json_.at(pointer.parent_pointer());
    if (!parent.is_object()) return;
    const std::string& key = pointer.back();
    const auto with_parent = [&](const std::string& what, const Json& new_parent, bool wrong) {
      Json json = json_;
      json[pointer.parent_pointer()] = new_parent;
      add(what, json.dump(2), wrong);
    };
    const bool ids = holds_ids(pointer.parent_pointer());
    if (takes()) {
      Json without = parent;
      without.erase(key);
      with_parent("key_left_out", without, pointer.to_string() == "/version");
    }
    if (takes()) with_parent("key_cut", renamed(parent, key, key.substr(0, key.size() - 1)), !ids);
    if (takes()) with_parent("key_doubled", renamed(parent, key, key + key.back()), !ids);
    if (takes()) with_parent("key_capital", renamed(parent, key, "X" + key), true);
    if (takes()) with_parent("key_empty", renamed(parent, key, ""), true);
    if (takes()) {
      // The first key of the group is written again behind the last, with its value.
      const std::string again = Json(key).dump() + ": " + parent.at(key).dump();
      Json json = json_;
      json[pointer.parent_pointer()]["\x01"] = nullptr;
      std::string text = json.dump(2);
      const std::string marker = R"("\u0001": null)";
      text.replace(text.find(marker), marker.size(), again);
      add("key_twice", text, true);
    }
  }

  void change_kind(const Pointer& pointer) {
    const Json& value = json_.at(pointer);
    const bool version = pointer.to_string() == "/version";
    if (takes()) add_with("null", pointer, nullptr, version);
    if (takes()) add_with("flag", pointer, true, !value.is_boolean());
    if (takes()) add_with("number", pointer, 7.25, !is_gear_ratio(pointer));
    if (takes()) add_with("huge_number", pointer, 1e300, true);
    if (takes()) add_with("negative_number", pointer, -3, true);
    if (takes()) add_with("list", pointer, Json::array({"12 in"}), true);
    if (takes()) add_with("list_in_list", pointer, Json::array({Json::array()}), true);
    if (takes()) add_with("strange_group", pointer, Json{{"strange", "12 in"}}, true);
    if (takes()) add_with("empty_list", pointer, Json::array(), !value.is_array());
    if (takes()) add_with("empty_group", pointer, Json::object(), false);
    const bool name = value.is_string() && !is_quantity(pointer, value);
    if (takes()) add_with("strange_text", pointer, "no such thing", !name);
    if (takes()) add_with("empty_text", pointer, "", !name);
    if (takes()) add_with("control_text", pointer, "1\x01 in", true);
    if (takes() && name) {
      add_with("misspelt", pointer, value.get<std::string>() + "x", false);
    }
  }

  void change_quantity(const Pointer& pointer) {
    const auto text = json_.at(pointer).get<std::string>();
    const std::string number = text.substr(0, text.find_first_of(" \"%'"));
    const auto put = [&](const std::string& what, const std::string& new_text, bool wrong) {
      if (takes()) add_with(what, pointer, new_text, wrong);
    };
    const bool ratio = text.find('%') != std::string::npos;
    put("no_unit", number, !ratio);
    put("strange_unit", number + " furlongs", true);
    put("two_units", text + " lb", true);
    put("speed", number + " mph", true);
    const bool stress = text.ends_with("psi") || text.ends_with("ksi") || text.ends_with("Pa");
    put("pressure", number + " psi", !stress);
    put("nan", "nan " + text, true);
    put("infinite", "inf in", true);
    put("huge", "1e308 " + text.substr(number.size()), true);
    put("too_huge", "1e999 in", true);
    put("tiny", "1e-300 in", false);
    put("negative", "-" + text, false);
    put("words", "about " + text, true);
    put("zero", "0 in", false);
    put("two_numbers", number + "/0 in", true);
    put("minus_unicode", "\u2212" + text, false);
    put("long", text + std::string(300, ' '), true);
  }

  void cut_off() {
    const std::size_t step = std::max<std::size_t>(1, text_.size() / 60);
    for (std::size_t size = 0; size + 3 < text_.size(); size += step) {
      if (takes()) add("cut_off", text_.substr(0, size), true);
    }
  }

  void damage_bytes() {
    const std::vector<std::string> bytes = {"\xFF",
                                            "\xC3",
                                            "\xED\xA0\x80",
                                            std::string(1, '\0'),
                                            "\"",
                                            "\\",
                                            "{",
                                            "}",
                                            "]",
                                            ",",
                                            ":",
                                            "\n",
                                            "\t",
                                            "/*",
                                            "\u201D",
                                            "\\u12"};
    const std::size_t step = std::max<std::size_t>(1, text_.size() / 40);
    std::size_t kind = 0;
    for (std::size_t at = 1; at < text_.size(); at += step) {
      std::string text = text_;
      text.insert(at, bytes[kind % bytes.size()]);
      if (takes()) add("byte_put_in", text, false);
      text = text_;
      text.erase(at, 1);
      if (takes()) add("byte_lost", text, false);
      text = text_;
      text[at] = static_cast<char>(text[at] ^ (1 << (kind % 8)));
      if (takes()) add("bit_flipped", text, false);
      ++kind;
    }
    // In front, inside of a text and behind.
    const std::size_t inside = text_.find(R"("name": ")") + 9;
    for (const std::size_t at : {std::size_t{0}, inside, text_.size()}) {
      add("not_utf8", std::string(text_).insert(at, "\xFE\xC0"), true);
    }
  }

  void damage_lines() {
    std::vector<std::string> lines;
    for (std::size_t start = 0; start < text_.size();) {
      const std::size_t end = std::min(text_.find('\n', start), text_.size() - 1) + 1;
      lines.push_back(text_.substr(start, end - start));
      start = end;
    }
    const auto joined = [](const std::vector<std::string>& all) {
      std::string out;
      for (const std::string& line : all) out += line;
      return out;
    };
    for (std::size_t i = 0; i < lines.size(); i += 3) {
      auto damaged = lines;
      damaged.erase(damaged.begin() + static_cast<std::ptrdiff_t>(i));
      if (takes()) add("line_lost", joined(damaged), false);
      damaged = lines;
      damaged.insert(damaged.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
      if (takes()) add("line_twice", joined(damaged), false);
      damaged = lines;
      damaged[i].insert(0, "// ");
      if (takes()) add("line_commented_out", joined(damaged), true);
    }
  }

  void add_whole_file_faults() {
    add("empty", "", true);
    add("blank", " \n\t\r\n", true);
    add("only_a_list", "[]", true);
    add("only_null", "null", true);
    add("twice", text_ + text_, true);
    add("utf8_mark", "\xEF\xBB\xBF" + text_, false);
    add("dos_lines", with_dos_lines(), false);
    add("many_brackets", std::string(100000, '['), true);
    add("many_groups", repeated("{\"masses\":", 50000), true);
    add("deep_value",
        R"({"version": 1, "masses": )" + repeated("{\"a\":", 200) + "1" + repeated("}", 201), true);
    add("many_keys", "{\"version\": 1" + numbered(", \"k{}\": 1", 20000) + "}", true);
    add("many_ids",
        R"({"version": 1, "masses": {"m": {})" + numbered(", \"m{}\": {{}}", 20000) + "}}", false);
    add("many_faults", "[" + repeated("NaN,", 50000), true);
    add("long_text", R"({"version": 1, "name": ")" + std::string(1000000, 'x') + "\"}", true);
    add("long_key", R"({"version": 1, ")" + std::string(1000000, 'x') + "\": 1}", true);
    add("long_number", "{\"version\": 1" + std::string(100000, '0') + "}", true);
  }

  std::string with_dos_lines() const {
    std::string out;
    for (const char c : text_) {
      if (c == '\n') out += '\r';
      out += c;
    }
    return out;
  }
  static std::string repeated(const std::string& text, int times) {
    std::string out;
    for (int i = 0; i < times; ++i) out += text;
    return out;
  }
  static std::string numbered(const std::string& format, int times) {
    std::string out;
    for (int i = 0; i < times; ++i) out += fmt::format(fmt::runtime(format), i);
    return out;
  }

  std::string name_;
  std::string text_;
  std::size_t stride_;
  Json json_;
  std::size_t places_ = 0;
  std::vector<MutatedFile> files_;
};

}  // namespace

std::vector<MutatedFile> make_mutated_files(const std::string& name, const std::string& text,
                                            std::size_t stride) {
  return Mutator(name, text, stride).make();
}

std::string kind_of_place(const std::string& pointer) {
  std::string kind;
  for (Pointer rest(pointer); !rest.empty(); rest.pop_back()) {
    const std::string& step = rest.back();
    const bool item = std::all_of(step.begin(), step.end(), [](char c) { return std::isdigit(c); });
    kind = "/" + (item || holds_ids(rest.parent_pointer()) ? "*" : step) + kind;
  }
  return kind;
}

}  // namespace rig
