#include "serve/door.h"

#include <gtest/gtest.h>

#include "serve/test_shop_internal.h"

namespace rig::serve {
namespace {

class Locked : public ::testing::Test {
 protected:
  Locked()
      : door_(
            folder_.in("paired"),
            [this](const NewCode& told) {
              codes_.push_back(told.code);
              ran_out_ = told.last_ran_out;
            },
            now_) {}

  PairAnswer pair(const std::string& code) { return door_.pair(code, now_); }
  std::string wrong() const { return codes_.back() == "000000" ? "000001" : "000000"; }

  TestFolder folder_;
  std::vector<std::string> codes_;
  bool ran_out_ = false;  ///< Told with the last code.
  Door::Clock::time_point now_{};
  Door door_;
};

TEST(OpenDoor, LetsAllIn) {
  Door door;
  EXPECT_FALSE(door.is_locked());
  EXPECT_TRUE(door.lets_in(""));
}

TEST_F(Locked, LetsInWhoGaveTheCode) {
  ASSERT_EQ(codes_.size(), 1U);
  EXPECT_EQ(codes_[0].size(), Door::kDigits);
  EXPECT_FALSE(door_.lets_in(""));
  EXPECT_FALSE(door_.lets_in(codes_[0]));
  const PairAnswer answer = pair(codes_[0]);
  ASSERT_EQ(answer.result, Pairing::kPaired);
  EXPECT_TRUE(door_.lets_in(answer.secret));
  EXPECT_FALSE(door_.lets_in(std::string(answer.secret.size(), '0')));
}

TEST_F(Locked, ACodeIsGoodOnce) {
  const std::string code = codes_[0];
  ASSERT_EQ(pair(code).result, Pairing::kPaired);
  ASSERT_EQ(codes_.size(), 2U);
  EXPECT_NE(code, codes_[1]);
  EXPECT_EQ(pair(code).result, Pairing::kWrongCode);
}

TEST_F(Locked, FiveWrongCodesCloseItForAMinute) {
  const std::string first = codes_[0];
  for (int i = 0; i < Door::kTries; ++i) EXPECT_EQ(pair(wrong()).result, Pairing::kWrongCode);
  ASSERT_EQ(codes_.size(), 2U);
  EXPECT_EQ(pair(codes_[1]).result, Pairing::kWait);
  now_ += Door::kWait - std::chrono::seconds(1);
  EXPECT_EQ(pair(codes_[1]).result, Pairing::kWait);
  now_ += std::chrono::seconds(1);
  EXPECT_EQ(pair(first).result, Pairing::kWrongCode);
  EXPECT_EQ(pair(codes_[1]).result, Pairing::kPaired);
}

TEST_F(Locked, ClosesTwiceAsLongEachTimeUntilSomebodyGetsIn) {
  const auto guess = [this] {
    for (int i = 0; i < Door::kTries; ++i) EXPECT_EQ(pair(wrong()).result, Pairing::kWrongCode);
  };
  for (std::chrono::seconds wait = Door::kWait; wait < Door::kLongestWait; wait *= 2) {
    guess();
    now_ += wait - std::chrono::seconds(1);
    EXPECT_EQ(pair(codes_.back()).result, Pairing::kWait);
    now_ += std::chrono::seconds(1);
    door_.tick(now_);
  }
  guess();
  now_ += Door::kLongestWait;
  // The code runs out while the door is closed; the program shows the next.
  door_.tick(now_);
  EXPECT_EQ(pair(codes_.back()).result, Pairing::kPaired);
  guess();
  now_ += Door::kWait;
  EXPECT_EQ(pair(codes_.back()).result, Pairing::kPaired);
}

TEST_F(Locked, ACodeRunsOutAfterTenMinutes) {
  const std::string first = codes_[0];
  now_ += Door::kGoodFor - std::chrono::seconds(1);
  door_.tick(now_);
  ASSERT_EQ(codes_.size(), 1U);
  now_ += std::chrono::seconds(1);
  door_.tick(now_);
  ASSERT_EQ(codes_.size(), 2U);
  EXPECT_TRUE(ran_out_);
  EXPECT_EQ(pair(first).result, Pairing::kRanOut);
  EXPECT_EQ(pair(wrong()).result, Pairing::kWrongCode);
  EXPECT_EQ(pair(codes_[1]).result, Pairing::kPaired);
  ASSERT_EQ(codes_.size(), 3U);
  EXPECT_FALSE(ran_out_);
  // It was used, not run out.
  EXPECT_EQ(pair(codes_[1]).result, Pairing::kWrongCode);
}

TEST_F(Locked, ACodeThatRanOutLetsNobodyInThoughNobodyTicked) {
  const std::string first = codes_[0];
  now_ += Door::kGoodFor;
  EXPECT_EQ(pair(first).result, Pairing::kRanOut);
  EXPECT_EQ(codes_.size(), 2U);
}

TEST_F(Locked, ACodeIsGoodForTenMinutesFromWhenItWasMade) {
  now_ += Door::kGoodFor - std::chrono::seconds(1);
  ASSERT_EQ(pair(codes_[0]).result, Pairing::kPaired);
  now_ += Door::kGoodFor - std::chrono::seconds(1);
  EXPECT_EQ(pair(codes_[1]).result, Pairing::kPaired);
}

TEST_F(Locked, AnInvitationIsGoodOnce) {
  const std::string invitation = door_.invite();
  EXPECT_EQ(pair(invitation).result, Pairing::kPaired);
  EXPECT_EQ(pair(invitation).result, Pairing::kWrongCode);
  EXPECT_EQ(pair("").result, Pairing::kWrongCode);
  EXPECT_EQ(codes_.size(), 1U);
}

TEST_F(Locked, RemembersAcrossARestartWithoutKeepingTheSecret) {
  const PairAnswer answer = pair(codes_[0]);
  Door again(
      folder_.in("paired"), [](const NewCode&) {}, now_);
  EXPECT_TRUE(again.lets_in(answer.secret));
  EXPECT_EQ(read_text(folder_.in("paired"))->find(answer.secret), std::string::npos);
}

}  // namespace
}  // namespace rig::serve
