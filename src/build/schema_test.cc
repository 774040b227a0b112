#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>

#include "build/describe.h"
#include "build/fixture_internal.h"
#include "build/read.h"

namespace rig::build {
namespace {

TEST(Schema, IsPublishedAsTheReaderHasIt) {
  // After a change of the description: `print_schema > docs/schema/build-1.schema.json`.
  EXPECT_EQ(read_source_file("docs/schema/build-1.schema.json"), schema_json());
}

/// Notes for each key of each kind of thing whether it is given anywhere in a build.
class KnownKeys {
 public:
  KnownKeys(std::map<std::string, bool>& seen, std::string_view group)
      : seen_(seen), group_(group) {}

  template <typename T, typename... Rule>
  void field(std::string_view key, T& member, std::string_view, const Rule&...) {
    note(std::string(key), member);
  }
  void reference(std::string_view key, const Reference& member, std::string_view,
                 std::string_view) {
    mark(std::string(key), !member.id.empty());
  }
  void reference(std::string_view key, const std::vector<Reference>& member, std::string_view,
                 std::string_view) {
    mark(std::string(key), !member.empty());
  }

 private:
  void mark(const std::string& key, bool known) {
    bool& seen = seen_[group_ + "/" + key];
    seen = seen || known;
  }
  template <units::Dimension D>
  void note(const std::string& key, const Quantity<D>& member) {
    mark(key, member.known());
  }
  void note(const std::string& key, const std::string& member) { mark(key, !member.empty()); }
  void note(const std::string&, const bool&) {}
  void note(const std::string&, const Changes&) {}
  void note(const std::string&, const int&) {}
  template <typename E>
  requires std::is_enum_v<E>
  void note(const std::string&, const E&) {}
  template <typename T>
  void note(const std::string& key, std::optional<T>& member) {
    mark(key, member.has_value());
    if (member) note(key, *member);
  }
  template <typename T>
  void note(const std::string& key, std::vector<T>& list) {
    mark(key, !list.empty());
    for (T& item : list) note(key, item);
  }
  template <typename T>
  void note(const std::string& key, Entry<T>& entry) {
    note(key, entry.value);
  }
  template <typename T>
  requires(!kStructName<T>.empty()) void note(const std::string&, T& group) {
    KnownKeys inside(seen_, kStructName<T>);
    describe(inside, group);
  }

  std::map<std::string, bool>& seen_;
  std::string group_;
};

TEST(Schema, TheFullFixtureShowsEveryKey) {
  auto read = read_build(read_source_file("src/build/fixtures/full.rig.json"));
  ASSERT_TRUE(read.has_value());
  std::map<std::string, bool> seen;
  KnownKeys keys(seen, kStructName<Build>);
  describe(keys, read->build);
  for (const auto& [key, given] : seen) EXPECT_TRUE(given) << key << " is not in the full fixture";
  EXPECT_EQ(seen.count("bushing/conical"), 1U);
  EXPECT_EQ(seen.count("trailer/tongue_load"), 1U);
}

TEST(Schema, NamesEveryGroupAndDimensionOnce) {
  const auto schema = nlohmann::json::parse(schema_json());
  EXPECT_EQ(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
  EXPECT_EQ(schema["$id"], "https://rigwright.example/schema/build-1.json");
  EXPECT_EQ(schema["required"], nlohmann::json::array({"version"}));
  for (const char* name : {"point", "axle", "link", "length", "ratio", "load_state", "id"}) {
    EXPECT_TRUE(schema["$defs"].contains(name)) << name;
  }
  const auto& station = schema["$defs"]["point"]["properties"]["station"];
  EXPECT_EQ(station["x-dimension"], "length");
  EXPECT_EQ(station["x-si-maximum"], 50);
  EXPECT_EQ(station["description"], "Behind the front-axle line, + aft.");
  EXPECT_FALSE(station.contains("maximum"));
  const auto& converter = schema["$defs"]["engine"]["properties"]["converter"]["anyOf"][0];
  EXPECT_EQ(converter["maximum"], 5);
  EXPECT_EQ(converter["properties"]["value"]["maximum"], 5);
}

}  // namespace
}  // namespace rig::build
