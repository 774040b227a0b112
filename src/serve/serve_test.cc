#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "serve/api.h"
#include "serve/file.h"
#include "serve/http.h"
#include "serve/page_files.h"

namespace rig::serve {
namespace {

using Json = nlohmann::json;

class Api : public ::testing::Test {
 protected:
  Api() {
    folder_ = std::filesystem::temp_directory_path() /
              ("rig_serve_" + std::to_string(::getpid()) + "_" +
               ::testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::create_directories(folder_);
    path_ = (folder_ / "tow.rig.json").string();
    std::filesystem::copy_file(
        std::filesystem::path(RIG_SOURCE_DIR) / "examples/01_tow_rig/tow_rig.rig.json", path_);
    auto session = Session::open(path_);
    EXPECT_TRUE(session.has_value());
    session_ = std::move(*session);
  }
  ~Api() override { std::filesystem::remove_all(folder_); }

  Reply get(const std::string& path) { return answer(*session_, {"GET", path, ""}); }
  Reply post(const std::string& path, const std::string& body) {
    return answer(*session_, {"POST", path, body});
  }
  std::string file_text() { return read_text(path_).value(); }

  std::filesystem::path folder_;
  std::string path_;
  std::unique_ptr<Session> session_;
};

TEST_F(Api, GivesTheBuildAsItStands) {
  const Json reply = Json::parse(get("/api/build").body);
  EXPECT_EQ(reply["revision"], 1);
  EXPECT_EQ(reply["file"], "tow.rig.json");
  EXPECT_EQ(reply["document"], Json::parse(file_text()));
  EXPECT_TRUE(reply["units"]["per_si"].contains("length"));
}

TEST_F(Api, GivesReportSceneSchemaAndPage) {
  EXPECT_TRUE(Json::parse(get("/api/report").body)["report"]["findings"].is_array());
  EXPECT_FALSE(Json::parse(get("/api/scene").body)["scene"]["parts"].empty());
  EXPECT_TRUE(Json::parse(get("/api/schema").body).contains("$schema"));
  const Reply page = get("/");
  EXPECT_EQ(page.status, 200);
  EXPECT_NE(page.body.find("page.js"), std::string::npos);
  EXPECT_EQ(get("/page.js").type, "text/javascript; charset=utf-8");
}

TEST_F(Api, MovesAnAxleForThePicture) {
  const Reply reply = post("/api/pose", R"({"state": null, "heave": {"front": 0.05}, "roll": {}})");
  ASSERT_EQ(reply.status, 200) << reply.body;
  const Json pose = Json::parse(reply.body)["pose"];
  EXPECT_NEAR(pose["bodies"]["frame"]["p"][2].get<double>(), 0, 1e-12);
  EXPECT_TRUE(pose["bodies"].contains("front"));
  EXPECT_EQ(post("/api/pose", "[]").status, 400);
  EXPECT_EQ(post("/api/pose", "{").status, 400);
}

TEST_F(Api, AnEditIsOnDiskBeforeItIsAnswered) {
  const Reply reply =
      post("/api/edit", R"({"revision": 1, "edits": [{"path": "/name", "value": "Other name"}]})");
  ASSERT_EQ(reply.status, 200) << reply.body;
  const Json body = Json::parse(reply.body);
  EXPECT_EQ(body["revision"], 2);
  EXPECT_EQ(body["document"]["name"], "Other name");
  EXPECT_TRUE(body["report"].is_object());
  EXPECT_TRUE(body["scene"].is_object());
  EXPECT_EQ(Json::parse(file_text())["name"], "Other name");
}

TEST_F(Api, AnEditThatDoesNotReadChangesNothing) {
  const std::string before = file_text();
  const Reply reply = post("/api/edit", R"({"revision": 1, "edits": [
      {"path": "/axles/front/track", "value": "62 lb"}]})");
  EXPECT_EQ(reply.status, 422);
  const Json body = Json::parse(reply.body);
  EXPECT_EQ(body["diagnostics"][0]["code"], "units.wrong_dimension");
  EXPECT_EQ(body["diagnostics"][0]["path"], "/axles/front/track");
  EXPECT_EQ(file_text(), before);
  EXPECT_EQ(session_->snapshot()->revision, 1);
}

TEST_F(Api, AnOldRevisionIsRefused) {
  const std::string edit = R"({"revision": 1, "edits": [{"path": "/name", "value": "A"}]})";
  EXPECT_EQ(post("/api/edit", edit).status, 200);
  const Reply reply = post("/api/edit", edit);
  EXPECT_EQ(reply.status, 409);
  EXPECT_EQ(Json::parse(reply.body)["revision"], 2);
}

TEST_F(Api, AFileChangedOutsideIsTakenInAndNotWrittenOver) {
  Json changed = Json::parse(file_text());
  changed["name"] = "By hand";
  std::ofstream(path_) << changed.dump();
  const Reply reply =
      post("/api/edit", R"({"revision": 1, "edits": [{"path": "/name", "value": "By page"}]})");
  EXPECT_EQ(reply.status, 409);
  EXPECT_EQ(Json::parse(file_text())["name"], "By hand");
  EXPECT_EQ(Json::parse(get("/api/build").body)["document"]["name"], "By hand");
}

TEST_F(Api, RefusesWhatItDoesNotKnow) {
  EXPECT_EQ(get("/api/nothing").status, 404);
  EXPECT_EQ(get("/../etc/passwd").status, 404);
  for (const char* body :
       {"", "{}", "[1]", R"({"revision": "1", "edits": []})",
        R"({"revision": 1, "edits": [{"path": 3, "value": 1}]})",
        R"({"revision": 1, "edits": [{"path": "/name"}]})",
        R"({"revision": 1, "edits": [{"path": "/name", "value": 1, "remove": true}]})"}) {
    EXPECT_EQ(post("/api/edit", body).status, 400) << body;
  }
}

TEST_F(Api, AFullOrLockedDiskLeavesTheOldFile) {
  const std::string before = file_text();
  const auto nowhere = write_text((folder_ / "missing" / "x.rig.json").string(), "{}");
  ASSERT_FALSE(nowhere.has_value());
  EXPECT_EQ(nowhere.error().front().code, "serve.cannot_write");
  EXPECT_EQ(file_text(), before);
  EXPECT_FALSE(std::filesystem::exists(path_ + ".new"));
}

TEST(Session, TellsWhatIsWrongWithAFile) {
  EXPECT_EQ(Session::open("/no/such/file").error().front().code, "serve.cannot_read");
}

TEST(OwnHost, IsThisServerAndNoOther) {
  EXPECT_TRUE(is_own_host("127.0.0.1:8080", "127.0.0.1", 8080));
  EXPECT_TRUE(is_own_host("localhost:8080", "127.0.0.1", 8080));
  EXPECT_TRUE(is_own_host("192.168.1.4:80", "0.0.0.0", 80));
  EXPECT_FALSE(is_own_host("127.0.0.1:8081", "127.0.0.1", 8080));
  EXPECT_FALSE(is_own_host("evil.example:8080", "127.0.0.1", 8080));
  EXPECT_FALSE(is_own_host("evil.example:80", "0.0.0.0", 80));
  EXPECT_FALSE(is_own_host("127.0.0.1", "127.0.0.1", 8080));
  EXPECT_FALSE(is_own_host("", "127.0.0.1", 8080));
}

}  // namespace
}  // namespace rig::serve
