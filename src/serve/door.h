#pragma once

#include <chrono>
#include <functional>
#include <map>
#include <mutex>
#include <string>

#include "base/result.h"

namespace rig::serve {

enum class Pairing {
  kPaired,
  kWrongCode,
  kRanOut,  ///< It was the code until lately.
  kWait,    ///< Too many wrong codes lately.
};

struct PairAnswer {
  Pairing result = Pairing::kWrongCode;
  std::string secret;  ///< What the paired screen shows from now on.
};

/// What is told of a new code.
struct NewCode {
  std::string code;
  bool last_ran_out = false;  ///< The one before was not used in time.
};

/// Who gets in when other machines may reach the server: whoever has once given the code that the
/// program prints. A code is good for one pairing and for ten minutes; five wrong ones in a minute
/// make a new code and close the door for the rest of that minute, twice as long each time until
/// somebody gets in, at most for an hour. Safe to use from several threads.
class Door {
 public:
  using Clock = std::chrono::steady_clock;

  /// A door that is always open: loopback only.
  Door() = default;

  /// @param file        Where the paired screens are remembered, as digests of their secrets.
  /// @param on_new_code  Told every code, the first one too.
  Door(std::string file, std::function<void(const NewCode&)> on_new_code, Clock::time_point now);

  bool is_locked() const { return is_locked_; }

  /// Whether this secret was given out here.
  bool lets_in(const std::string& secret);

  /// A long code, good once, to be handed to a browser that this program starts itself.
  std::string invite();

  PairAnswer pair(const std::string& code, Clock::time_point now);

  /// Makes a new code when the last one has run out; to be called every second or so.
  void tick(Clock::time_point now);

  static constexpr std::size_t kDigits = 6;
  static constexpr int kTries = 5;
  static constexpr std::chrono::seconds kWait{60};
  static constexpr std::chrono::seconds kLongestWait{3600};
  static constexpr std::chrono::minutes kGoodFor{10};

 private:
  void renew_code(Clock::time_point now, bool last_ran_out);
  void let_run_out(Clock::time_point now);
  PairAnswer let_in();
  void remember() const;

  bool is_locked_ = false;
  std::string file_;
  std::function<void(const NewCode&)> on_new_code_;
  std::mutex mutex_;
  std::string code_, invitation_;
  std::string ran_out_;              ///< The last code that was not used in time.
  Clock::time_point made_;           ///< When `code_` was.
  std::vector<std::string> paired_;  ///< Digests, oldest first.
  int wrong_ = 0;
  Clock::time_point first_wrong_;
  std::chrono::seconds wait_ = kWait;  ///< From the first of five wrong ones on.
};

}  // namespace rig::serve
