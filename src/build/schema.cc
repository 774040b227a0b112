#include <cmath>
#include <nlohmann/json.hpp>
#include <type_traits>

#include "build/describe.h"
#include "build/frame_lookup.h"
#include "build/quantity_form_internal.h"
#include "build/read.h"
#include "units/dimension_keys.h"

namespace rig::build {

using Json = nlohmann::ordered_json;

namespace {

Json reference_to(std::string_view name) { return {{"$ref", "#/$defs/" + std::string(name)}}; }

/// The same, or null, which in a build file is as good as left out.
Json or_null(Json schema) {
  if (!schema.contains("type")) {
    // What is said for forms stays in front, where a form looks for it.
    Json value;
    Json for_forms;
    for (const auto& [key, content] : schema.items()) {
      (key.rfind("x-", 0) == 0 ? for_forms : value)[key] = content;
    }
    Json either{{"anyOf", {std::move(value), {{"type", "null"}}}}};
    if (!for_forms.is_null()) either.update(for_forms);
    return either;
  }
  schema["type"] = Json::array({schema["type"], "null"});
  if (schema.contains("enum")) schema["enum"].push_back(nullptr);
  return schema;
}

// One schema_of for each kind of member; the member itself only gives its type. Each puts the
// definitions it refers to into `defs`.

template <typename Rule>
Json schema_of(Json&, const bool&, const Rule&) {
  return {{"type", "boolean"}};
}

template <typename Rule>
Json schema_of(Json&, const std::string&, const Rule&) {
  return reference_to("text");
}

template <typename Rule>
Json schema_of(Json&, const Changes&, const Rule&) {
  return {{"type", "object"}, {"propertyNames", {{"pattern", "^(/[^/]+)+$"}}}};
}

Json schema_of(Json&, const int&, const Allowed& allowed) {
  Json schema{{"type", "integer"}, {"enum", Json::array()}};
  for (const int value : allowed.values) schema["enum"].push_back(value);
  return schema;
}

template <typename E, typename Rule>
requires std::is_enum_v<E> Json schema_of(Json&, const E&, const Rule&) {
  Json schema{{"type", "string"}, {"enum", Json::array()}};
  for (const auto& [value, name] : kNames<E>) schema["enum"].push_back(name);
  return schema;
}

Json schema_of(Json&, const Reference&, std::string_view target) {
  Json schema = reference_to("id");
  schema["x-reference"] = target;
  return schema;
}

/// Loose on purpose: the reader knows the units. A digit or a fraction, and a unit unless it is a
/// pure number.
template <units::Dimension D, typename Rule>
Json schema_of(Json&, const Amount<D>&, const Rule&) {
  constexpr bool kIsNumber = units::is_pure_number(D);
  const std::string digit = "[0-9\u00BC-\u00BE\u2150-\u215E]";
  Json text{{"type", "string"},
            {"maxLength", 100},
            {"pattern", kIsNumber ? digit : digit + ".*[^0-9\\s.,/+-]"}};
  if (!kIsNumber) return text;
  Json number{{"type", "number"}, {"minimum", 0}};
  number["maximum"] = D == units::Dimension::kRatio ? 1 : scale_of(D).most;
  return {{"anyOf", {std::move(text), std::move(number)}}};
}

template <typename T, typename Rule>
Json schema_of(Json&, const std::optional<T>&, const Rule&);
template <typename T, typename Rule>
Json schema_of(Json&, const std::vector<T>&, const Rule&);
template <typename T, typename Rule>
Json schema_of(Json&, const Map<T>&, const Rule&);
template <units::Dimension D, typename Rule>
Json schema_of(Json&, const Quantity<D>&, const Rule&);
template <typename T, typename Rule>
requires(!kStructName<T>.empty()) Json schema_of(Json&, const T&, const Rule&);

/// The visitor that writes down one group of keys.
class GroupSchema {
 public:
  explicit GroupSchema(Json& defs) : defs_(defs) {}

  template <typename T, typename Rule = NoRule>
  void field(std::string_view key, T& member, std::string_view doc, const Rule& rule = {}) {
    bool required = std::is_same_v<Rule, Required>;
    if constexpr (std::is_same_v<Rule, Allowed>) required = rule.required;
    add(key, doc, schema_of(defs_, member, rule), required);
    if constexpr (std::is_enum_v<T>) {
      if (!required) properties_[std::string(key)]["default"] = name_of(member);
    }
  }
  template <typename T>
  void reference(std::string_view key, T& member, std::string_view target, std::string_view doc) {
    add(key, doc, schema_of(defs_, member, target), false);
  }

  Json schema() && {
    Json schema{{"type", "object"}, {"properties", std::move(properties_)}};
    if (!required_.empty()) schema["required"] = std::move(required_);
    schema["additionalProperties"] = false;
    return schema;
  }

 private:
  void add(std::string_view key, std::string_view doc, Json schema, bool required) {
    Json property{{"description", doc}};
    property.update(required ? std::move(schema) : or_null(std::move(schema)));
    properties_[std::string(key)] = std::move(property);
    if (required) required_.push_back(key);
  }

  Json& defs_;
  Json properties_ = Json::object();
  Json required_ = Json::array();
};

/// Says of each size which shapes have it, for forms to ask for no other.
void add_shapes(Json& sizes) {
  for (const auto& [key, size] : sizes.items()) {
    Json shapes = Json::array();
    for (const auto& [shape, name] : kNames<SectionShape>) {
      if (has_size(shape, key)) shapes.push_back(name);
    }
    const bool of_some = !shapes.empty() && shapes.size() < kNames<SectionShape>.size();
    if (of_some) size["x-when"] = {{"shape", std::move(shapes)}};
  }
}

template <typename T>
Json group_schema(Json& defs) {
  T group;
  GroupSchema visitor(defs);
  describe(visitor, group);
  Json schema = std::move(visitor).schema();
  if constexpr (std::is_same_v<T, SectionSizes>) add_shapes(schema["properties"]);
  return schema;
}

/// Defines a name once, by what `make` returns, and refers to it.
template <typename Make>
Json define(Json& defs, std::string_view name, Make make) {
  if (!defs.contains(name)) {
    defs[std::string(name)] = nullptr;  // keeps its place before those it refers to
    defs[std::string(name)] = make();
  }
  return reference_to(name);
}

template <typename T, typename Rule>
Json schema_of(Json& defs, const std::optional<T>&, const Rule& rule) {
  return schema_of(defs, T{}, rule);
}

template <typename T, typename Rule>
Json schema_of(Json& defs, const std::vector<T>&, const Rule& rule) {
  Json schema{{"type", "array"}, {"items", schema_of(defs, T{}, rule)}};
  if (std::is_same_v<T, Reference>) schema["uniqueItems"] = true;
  return schema;
}

template <typename T, typename Rule>
Json schema_of(Json& defs, const Map<T>&, const Rule& rule) {
  Json schema{{"type", "object"}, {"propertyNames", reference_to("id")}};
  if constexpr (std::is_same_v<Rule, KeysOf>) schema["propertyNames"]["x-reference"] = rule.target;
  schema["additionalProperties"] = or_null(schema_of(defs, T{}, NoRule{}));
  return schema;
}

template <units::Dimension D, typename Rule>
Json schema_of(Json& defs, const Quantity<D>&, const Rule& rule) {
  const auto name = units::dimension_key(D);
  Json schema = define(defs, name, [&]() -> Json {
    return {
        {"description", std::string(units::dimension_name(D)) + ", in short or in long form"},
        {"anyOf", {schema_of(defs, Amount<D>{}, NoRule{}), group_schema<QuantityForm<D>>(defs)}}};
  });
  schema["x-dimension"] = name;
  Bounds key;
  if constexpr (std::is_same_v<Rule, Bounds>) key = rule;
  const Bounds bounds = bounds_of(D, key);
  schema["x-si-minimum"] = bounds.min;
  if (bounds.above_min) schema["x-si-above-minimum"] = true;
  schema["x-si-maximum"] = bounds.max;
  if constexpr (units::is_pure_number(D)) {
    const Json range{{bounds.above_min ? "exclusiveMinimum" : "minimum", bounds.min},
                     {"maximum", bounds.max}};
    schema.update(range);
    schema["properties"] = {{"value", range}};
  }
  return schema;
}

template <typename T, typename Rule>
requires(!kStructName<T>.empty()) Json schema_of(Json& defs, const T&, const Rule&) {
  return define(defs, kStructName<T>, [&] { return group_schema<T>(defs); });
}

}  // namespace

std::string schema_json() {
  Json defs;
  defs["id"] = {{"description", "What a thing is called in the file."},
                {"type", "string"},
                {"pattern", "^[a-z][a-z0-9_-]{0,39}$"}};
  defs["text"] = {{"description", "One line of text."},
                  {"type", "string"},
                  {"maxLength", 400},
                  {"pattern", R"(^[^\u0000-\u001f\u007f]*$)"}};
  Json schema{
      {"$schema", "https://json-schema.org/draft/2020-12/schema"},
      {"$id", "https://rigwright.example/schema/build-1.json"},
      {"title", "Rigwright build file, version 1"},
      {"$comment",
       "Says which keys there are and what may stand behind them. Units and their dimension, "
       "ranges of what has a unit or is text (x-si-minimum and x-si-maximum, in SI), that an id "
       "exists (x-reference), which "
       "sizes a shape has (x-when), keys given twice, and values that can't be true together are "
       "checked by the reader only."}};
  schema.update(group_schema<Build>(defs));
  schema["$defs"] = std::move(defs);
  return schema.dump(2, ' ', /*ensure_ascii=*/true) + "\n";
}

}  // namespace rig::build
