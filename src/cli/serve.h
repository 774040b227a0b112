#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "serve/server.h"

namespace rig::cli {

/// What `open` and `serve` have in common.
struct ServeArguments {
  serve::ServeOptions options;
  bool no_browser = false;
};

void add_serve_options(CLI::App& app, ServeArguments& arguments);

/// Serves, tells the address, opens the browser, prints pairing codes. Returns the exit code.
/// @param shown  What the person named on the command line.
int serve_until_stopped(serve::Shop& shop, const std::string& shown,
                        const ServeArguments& arguments);

}  // namespace rig::cli
