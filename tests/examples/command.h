#pragma once

#include <string>

namespace rig::testing {

struct Ran {
  int exit_code = -1;
  std::string out;
  std::string err;
};

/// Runs the program with arguments as the shell would take them.
Ran run(const std::string& arguments);

/// Path of an example build file.
std::string example(const std::string& name);

/// A file of this text in the test's own directory.
std::string write_file(const std::string& name, const std::string& text);

}  // namespace rig::testing
