#pragma once

#include <memory>
#include <utility>

namespace rig {

/// A value that all its copies share, so that a copy costs next to nothing. It never changes.
template <typename T>
class Shared {
 public:
  Shared(T value)  // NOLINT(google-explicit-constructor)
      : value_(std::make_shared<const T>(std::move(value))) {}
  /// @param value  Not null.
  explicit Shared(std::shared_ptr<const T> value) : value_(std::move(value)) {}

  const T& operator*() const { return *value_; }
  const T* operator->() const { return value_.get(); }
  operator const T&() const { return *value_; }  // NOLINT(google-explicit-constructor)
  const std::shared_ptr<const T>& pointer() const { return value_; }

 private:
  std::shared_ptr<const T> value_;
};

}  // namespace rig
