#pragma once

#include <fmt/format.h>
#include <rapidcheck.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "build/describe.h"
#include "build/frame_lookup.h"
#include "build/read_internal.h"

/// Visitors for tests: one fills a build with random values that its description allows, one writes
/// it as a file in either system of units, one lists what it holds.
namespace rig::build {

inline bool toss(int chance_percent) { return *rc::gen::inRange(0, 100) < chance_percent; }

class RandomFill {
 public:
  static Build make() {
    Build build;
    RandomFill fill;
    describe(fill, build);
    fill.make_possible(build);
    return build;
  }

  template <typename T, typename Rule>
  void field(std::string_view key, T& member, std::string_view, const Rule& rule) {
    if constexpr (std::is_same_v<Rule, KeysOf>) {
      for (const std::string& id : ids(rule.target)) add(member, id);
    } else {
      fill(std::string(key), member, rule);
    }
  }
  template <typename T>
  void field(std::string_view key, T& member, std::string_view) {
    fill(std::string(key), member, Bounds{});
  }
  void reference(std::string_view, Reference& member, std::string_view target, std::string_view) {
    const auto all = ids_of_either(target);
    if (toss(70)) member.id = all[*rc::gen::inRange<std::size_t>(0, all.size())];
  }
  void reference(std::string_view, std::vector<Reference>& member, std::string_view target,
                 std::string_view) {
    for (const std::string& id : ids_of_either(target)) {
      if (toss(50)) member.push_back({id});
    }
  }

 private:
  /// The ids of the maps that a target such as "a/b|c" names.
  std::vector<std::string> ids_of_either(std::string_view target) {
    std::vector<std::string> all;
    for (const std::string& way : target_ways(target)) {
      const auto& one = ids(way.substr(way.rfind('/') + 1));
      all.insert(all.end(), one.begin(), one.end());
    }
    return all;
  }

  /// The ids of a map are known before it is filled, so that anything can refer to them.
  const std::vector<std::string>& ids(std::string_view target) {
    auto& ids = ids_[std::string(target)];
    if (ids.empty()) {
      const int count = target == "axles" ? 2 : *rc::gen::inRange(1, most_of(target) + 1);
      for (int i = 0; i < count; ++i) ids.push_back(fmt::format("{}_{}", target, i));
    }
    return ids;
  }

  /// Of the frame's many maps one thing each, so that two builds differ by no more than an edit
  /// may.
  static int most_of(std::string_view target) {
    static constexpr std::array<std::string_view, 18> kOne{
        "stretches",    "stands", "rails",  "plates",        "holes",    "pulls",
        "steels",       "mounts", "stages", "drive_torques", "segments", "outputs",
        "crossmembers", "shafts", "gears",  "ranges",        "lifts",    "gaps"};
    return std::find(kOne.begin(), kOne.end(), target) != kOne.end() ? 1 : 3;
  }

  template <units::Dimension D, typename Rule>
  void fill(const std::string&, Quantity<D>& quantity, const Rule& rule) {
    Bounds key;
    if constexpr (std::is_same_v<Rule, Bounds>) key = rule;
    if (toss(15)) return;
    quantity.si = random_value(D, key);
    if (toss(30)) quantity.plus_minus_si = random_value(D, kNotNegative);
    if (toss(30)) fill("from", quantity.from, rule);
    if (toss(20)) quantity.note = random_text();
  }
  /// Evenly spread over the orders of magnitude that are allowed, either sign.
  static double random_value(units::Dimension dimension, const Bounds& key) {
    const Bounds bounds = bounds_of(dimension, key);
    const double least = std::max(scale_of(dimension).least, bounds.min);
    const double decades = std::log10(0.99 * bounds.max / least);
    const double size =
        1.001 * least * std::pow(10.0, decades * *rc::gen::inRange(0, 1000000) / 1e6);
    return bounds.min < 0 && toss(50) && size < -bounds.min ? -size : size;
  }
  static std::string random_text() {
    return *rc::gen::elementOf(std::vector<std::string>{
        "a", "left side", "say \"when\"", "back\\slash / and ~", "\u00BD full", "\U0001F69A"});
  }
  template <typename Rule>
  void fill(const std::string&, std::string& text, const Rule&) {
    if (toss(70)) text = random_text();
  }
  template <typename Rule>
  void fill(const std::string&, bool& flag, const Rule&) {
    flag = toss(50);
  }
  template <typename Rule>
  void fill(const std::string&, Changes&, const Rule&) {}
  void fill(const std::string&, int& number, const Allowed& allowed) {
    number = allowed.values[*rc::gen::inRange<std::size_t>(0, allowed.values.size())];
  }
  template <typename E, typename Rule>
  requires std::is_enum_v<E>
  void fill(const std::string&, E& word, const Rule&) {
    word = kNames<E>[*rc::gen::inRange<std::size_t>(0, kNames<E>.size())].value;
  }
  template <typename T, typename Rule>
  void fill(const std::string& key, std::optional<T>& member, const Rule& rule) {
    if (toss(60)) fill(key, member.emplace(), rule);
  }
  template <typename T, typename Rule>
  void fill(const std::string& key, std::vector<T>& list, const Rule& rule) {
    const int count = *rc::gen::inRange(0, 4);
    for (int i = 0; i < count; ++i) fill(key, list.emplace_back(), rule);
  }
  template <typename T, typename Rule>
  void fill(const std::string& key, Map<T>& map, const Rule&) {
    for (const std::string& id : ids(key)) add(map, id);
  }
  template <typename T, typename Rule>
  requires(!kStructName<T>.empty()) void fill(const std::string&, T& group, const Rule&) {
    describe(*this, group);
  }
  template <typename T>
  void add(Map<T>& map, const std::string& id) {
    map.push_back({.id = id, .path = "", .value = {}});
    describe(*this, map.back().value);
  }

  /// Takes back what can't be true together.
  void make_possible(Build& build) const {
    for (auto& item : build.masses) {
      if (item.value.fluid) item.value.mass = {};
    }
    for (auto& state : build.load_states) {
      std::erase_if(state.value.aboard, [&](const Reference& use) {
        return !find(build.masses, use.id)->value.optional_load;
      });
      std::erase_if(state.value.fills, [&](const Entry<Fill>& fill) {
        return !find(build.masses, fill.id)->value.fluid.has_value();
      });
    }
    for (std::size_t i = 0; i < build.axles.size(); ++i) {
      Axle& axle = build.axles[i].value;
      axle.end = i == 0 ? End::kFront : End::kRear;
      axle.station.si = i == 0 ? 0 : std::abs(axle.station.si);
      if (axle.brake_share.si > 0.5) axle.brake_share.si -= 0.5;
      if (axle.drive_share.si > 0.5) axle.drive_share.si -= 0.5;
      make_possible(axle);
    }
    make_possible(build.frame);
    make_possible(build.drivetrain);
    if (build.limits.anti_squat_min.si > build.limits.anti_squat_max.si) {
      std::swap(build.limits.anti_squat_min.si, build.limits.anti_squat_max.si);
    }
  }
  static void make_possible(Frame& frame) {
    for (auto& rail : frame.rails) make_possible(rail.value);
    for (auto& plate : frame.plates) make_possible(plate.value);
    for (auto& hole : frame.holes) make_possible(hole.value);
    for (auto& crossmember : frame.crossmembers) make_possible(crossmember.value);
    for (auto& mount : frame.mounts) mount.value.both_sides = false;
    PartsIn in = donor_parts(frame);
    for (auto& stage : frame.stages) {
      std::erase_if(stage.value.take_out,
                    [&](const Reference& part) { return in.erase(part.id) == 0; });
      std::erase_if(stage.value.put_in,
                    [&](const Reference& part) { return !in.insert(part.id).second; });
    }
  }
  static void make_possible(Drivetrain& drivetrain) {
    const auto mend = [](ShaftTube& tube) {
      if (2 * tube.wall.si > tube.outside_diameter.si) tube.wall = {};
    };
    for (auto& mount : drivetrain.mounts) mount.value.both_sides = false;
    for (auto& shaft : drivetrain.shafts) {
      shaft.value.to = {};
      shaft.value.slip.open = {};
      shaft.value.slip.stub_length = {};
      mend(shaft.value.tube);
      if (shaft.value.bearing) mend(shaft.value.bearing->front_tube);
    }
    if (drivetrain.engine) drivetrain.engine->top_speed = {};
    if (drivetrain.placing) drivetrain.placing->least_slope = {};
  }
  /// A section has the sizes of its shape alone.
  struct KeepOwnSizes {
    SectionShape shape;
    template <typename Rule>
    void field(std::string_view key, Length& size, std::string_view, const Rule&) const {
      if (!has_size(shape, key)) size = {};
    }
    void field(std::string_view, SectionShape&, std::string_view, Required) const {}
  };
  static void make_possible(SectionSizes& section) {
    const KeepOwnSizes visitor{section.shape};
    describe(visitor, section);
  }
  static void make_possible(Rail& rail) {
    // Points from which no station range follows, so that nothing can lie outside of it.
    rail.both_sides = false;
    for (Point& point : rail.line) point.station = {};
    if (rail.section) rail.section->shape = SectionShape::kChannel;
    if (rail.section) make_possible(*rail.section);
    for (auto& entry : rail.stretches) {
      Stretch& stretch = entry.value;
      stretch.to = {};
      for (auto* section : {&stretch.section, &stretch.section_end}) {
        if (!*section) continue;
        (*section)->shape = SectionShape::kChannel;
        make_possible(**section);
      }
    }
  }
  static void make_possible(BoxingPlate& plate) {
    plate.to = {};
    if (plate.fit == PlateFit::kOverTips) plate.inset = {};
    plate.side = Side::kBoth;
  }
  static void make_possible(Hole& hole) {
    hole.side = Side::kBoth;
    hole.station = {};
    hole.above_lower_edge = {};
    hole.from_web = {};
  }
  static void make_possible(Crossmember& crossmember) {
    if (crossmember.section) make_possible(*crossmember.section);
    crossmember.joint = CrossmemberJoint::kWeb;
    if (crossmember.fastening == Fastening::kWelded) {
      crossmember.bolts.reset();
      crossmember.end_plate.reset();
    }
    for (Point& corner : crossmember.line) corner.offset = {};
  }
  static void make_possible(Axle& axle) {
    const auto each = [](auto& map, auto mend) {
      for (auto& entry : map) mend(entry.value);
    };
    each(axle.links, [](Link& link) {
      link.both_sides = false;
      if (link.tube && 2 * link.tube->wall.si > link.tube->outside_diameter.si)
        link.tube->wall = {};
    });
    each(axle.arms, [](Arm& arm) { arm.both_sides = false; });
    each(axle.coils, [](Coil& coil) {
      coil.both_sides = false;
      if (coil.solid_length.si >= coil.free_length.si) coil.solid_length = {};
      if (coil.upper.height.si <= coil.lower.height.si) coil.upper.height = {};
    });
    each(axle.leaf_packs, [](LeafPack& pack) {
      pack.both_sides = false;
      if (pack.rear_eye.station.si <= pack.front_eye.station.si) pack.rear_eye.station = {};
    });
    each(axle.bump_stops, [](BumpStop& stop) {
      stop.both_sides = false;
      if (stop.end_travel.si >= stop.free_height.si) stop.end_travel = {};
      if (stop.end_rate.si < stop.rate.si) stop.end_rate = {};
    });
    each(axle.dampers, [](Damper& damper) {
      damper.both_sides = false;
      if (damper.closed_length.si >= damper.open_length.si) damper.open_length = {};
    });
  }

  std::map<std::string, std::vector<std::string>> ids_;
};

/// Writes a build as the file that says it, every quantity in the units chosen, to the last digit.
class FileWriter {
 public:
  static std::string write(Build build, bool metric) {
    FileWriter writer({metric, 16});
    describe(writer, build);
    return writer.out_.dump(2);
  }

  template <typename T, typename... Rule>
  void field(std::string_view key, T& member, std::string_view, const Rule&...) {
    put(std::string(key), json_of(member));
  }
  void reference(std::string_view key, Reference& member, std::string_view, std::string_view) {
    if (!member.id.empty()) put(std::string(key), member.id);
  }
  void reference(std::string_view key, std::vector<Reference>& list, std::string_view,
                 std::string_view) {
    Json ids = Json::array();
    for (const Reference& use : list) ids.push_back(use.id);
    put(std::string(key), ids);
  }

 private:
  using Json = nlohmann::ordered_json;

  explicit FileWriter(units::UnitChoices choices) : choices_(choices) {}

  void put(const std::string& key, Json json) {
    if (!json.is_null()) out_[key] = std::move(json);
  }

  template <units::Dimension D>
  Json json_of(const Quantity<D>& quantity) const {
    const auto amount = [&](double si) -> Json {
      if (std::isnan(si)) return nullptr;
      return fmt::format("{:.17g} {}", si * units::per_si(D, choices_),
                         units::unit_name(D, choices_));
    };
    const bool plain = std::isnan(quantity.plus_minus_si) && quantity.from == From::kDesign &&
                       quantity.note.empty();
    if (plain) return amount(quantity.si);
    Json form{{"value", amount(quantity.si)},
              {"plus_minus", amount(quantity.plus_minus_si)},
              {"from", json_of(quantity.from)}};
    if (!quantity.note.empty()) form["note"] = quantity.note;
    return form;
  }
  static Json json_of(const std::string& text) { return text.empty() ? Json() : Json(text); }
  static Json json_of(bool flag) { return flag; }
  static Json json_of(int number) { return number; }
  static Json json_of(const Changes&) { return Json::object(); }
  template <typename E>
  requires std::is_enum_v<E>
  static Json json_of(E word) {
    for (const auto& [value, name] : kNames<E>) {
      if (value == word) return name;
    }
    return nullptr;
  }
  template <typename T>
  Json json_of(std::optional<T>& member) const {
    return member ? json_of(*member) : Json();
  }
  template <typename T>
  Json json_of(std::vector<T>& list) const {
    Json json = Json::array();
    for (T& item : list) json.push_back(json_of(item));
    return json;
  }
  template <typename T>
  Json json_of(Map<T>& map) const {
    Json json = Json::object();
    for (auto& entry : map) json[entry.id] = json_of(entry.value);
    return json;
  }
  template <typename T>
  requires(!kStructName<T>.empty()) Json json_of(T& group)
  const {
    FileWriter inside(choices_);
    describe(inside, group);
    return inside.out_;
  }

  units::UnitChoices choices_;
  Json out_ = Json::object();
};

/// Everything a build holds, as pointer and value: numbers apart, as they may differ by rounding.
class Listing {
 public:
  static Listing of(Build build) {
    Listing listing;
    describe(listing, build);
    return listing;
  }

  std::vector<std::pair<std::string, double>> numbers;
  std::vector<std::pair<std::string, std::string>> words;

  template <typename T, typename... Rule>
  void field(std::string_view key, T& member, std::string_view, const Rule&...) {
    list_at("/" + std::string(key), member);
  }
  template <typename T>
  void reference(std::string_view key, T& member, std::string_view, std::string_view) {
    list_at("/" + std::string(key), member);
  }

 private:
  template <typename T>
  void list_at(const std::string& step, T& member) {
    const std::size_t length = path_.size();
    path_ += step;
    list(member);
    path_.resize(length);
  }
  template <units::Dimension D>
  void list(Quantity<D>& quantity) {
    numbers.emplace_back(path_, quantity.si);
    numbers.emplace_back(path_ + "/plus_minus", quantity.plus_minus_si);
    words.emplace_back(path_, std::to_string(static_cast<int>(quantity.from)) + quantity.note);
  }
  void list(std::string& text) { words.emplace_back(path_, text); }
  void list(Changes&) {}
  void list(Reference& use) { words.emplace_back(path_, use.id); }
  template <typename T>
  requires std::is_arithmetic_v<T> || std::is_enum_v<T>
  void list(T& value) { words.emplace_back(path_, std::to_string(static_cast<int>(value))); }
  template <typename T>
  void list(std::optional<T>& member) {
    words.emplace_back(path_, member ? "given" : "not given");
    if (member) list(*member);
  }
  template <typename T>
  void list(std::vector<T>& items) {
    for (T& item : items) list_at("/-", item);
  }
  template <typename T>
  void list(Map<T>& map) {
    for (auto& entry : map) list_at("/" + entry.id, entry.value);
  }
  template <typename T>
  requires(!kStructName<T>.empty()) void list(T& group) { describe(*this, group); }

  std::string path_;
};

}  // namespace rig::build
