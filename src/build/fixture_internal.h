#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>
#include <utility>

#include "build/read.h"

namespace rig::build {

/// The text of a file of the source tree.
inline std::string read_source_file(const std::string& path) {
  std::ifstream file(std::string(RIG_SOURCE_DIR) + "/" + path, std::ios::binary);
  EXPECT_TRUE(file.is_open()) << path;
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Every fault as `line:column code path`, one a line.
inline std::string faults_of(const Result<ReadBuild>& read) {
  std::string out;
  if (read) return out;
  for (const Diagnostic& d : read.error()) {
    out += out.empty() ? "" : "\n";
    if (d.at) out += std::to_string(d.at->line) + ":" + std::to_string(d.at->column) + " ";
    out += d.code + " " + d.path;
  }
  return out;
}
inline std::string faults_in(const std::string& text) { return faults_of(read_build(text)); }

/// A file of src/build/fixtures, which reads without a fault.
inline ReadBuild read_fixture(const std::string& name) {
  auto read = read_build(read_source_file("src/build/fixtures/" + name));
  EXPECT_EQ(faults_of(read), "");
  return std::move(read).value();
}

}  // namespace rig::build
