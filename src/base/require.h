#pragma once

#include <stdexcept>
#include <string>

namespace rig {

/// A broken contract inside the program itself; no input file can cause one. Caught only by `serve`
/// (which answers 500 and lives on) and by `cli` (which exits).
class LogicError : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

[[noreturn]] inline void throw_logic_error(const char* condition, const char* file, int line) {
  throw LogicError(std::string(file) + ":" + std::to_string(line) + ": required: " + condition);
}

}  // namespace rig

/// States what the code relies on; throws `rig::LogicError` in every build type when it is not so.
#define RIG_REQUIRE(condition)                                  \
  do {                                                          \
    if (!(condition)) {                                         \
      ::rig::throw_logic_error(#condition, __FILE__, __LINE__); \
    }                                                           \
  } while (false)
