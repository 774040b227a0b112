#include "serve/door.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "serve/digest.h"
#include "serve/file.h"

namespace rig::serve {
namespace {

/// More screens than a shop has; the oldest is forgotten beyond it.
constexpr std::size_t kMostPaired = 64;
constexpr std::size_t kSecretBytes = 16;
constexpr std::size_t kDigestLength = 64;

}  // namespace

Door::Door(std::string file, std::function<void(const NewCode&)> on_new_code, Clock::time_point now)
    : is_locked_(true), file_(std::move(file)), on_new_code_(std::move(on_new_code)) {
  if (const auto text = read_text(file_)) {
    std::istringstream lines(*text);
    for (std::string line; std::getline(lines, line);) {
      if (line.size() == kDigestLength) paired_.push_back(line);
    }
  }
  renew_code(now, /*last_ran_out=*/false);
}

void Door::renew_code(Clock::time_point now, bool last_ran_out) {
  ran_out_ = last_ran_out ? code_ : "";
  code_ = fmt::format("{:06}", random_below(1'000'000));
  made_ = now;
  on_new_code_({.code = code_, .last_ran_out = last_ran_out});
}

void Door::let_run_out(Clock::time_point now) {
  if (now - made_ >= kGoodFor) renew_code(now, /*last_ran_out=*/true);
}

void Door::tick(Clock::time_point now) {
  if (!is_locked_) return;
  const std::lock_guard lock(mutex_);
  let_run_out(now);
}

/// The shop goes on if this can't be written: the screens then pair again after a restart.
void Door::remember() const {
  std::string text;
  for (const auto& digest : paired_) text += digest + "\n";
  static_cast<void>(write_text(file_, text).has_value());
}

bool Door::lets_in(const std::string& secret) {
  if (!is_locked_) return true;
  if (secret.size() != 2 * kSecretBytes) return false;
  const std::string digest = sha256_hex(secret);
  const std::lock_guard lock(mutex_);
  return std::any_of(paired_.begin(), paired_.end(),
                     [&](const std::string& known) { return same_secret(known, digest); });
}

std::string Door::invite() {
  const std::lock_guard lock(mutex_);
  invitation_ = random_hex(kSecretBytes);
  return invitation_;
}

PairAnswer Door::let_in() {
  const std::string secret = random_hex(kSecretBytes);
  paired_.push_back(sha256_hex(secret));
  if (paired_.size() > kMostPaired) paired_.erase(paired_.begin());
  remember();
  return {.result = Pairing::kPaired, .secret = secret};
}

PairAnswer Door::pair(const std::string& code, Clock::time_point now) {
  if (!is_locked_) return {.result = Pairing::kWrongCode};
  const std::lock_guard lock(mutex_);
  if (!invitation_.empty() && same_secret(code, invitation_)) {
    invitation_.clear();
    return let_in();
  }
  let_run_out(now);
  if (wrong_ >= kTries && now - first_wrong_ >= wait_) {
    wrong_ = 0;
    wait_ = std::min(2 * wait_, kLongestWait);
  }
  if (wrong_ >= kTries) return {.result = Pairing::kWait};
  if (wrong_ > 0 && now - first_wrong_ >= kWait) wrong_ = 0;
  if (same_secret(code, code_)) {
    PairAnswer answer = let_in();
    wrong_ = 0;
    wait_ = kWait;
    renew_code(now, /*last_ran_out=*/false);
    return answer;
  }
  if (wrong_ == 0) first_wrong_ = now;
  const bool ran_out = !ran_out_.empty() && same_secret(code, ran_out_);
  if (++wrong_ == kTries) renew_code(now, /*last_ran_out=*/false);
  return {.result = ran_out ? Pairing::kRanOut : Pairing::kWrongCode};
}

}  // namespace rig::serve
