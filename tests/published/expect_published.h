#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <iomanip>
#include <sstream>
#include <string>

namespace rig {

/// A value as a source prints it, in the source's own unit.
struct Published {
  double value = 0;
  double tolerance = 0;  ///< Half a unit in the last printed digit, or with its reason beside it.
  std::string source;
};

/// Holds a computed value against a published one, and records both with the test run, from which
/// docs/validation.md is made.
///
/// @param name  What it is, with its unit at the end: "cg_height_mm"; once per test case.
inline void expect_published(const std::string& name, double value, const Published& published) {
  EXPECT_LE(std::abs(value - published.value), published.tolerance)
      << name << " = " << std::setprecision(12) << value << ", published " << published.value
      << " +- " << published.tolerance << " in " << published.source;
  EXPECT_FALSE(std::isnan(value)) << name;
  std::ostringstream record;
  record << std::setprecision(12) << value << " | " << published.value << " | "
         << published.tolerance << " | " << published.source;
  testing::Test::RecordProperty(name, record.str());
}

}  // namespace rig
