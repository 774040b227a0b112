#pragma once

#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <set>

namespace rig::serve {

/// The trials that are being answered: what is tried out while a hand moves is waited for with a
/// finger on the glass, so what takes longer lets it through. Safe to use from several threads.
class Trials {
 public:
  /// A trial that is being answered, as long as this lives.
  class Turn {
   public:
    explicit Turn(Trials& trials);
    ~Turn();
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;

   private:
    Trials& trials_;
    std::uint64_t number_;
  };

  /// Returns when all trials are answered that were begun before this was called. Those begun later
  /// are not waited for, however many there are.
  void wait_for_begun();

 private:
  std::mutex mutex_;
  std::condition_variable one_ended_;
  std::uint64_t begun_ = 0;
  std::set<std::uint64_t> open_;
};

}  // namespace rig::serve
