#pragma once

#include <utility>
#include <variant>

#include "base/diagnostic.h"
#include "base/require.h"

namespace rig {

/// Holds the diagnostics of a failure on its way into a `Result`.
struct Failure {
  Diagnostics diagnostics;
};

/// A failure with one diagnostic.
inline Failure fail(std::string code, std::string path, std::string message,
                    std::string remedy = {}) {
  return Failure{{Diagnostic{.code = std::move(code),
                             .path = std::move(path),
                             .message = std::move(message),
                             .remedy = std::move(remedy),
                             .at = {}}}};
}

/// A value, or at least one diagnostic that says why there is none. Member names are those of
/// `std::expected`, which neither compiler of the project offers yet.
template <typename T>
class [[nodiscard]] Result {
 public:
  Result(T value) : content_(std::move(value)) {}  // NOLINT(google-explicit-constructor)
  Result(Failure failure)                          // NOLINT(google-explicit-constructor)
      : content_(std::move(failure.diagnostics)) {
    RIG_REQUIRE(!error().empty());
  }

  bool has_value() const { return std::holds_alternative<T>(content_); }
  explicit operator bool() const { return has_value(); }

  const T& value() const& {
    RIG_REQUIRE(has_value());
    return std::get<T>(content_);
  }
  T& value() & {
    RIG_REQUIRE(has_value());
    return std::get<T>(content_);
  }
  T&& value() && {
    RIG_REQUIRE(has_value());
    return std::get<T>(std::move(content_));
  }
  const T& operator*() const& { return value(); }
  T& operator*() & { return value(); }
  T&& operator*() && { return std::move(*this).value(); }
  const T* operator->() const { return &value(); }
  T* operator->() { return &value(); }

  const Diagnostics& error() const {
    RIG_REQUIRE(!has_value());
    return std::get<Diagnostics>(content_);
  }

 private:
  std::variant<T, Diagnostics> content_;
};

}  // namespace rig
