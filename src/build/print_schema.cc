#include <cstdio>

#include "build/read.h"

/// Prints the JSON Schema of the build file, to be published in docs/schema/.
int main() {
  std::fputs(rig::build::schema_json().c_str(), stdout);
  return 0;
}
