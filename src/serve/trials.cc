#include "serve/trials.h"

namespace rig::serve {

Trials::Turn::Turn(Trials& trials) : trials_(trials) {
  const std::lock_guard lock(trials_.mutex_);
  number_ = trials_.begun_++;
  trials_.open_.insert(number_);
}

Trials::Turn::~Turn() {
  {
    const std::lock_guard lock(trials_.mutex_);
    trials_.open_.erase(number_);
  }
  trials_.one_ended_.notify_all();
}

void Trials::wait_for_begun() {
  std::unique_lock lock(mutex_);
  one_ended_.wait(lock,
                  [this, begun = begun_] { return open_.empty() || *open_.begin() >= begun; });
}

}  // namespace rig::serve
