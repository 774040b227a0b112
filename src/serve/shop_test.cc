#include "serve/shop.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "serve/test_shop_internal.h"

namespace rig::serve {
namespace {

namespace fs = std::filesystem;

std::string code_of(const Diagnostics& diagnostics) { return diagnostics.front().code; }

class Folder : public ::testing::Test {
 protected:
  void open() {
    shop_.reset();
    auto opened = Shop::open_folder(folder_.path().string());
    ASSERT_TRUE(opened.has_value());
    shop_ = std::move(*opened);
  }
  std::vector<std::string> ids() {
    std::vector<std::string> ids;
    for (const auto& listing : shop_->list()) ids.push_back(listing.id);
    return ids;
  }

  TestFolder folder_;
  std::unique_ptr<Shop> shop_;
};

TEST(ShopIds, AreMadeOfNames) {
  EXPECT_EQ(id_from_name("My truck (2)"), "my_truck_2");
  EXPECT_EQ(id_from_name("tow-rig_3"), "tow-rig_3");
  EXPECT_EQ(id_from_name("../../etc/passwd"), "etc_passwd");
  EXPECT_EQ(id_from_name("\xC3\xA5"), "build");
  EXPECT_EQ(id_from_name(""), "build");
  EXPECT_EQ(id_from_name(std::string(500, 'a')).size(), 48U);
}

TEST_F(Folder, ListsItsBuildsWithWhatIsFound) {
  folder_.add_example("tow.rig.json");
  folder_.add_example("My Truck.rig.json");
  write_plainly(folder_.in("bad.rig.json"), "{");
  write_plainly(folder_.in("notes.txt"), "");
  fs::create_symlink("/etc/passwd", folder_.in("link.rig.json"));
  open();
  EXPECT_EQ(ids().size(), 3U);
  for (const auto& listing : shop_->list()) {
    if (listing.id == "bad") {
      EXPECT_FALSE(listing.glance->verdicts);
      EXPECT_GT(listing.glance->faults, 0U);
      EXPECT_EQ(listing.glance->name, "bad.rig.json");
    } else {
      EXPECT_GT(listing.glance->verdicts->good, 10);
      EXPECT_NE(listing.glance->picture.find("<svg"), std::string::npos);
      EXPECT_GT(listing.changed_ms, 0);
    }
  }
  EXPECT_TRUE(shop_->find("my_truck").has_value());
  EXPECT_EQ(code_of(shop_->find("link").error()), "serve.no_build");
  EXPECT_EQ(code_of(shop_->find("../tow").error()), "serve.no_build");
}

TEST_F(Folder, LooksWithoutMakingJournals) {
  folder_.add_small("tow.rig.json");
  open();
  shop_->list();
  EXPECT_FALSE(fs::exists(folder_.in("tow.rig.journal")));
  EXPECT_TRUE(shop_->find("tow").has_value());
  EXPECT_TRUE(fs::exists(folder_.in("tow.rig.journal")));
}

TEST_F(Folder, TwoNamesThatMakeOneIdAreToldApart) {
  folder_.add_small("my_truck.rig.json");
  folder_.add_small("My truck.rig.json");
  open();
  EXPECT_EQ((*shop_->find("my_truck"))->path(), folder_.in("my_truck.rig.json"));
  EXPECT_EQ((*shop_->find("my_truck-2"))->path(), folder_.in("My truck.rig.json"));
}

TEST_F(Folder, AddsBuildsUnderNamesThatAreFree) {
  open();
  const std::string text = small_build();
  EXPECT_EQ(*shop_->add("New truck", text), "new_truck");
  EXPECT_EQ(*shop_->add("New truck", text), "new_truck_2");
  EXPECT_EQ(*read_text(folder_.in("new_truck.rig.json")), text);
  EXPECT_TRUE(shop_->find("new_truck_2").has_value());
}

TEST_F(Folder, ANewBuildDoesNotInheritTheHistoryOfOneThatWasDeleted) {
  const std::string path = folder_.add_small("tow.rig.json");
  const std::string text = *read_text(path);
  open();
  ASSERT_TRUE(shop_->find("tow").has_value());
  fs::remove(path);
  const std::string id = *shop_->add("tow", text);
  EXPECT_NE(id, "tow");
  EXPECT_EQ((*shop_->find(id))->history(0, 10)->size(), 1U);
}

TEST_F(Folder, ArchivesWithTheHistory) {
  folder_.add_small("tow.rig.json");
  open();
  auto build = *shop_->find("tow");
  const std::string tag = build->snapshot()->tag();
  ASSERT_FALSE(
      build->patch({.tag = tag}, R"([{"op": "add", "path": "/name", "value": "Put away"}])")
          .refusal);
  ASSERT_TRUE(shop_->archive("tow", true).has_value());
  EXPECT_FALSE(fs::exists(folder_.in("tow.rig.json")));
  EXPECT_TRUE(shop_->list().front().is_archived);
  EXPECT_EQ(build->undo({.tag = build->snapshot()->tag()}).refusal, Refusal::kGone);
  EXPECT_EQ((*shop_->find("tow"))->history(0, 10)->size(), 2U);
  EXPECT_EQ(code_of(shop_->archive("none", true).error()), "serve.no_build");
  ASSERT_TRUE(shop_->archive("tow", false).has_value());
  EXPECT_EQ((*shop_->find("tow"))->history(0, 10)->size(), 2U);
  EXPECT_TRUE(fs::exists(folder_.in("tow.rig.json")));
}

TEST_F(Folder, AMoveThatWasCutShortKeepsTheHistory) {
  folder_.add_small("tow.rig.json");
  open();
  ASSERT_TRUE(shop_->find("tow").has_value());
  shop_.reset();
  // As if the power had gone between the two renames.
  fs::create_directory(folder_.in("archive"));
  fs::rename(folder_.in("tow.rig.journal"), folder_.in("archive/tow.rig.journal"));
  open();
  EXPECT_TRUE(fs::exists(folder_.in("tow.rig.journal")));
}

TEST_F(Folder, DoesNotArchiveOverAnother) {
  folder_.add_small("tow.rig.json");
  fs::create_directory(folder_.in("archive"));
  folder_.add_small("archive/tow.rig.json");
  open();
  EXPECT_EQ(code_of(shop_->archive("tow", true).error()), "serve.file_exists");
}

TEST(Shop, OfOneFileShowsOnlyThat) {
  const TestFolder folder;
  const std::string path = folder.add_small("Any name.json");
  folder.add_small("other.rig.json");
  const auto shop = Shop::open_file(path).value();
  EXPECT_TRUE(shop->is_single());
  ASSERT_EQ(shop->list().size(), 1U);
  EXPECT_EQ(shop->list().front().id, "any_name");
  EXPECT_TRUE(shop->find("any_name").has_value());
  EXPECT_FALSE(shop->find("other").has_value());
  EXPECT_EQ(code_of(shop->add("x", "{}").error()), "serve.single");
  EXPECT_EQ(code_of(shop->archive("any_name", true).error()), "serve.single");
}

TEST(Shop, TellsWhatIsNoFolderOrFile) {
  EXPECT_EQ(code_of(Shop::open_folder("/no/such").error()), "serve.no_folder");
  EXPECT_EQ(code_of(Shop::open_file("/no/such").error()), "serve.cannot_read");
}

}  // namespace
}  // namespace rig::serve
