#pragma once

#include <rapidcheck.h>

namespace rig::test {

/// A random number between two numbers of thousandths; inside a property only.
inline double real(int low, int high) { return *rc::gen::inRange(low, high) / 1000.0; }

}  // namespace rig::test
