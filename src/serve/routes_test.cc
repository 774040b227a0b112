#include "serve/routes.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "serve/page_files.h"
#include "serve/test_shop_internal.h"

namespace rig::serve {
namespace {

using Json = nlohmann::json;

constexpr const char* kHost = "127.0.0.1:8080";

std::string quoted(const std::string& tag) { return fmt::format("\"{}\"", tag); }

/// A shop with a small build in it.
class Served : public ::testing::Test {
 protected:
  Served() : Served(&TestFolder::add_small) {}
  explicit Served(std::string (TestFolder::*add)(const std::string&) const)
      : path_((folder_.*add)("tow.rig.json")) {}

  static Ask make(const std::string& method, const std::string& target,
                  const std::string& body = {}) {
    Ask ask{.method = method, .local = kHost, .body = body};
    set_target(ask, target);
    ask.headers["host"] = kHost;
    if (method != "GET") ask.headers["content-type"] = "application/json";
    if (method == "PATCH") ask.headers["content-type"] = "application/json-patch+json";
    return ask;
  }
  Reply get(const std::string& target) { return answer(desk_, make("GET", target)); }
  Reply post(const std::string& target, const Json& body) {
    return answer(desk_, make("POST", target, body.dump()));
  }
  /// A change made on the newest state.
  Reply change(const std::string& method, const std::string& target, const Json& body) {
    Ask ask = make(method, target, body.dump());
    ask.headers["if-match"] = quoted(tag());
    ask.headers["rig-screen"] = "one";
    ask.headers["rig-initials"] = "AB";
    return answer(desk_, ask);
  }
  static Json patch(const std::string& path, const Json& value) {
    return Json::array({{{"op", "add"}, {"path", path}, {"value", value}}});
  }
  std::string tag() { return Json::parse(get("/api/builds/tow").body)["etag"]; }
  int refused(const Ask& ask) {
    const auto admission = admit(desk_, ask);
    return admission.refusal ? admission.refusal->status : 0;
  }

  TestFolder folder_;
  std::string path_;
  std::unique_ptr<Shop> shop_ = Shop::open_folder(folder_.path().string()).value();
  Door door_;
  Desk desk_{*shop_, door_, 8080};
};

/// A shop with the first example, where the springs or the frame are asked after.
class ServedExample : public Served {
 protected:
  ServedExample() : Served(&TestFolder::add_example) {}
};

TEST_F(Served, GivesThePageOnceWhileItStaysTheSame) {
  const Reply first = get("/page.js");
  EXPECT_EQ(first.status, 200);
  EXPECT_FALSE(first.body.empty());
  const std::map<std::string, std::string> headers(first.headers.begin(), first.headers.end());
  Ask again = make("GET", "/page.js");
  again.headers["if-none-match"] = headers.at("ETag");
  EXPECT_EQ(answer(desk_, again).status, 304);
  EXPECT_TRUE(answer(desk_, again).body.empty());
  again.headers["if-none-match"] = quoted("another");
  EXPECT_EQ(answer(desk_, again).body, first.body);
}

TEST_F(ServedExample, GivesTheBuildAndItsAnswers) {
  const Json build = Json::parse(get("/api/builds/tow").body);
  EXPECT_EQ(build["file"], "tow.rig.json");
  EXPECT_EQ(build["document"], Json::parse(*read_text(path_)));
  EXPECT_TRUE(build["units"]["per_si"].contains("length"));
  EXPECT_EQ(build["fault"], nullptr);
  EXPECT_TRUE(Json::parse(get("/api/builds/tow/report").body)["report"]["findings"].is_array());
  EXPECT_FALSE(Json::parse(get("/api/builds/tow/scene").body)["scene"]["parts"].empty());
  EXPECT_EQ(get("/api/builds/tow/file").body, *read_text(path_));
  EXPECT_EQ(get("/api/builds/tow/picture.svg").type, "image/svg+xml");
  EXPECT_TRUE(Json::parse(get("/api/schema").body).contains("$schema"));
  EXPECT_EQ(get("/").status, 200);
  EXPECT_EQ(get("/api/builds/none").status, 404);
  EXPECT_EQ(get("/api/builds/tow?variant=none").status, 404);
}

TEST_F(ServedExample, MovesAnAxleForThePicture) {
  const Reply reply = post("/api/builds/tow/pose", {{"heave", {{"front", 0.05}}}});
  ASSERT_EQ(reply.status, 200) << reply.body;
  EXPECT_TRUE(Json::parse(reply.body)["pose"]["bodies"].contains("front"));
  EXPECT_EQ(post("/api/builds/tow/pose", Json::array()).status, 400);
}

TEST_F(Served, AChangeIsAnsweredWithEverything) {
  const Reply reply = change("PATCH", "/api/builds/tow", patch("/name", "Other"));
  ASSERT_EQ(reply.status, 200) << reply.body;
  const Json body = Json::parse(reply.body);
  EXPECT_EQ(body["document"]["name"], "Other");
  EXPECT_TRUE(body["report"].is_object());
  EXPECT_TRUE(body["scene"].is_object());
  EXPECT_TRUE(body["can_undo"]);
  EXPECT_EQ(body["etag"], tag());
  const Json history = Json::parse(get("/api/builds/tow/history").body);
  EXPECT_EQ(history["head"], history["entries"][0]["entry"]);
  EXPECT_EQ(history["entries"][0]["who"], "AB");
  EXPECT_EQ(history["entries"][1]["kind"], "start");
  EXPECT_EQ(change("POST", "/api/builds/tow/undo", Json::object()).status, 200);
  EXPECT_EQ(change("POST", "/api/builds/tow/undo", Json::object()).status, 409);
  EXPECT_EQ(change("POST", "/api/builds/tow/redo", Json::object()).status, 200);
  EXPECT_EQ(change("POST", "/api/builds/tow/restore", {{"entry", 1}}).status, 200);
  EXPECT_EQ(change("POST", "/api/builds/tow/restore", {{"entry", 99}}).status, 404);
}

TEST_F(Served, AChangeSaysWhatItWasMadeOn) {
  Ask ask = make("PATCH", "/api/builds/tow", patch("/name", "X").dump());
  EXPECT_EQ(answer(desk_, ask).status, 428);
  for (const char* wrong :
       {"*", "abc", "\"abc\"", "W/\"0123456789abcdef\"", "\"0123456789abcdeF\""}) {
    ask.headers["if-match"] = wrong;
    EXPECT_EQ(answer(desk_, ask).status, 400) << wrong;
  }
  ask.headers["if-match"] = "\"0123456789abcdef\"";
  const Reply reply = answer(desk_, ask);
  EXPECT_EQ(reply.status, 412);
  EXPECT_EQ(Json::parse(reply.body)["conflicts"], Json::array());
  EXPECT_EQ(Json::parse(reply.body)["etag"], tag());
  ask.headers["if-match"] = quoted(tag());
  ask.headers["rig-initials"] = std::string(17, 'A');
  EXPECT_EQ(answer(desk_, ask).status, 400);
}

TEST_F(Served, AConflictTellsAllThreeValues) {
  const std::string base = tag();
  ASSERT_EQ(change("PATCH", "/api/builds/tow", patch("/axles/front/track", "63 in")).status, 200);
  Ask late = make("PATCH", "/api/builds/tow", patch("/axles/front/track", "64 in").dump());
  late.headers["if-match"] = quoted(base);
  const Json conflict = Json::parse(answer(desk_, late).body)["conflicts"][0];
  EXPECT_EQ(conflict["theirs"], "63 in");
  EXPECT_EQ(conflict["yours"], "64 in");
  EXPECT_EQ(conflict["path"], "/axles/front/track");
}

TEST_F(Served, WhatDoesNotReadIsTold) {
  const Reply reply = change("PATCH", "/api/builds/tow", patch("/axles/front/track", "62 lb"));
  EXPECT_EQ(reply.status, 422);
  EXPECT_EQ(Json::parse(reply.body)["diagnostics"][0]["code"], "units.wrong_dimension");
  EXPECT_EQ(change("PATCH", "/api/builds/tow", Json::object()).status, 422);
  EXPECT_EQ(post("/api/builds/tow/trial?work=axles", patch("/axles/front/track", "62 lb")).status,
            422);
}

TEST_F(Served, ATrialKeepsNothing) {
  const std::string before = tag();
  const Json changes = patch("/axles/front/label", "Another axle");
  const Reply reply = post("/api/builds/tow/trial?work=axles", changes);
  ASSERT_EQ(reply.status, 200);
  const Json trial = Json::parse(reply.body)["trial"];
  EXPECT_EQ(trial["axles"][0]["label"], "Another axle");
  EXPECT_EQ(trial["work"], "axles");
  for (const char* other : {"states", "frame", "drivetrain"}) EXPECT_FALSE(trial.contains(other));
  EXPECT_EQ(post("/api/builds/tow/trial?work=history", changes).status, 400);
  EXPECT_EQ(post("/api/builds/tow/trial", changes).status, 400);
  EXPECT_EQ(tag(), before);
}

/// As drawn, where the first case starts.
double first_case_height(const Json& answer) {
  for (const Json& part : answer["scene"]["parts"]) {
    if (part["kind"] == "case") return part["a"]["p"][2].get<double>();
  }
  ADD_FAILURE() << "no case is drawn";
  return 0;
}

TEST_F(ServedExample, ALineOfCasesIsTriedOutAndMoved) {
  const std::string before = tag();
  Json move = {{"kind", "move_cases"}, {"path", "/drivetrain/segments/gearbox"}, {"up", "1 in"}};
  const double drawn = first_case_height(Json::parse(get("/api/builds/tow/scene").body));
  const Reply tried = post("/api/builds/tow/trial?work=drivetrain", move);
  ASSERT_EQ(tried.status, 200) << tried.body;
  EXPECT_NEAR(first_case_height(Json::parse(tried.body)), drawn + 0.0254, 1e-6);
  EXPECT_EQ(tag(), before);
  const Reply moved = change("POST", "/api/builds/tow/change", move);
  ASSERT_EQ(moved.status, 200) << moved.body;
  EXPECT_EQ(Json::parse(moved.body)["path"], "/drivetrain/segments/gearbox");
  EXPECT_NEAR(first_case_height(Json::parse(moved.body)), drawn + 0.0254, 1e-6);
  move["path"] = "/drivetrain/segments/none";
  EXPECT_EQ(post("/api/builds/tow/trial?work=drivetrain", move).status, 422);
  EXPECT_EQ(post("/api/builds/tow/trial?work=drivetrain", {{"kind", "swing"}}).status, 400);
}

TEST_F(Served, WholeThingsAreChanged) {
  const Json build = Json::parse(get("/api/builds/tow").body);
  const std::string tyre = build["document"]["axles"]["front"]["tyre"];
  const std::string path = "/tyres/" + tyre;
  const Json asked{{"kind", "remove"}, {"path", path}, {"with_dependants", false}};
  const Reply refused = change("POST", "/api/builds/tow/change", asked);
  ASSERT_EQ(refused.status, 409) << refused.body;
  EXPECT_FALSE(Json::parse(refused.body)["dependants"].empty());
  EXPECT_EQ(Json::parse(get("/api/builds/tow/dependants?path=" + path).body)["dependants"],
            Json::parse(refused.body)["dependants"]);
  const Reply renamed = change("POST", "/api/builds/tow/change",
                               {{"kind", "rename"}, {"path", path}, {"to", "big_tyre"}});
  ASSERT_EQ(renamed.status, 200) << renamed.body;
  EXPECT_EQ(Json::parse(renamed.body)["path"], "/tyres/big_tyre");
  EXPECT_EQ(Json::parse(renamed.body)["document"]["axles"]["front"]["tyre"], "big_tyre");
  EXPECT_EQ(change("POST", "/api/builds/tow/change", {{"kind", "paint"}, {"path", path}}).status,
            400);
}

TEST_F(Served, VariantsAreChangedAndCompared) {
  ASSERT_EQ(
      change("PATCH", "/api/builds/tow",
             patch("/variants", {{"wide", {{"label", "Wider"}, {"changes", Json::object()}}}}))
          .status,
      200);
  const Reply reply =
      change("PATCH", "/api/builds/tow?variant=wide", patch("/axles/front/track", "70 in"));
  ASSERT_EQ(reply.status, 200) << reply.body;
  EXPECT_EQ(Json::parse(reply.body)["document"]["axles"]["front"]["track"], "70 in");
  const Json compared = Json::parse(get("/api/builds/tow/compare?a=&b=wide").body);
  EXPECT_EQ(compared["b"]["label"], "Wider");
  ASSERT_EQ(compared["inputs"].size(), 1U) << compared["inputs"];
  EXPECT_EQ(compared["inputs"][0]["b"], "70 in");
  EXPECT_FALSE(compared["words"].empty());
}

TEST_F(Served, NamesVersions) {
  const Reply reply = post("/api/builds/tow/versions", {{"name", "as bought"}, {"entry", 1}});
  EXPECT_EQ(reply.status, 200);
  ASSERT_EQ(get("/api/builds/tow/history?limit=1").status, 200);
  EXPECT_EQ(post("/api/builds/tow/versions", {{"name", ""}, {"entry", 1}}).status, 400);
  EXPECT_EQ(post("/api/builds/tow/versions", {{"name", "x"}, {"entry", 5}}).status, 404);
  EXPECT_EQ(get("/api/builds/tow/history?limit=0").status, 400);
  EXPECT_EQ(get("/api/builds/tow/history?before=x").status, 400);
}

TEST_F(Served, ANewBuildIsACopyOrAnImport) {
  Reply reply = post("/api/shop/builds", {{"name", "Second truck"}, {"copy_of", "tow"}});
  ASSERT_EQ(reply.status, 201) << reply.body;
  EXPECT_EQ(Json::parse(reply.body)["id"], "second_truck");
  EXPECT_EQ(Json::parse(get("/api/builds/second_truck").body)["document"]["name"], "Second truck");
  const std::string text = *read_text(path_);
  EXPECT_EQ(post("/api/shop/builds", {{"name", "In"}, {"text", text}}).status, 201);
  EXPECT_EQ(*read_text(folder_.in("in.rig.json")), text);
  EXPECT_EQ(post("/api/shop/builds", {{"name", "In"}, {"text", "{"}}).status, 422);
  EXPECT_EQ(post("/api/shop/builds", {{"name", "In"}, {"copy_of", "none"}}).status, 404);
  EXPECT_EQ(post("/api/shop/builds", {{"name", "In"}}).status, 400);
  EXPECT_EQ(post("/api/shop/builds", {{"name", ""}, {"text", text}}).status, 400);
  EXPECT_EQ(Json::parse(get("/api/shop").body)["builds"].size(), 3U);
  EXPECT_EQ(post("/api/shop/archive", {{"id", "in"}, {"archived", true}}).status, 200);
}

TEST_F(Served, OnlyItsOwnPageOnItsOwnAddressIsHeard) {
  EXPECT_EQ(refused(make("GET", "/api/shop")), 0);
  const auto with_header = [&](const std::string& name, const std::string& value) {
    Ask ask = make("GET", "/api/shop");
    ask.headers[name] = value;
    return refused(ask);
  };
  EXPECT_EQ(with_header("host", "localhost:8080"), 0);
  for (const char* host : {"", "evil.example:8080", "127.0.0.1", "127.0.0.1:80", "192.168.1.4:8080",
                           "127.0.0.1:8080, evil.example"}) {
    EXPECT_EQ(with_header("host", host), 403) << host;
  }
  EXPECT_EQ(with_header("origin", "http://127.0.0.1:8080"), 0);
  for (const char* origin : {"null", "http://evil.example", "https://127.0.0.1:8080",
                             "http://127.0.0.1:8080, http://evil.example"}) {
    EXPECT_EQ(with_header("origin", origin), 403) << origin;
  }
  EXPECT_EQ(with_header("sec-fetch-site", "same-origin"), 0);
  EXPECT_EQ(with_header("sec-fetch-site", "cross-site"), 403);
  EXPECT_EQ(with_header("transfer-encoding", "chunked"), 411);
  EXPECT_EQ(with_header("content-encoding", "gzip"), 415);
}

TEST_F(Served, AddressesAreExact) {
  for (const char* target :
       {"/api/nothing", "/api/builds/", "/api/builds/..", "/api/builds/../tow", "/../etc/passwd",
        "/api/builds/%2e%2e", "/api/builds/tow/", "/api/builds/tow.rig.json", "/api/builds/TOW",
        "/api/builds//report", "//api/shop", "http://evil.example/api/shop", "*", ""}) {
    EXPECT_EQ(refused(make("GET", target)), 404) << target;
  }
  EXPECT_EQ(refused(make("DELETE", "/api/builds/tow")), 405);
  EXPECT_EQ(refused(make("GET", "/api/pair")), 405);
  Ask patch_as_json = make("PATCH", "/api/builds/tow", "[]");
  patch_as_json.headers["content-type"] = "application/json";
  EXPECT_EQ(refused(patch_as_json), 415);
  Ask plain = make("POST", "/api/shop/archive", "{}");
  plain.headers["content-type"] = "text/plain";
  EXPECT_EQ(refused(plain), 415);
}

TEST_F(Served, UnpairedScreensGetThePageAndNothingElse) {
  std::string code;
  Door locked(
      folder_.in("paired"), [&](const NewCode& next) { code = next.code; }, Door::Clock::now());
  Desk desk{*shop_, locked, 8080};
  for (const Route& route : all_routes()) {
    const std::string path(route.path);
    const auto mark = path.find("{id}");
    Ask ask = make(std::string(route.method),
                   mark == std::string::npos ? path : with(path, "{id}", "tow"));
    EXPECT_EQ(admit(desk, ask).refusal.has_value(), !route.is_open) << path;
    if (!route.is_open) {
      EXPECT_EQ(admit(desk, ask).refusal->status, 401) << path;
    }
  }
  EXPECT_FALSE(admit(desk, make("GET", "/")).refusal);
  EXPECT_EQ(admit(desk, make("GET", "/api/nothing")).refusal->status, 401);
  EXPECT_EQ(answer(desk, make("POST", "/api/pair", R"({"code": "x"})")).status, 403);
  EXPECT_EQ(answer(desk, make("POST", "/api/pair", R"({"code": 1})")).status, 400);
  const Reply paired = answer(desk, make("POST", "/api/pair", Json{{"code", code}}.dump()));
  ASSERT_EQ(paired.status, 204);
  const std::string cookie = paired.headers.at(0).second;
  EXPECT_NE(cookie.find("HttpOnly; SameSite=Strict"), std::string::npos);
  Ask ask = make("GET", "/api/shop");
  ask.headers["cookie"] = "other=1; " + cookie.substr(0, cookie.find(';'));
  EXPECT_FALSE(admit(desk, ask).refusal);
  EXPECT_EQ(Json::parse(answer(desk, make("GET", "/api/door")).body),
            (Json{{"paired", false}, {"needed", true}, {"code_minutes", 10}}));
}

TEST_F(Served, DeepBodiesAreRefused) {
  const std::string deep = "{\"name\": " + std::string(100000, '[');
  EXPECT_EQ(answer(desk_, make("POST", "/api/shop/builds", deep)).status, 400);
  EXPECT_EQ(answer(desk_, make("POST", "/api/shop/builds", "\xff\xfe")).status, 400);
}

TEST_F(ServedExample, DrawsTheFrame) {
  const Json report = Json::parse(get("/api/builds/tow/report").body)["report"];
  const std::string id = report["frame"]["cases"][0]["id"];
  const Reply reply = get("/api/builds/tow/frame/drawing?case=" + id);
  ASSERT_EQ(reply.status, 200) << reply.body;
  const Json answer = Json::parse(reply.body);
  EXPECT_EQ(answer["etag"], tag());
  const Json& drawing = answer["drawing"];
  EXPECT_EQ(drawing["case"], id);
  EXPECT_EQ(drawing["after"]["worst"], report["frame"]["cases"][0]["worst"]);
  EXPECT_EQ(drawing["levels"].size(), 5U);
  EXPECT_FALSE(drawing["members"].empty());
  // Asked again it is the same, kept; after an edit another.
  EXPECT_EQ(get("/api/builds/tow/frame/drawing?case=" + id).body, reply.body);
  EXPECT_EQ(get("/api/builds/tow/frame/drawing?case=none").status, 404);
  EXPECT_EQ(get("/api/builds/tow/frame/drawing").status, 404);
  const Json rail = {
      {"shape", "channel"}, {"depth", "8 in"}, {"flange", "3 in"}, {"thickness", "1/4 in"}};
  EXPECT_EQ(change("PATCH", "/api/builds/tow", patch("/frame/rails/main/section", rail)).status,
            200);
  EXPECT_NE(get("/api/builds/tow/frame/drawing?case=" + id).body, reply.body);
}

TEST_F(ServedExample, DrawsTheSectionsOfTheFrame) {
  const Reply reply = get("/api/builds/tow/frame/sections");
  ASSERT_EQ(reply.status, 200);
  const Json sections = Json::parse(reply.body)["sections"];
  ASSERT_GE(sections.size(), 3U);
  EXPECT_EQ(sections[0]["seen"], "from behind");
  EXPECT_EQ(sections[0]["numbers"][0]["id"], "area");
}

TEST_F(Served, EventsBeginWithTheHead) {
  const Reply reply = get("/api/builds/tow/events");
  EXPECT_EQ(reply.type, "text/event-stream");
  ASSERT_TRUE(reply.events);
  EXPECT_NE(reply.body.find("\"etag\":\"" + tag() + "\""), std::string::npos);
}

TEST(OpenApi, DescribesEveryRouteAndNoOther) {
  const Json document = Json::parse(openapi_json());
  EXPECT_EQ(document["openapi"], "3.1.0");
  std::set<std::string> described, answered;
  for (const auto& [path, operations] : document["paths"].items()) {
    for (const auto& [method, operation] : operations.items()) {
      if (method == "parameters") continue;
      std::string name = method;
      for (char& c : name) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
      described.insert(name.append(" ").append(path));
    }
  }
  for (const Route& route : all_routes()) {
    answered.insert(std::string(route.method).append(" ").append(route.path));
  }
  EXPECT_EQ(described, answered);
}

}  // namespace
}  // namespace rig::serve
