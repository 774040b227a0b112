#include <fmt/format.h>
#include <spawn.h>

#include <memory>

#include "cli/commands.h"
#include "cli/file.h"
#include "serve/http.h"

extern char** environ;

namespace rig::cli {
namespace {

struct OpenArguments {
  std::string file;
  serve::HttpOptions http;
  bool no_browser = false;
};

/// Hands the address to the desktop's browser; on a machine without one the printed address will
/// do.
void open_browser(std::string address) {
  std::string program = "xdg-open";
  char* arguments[] = {program.data(), address.data(), nullptr};
  pid_t child = 0;
  if (posix_spawnp(&child, program.c_str(), nullptr, nullptr, arguments, environ) != 0) {
    fmt::print("Open that address in a browser.\n");
  }
}

int run_open(const OpenArguments& arguments) {
  auto session = serve::Session::open(arguments.file);
  if (!session) {
    print_diagnostics(arguments.file, session.error());
    return kUnusable;
  }
  const auto served = serve::serve_http(**session, arguments.http, [&](const std::string& address) {
    fmt::print("{} is open at {}\nStop with Ctrl+C; every change is already in the file.\n",
               arguments.file, address);
    if (arguments.http.address != "127.0.0.1") {
      fmt::print("Anyone who reaches this address can read and change the build.\n");
    }
    std::fflush(stdout);
    if (!arguments.no_browser) open_browser(address);
  });
  if (!served) {
    print_diagnostics(arguments.file, served.error());
    return kUnusable;
  }
  return kFine;
}

}  // namespace

Command add_open(CLI::App& program) {
  auto arguments = std::make_shared<OpenArguments>();
  CLI::App* app = program.add_subcommand("open", "Open a build in the page");
  app->add_option("FILE", arguments->file, "The build file")->required();
  app->add_option("--port", arguments->http.port, "Port to listen on; 0 takes any free one")
      ->check(CLI::Range(0, 65535));
  app->add_option("--address", arguments->http.address,
                  "Address to listen on; 0.0.0.0 lets other machines in");
  app->add_flag("--no-browser", arguments->no_browser, "Only print the address");
  return {app, [arguments] { return run_open(*arguments); }};
}

}  // namespace rig::cli
