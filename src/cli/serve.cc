#include "cli/serve.h"

#include <fmt/format.h>
#include <spawn.h>

#include <cstdio>
#include <memory>

#include "cli/commands.h"
#include "cli/file.h"
#include "serve/code_picture.h"
#include "serve/door.h"

extern char** environ;

namespace rig::cli {
namespace {

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

void print_code(const serve::NewCode& told, const std::vector<std::string>& addresses) {
  const std::string& code = told.code;
  if (told.last_ran_out) fmt::print("\nThe last code has run out; here is the next.");
  fmt::print(
      "\nTo let a tablet in, open one of these addresses on it and type the code {}, good for {} "
      "minutes:\n",
      code, serve::Door::kGoodFor.count());
  for (const auto& address : addresses) fmt::print("  {}\n", address);
  if (!addresses.empty()) {
    fmt::print("Or point its camera here:\n{}",
               serve::code_picture(fmt::format("{}#pair={}", addresses.front(), code)));
  }
  std::fflush(stdout);
}

int run_serve(const std::string& folder, const ServeArguments& arguments) {
  auto shop = serve::Shop::open_folder(folder);
  if (!shop) {
    print_diagnostics(folder, shop.error());
    return kUnusable;
  }
  return serve_until_stopped(**shop, folder, arguments);
}

}  // namespace

void add_serve_options(CLI::App& app, ServeArguments& arguments) {
  app.add_option("--port", arguments.options.port, "Port to listen on; 0 takes any free one")
      ->check(CLI::Range(0, 65535));
  app.add_flag("--lan", arguments.options.lan,
               "Let tablets on the shop's network in, each by a code that is printed");
  app.add_flag("--no-browser", arguments.no_browser, "Only print the address");
}

int serve_until_stopped(serve::Shop& shop, const std::string& shown,
                        const ServeArguments& arguments) {
  const serve::ServeNews news{
      .on_listening =
          [&](const std::string& address) {
            fmt::print("{} is open at {}\nStop with Ctrl+C; every change is already on disk.\n",
                       shown, address);
            std::fflush(stdout);
            if (!arguments.no_browser) open_browser(address);
          },
      .on_code = print_code};
  const auto served = serve::serve_shop(shop, arguments.options, news);
  if (!served) {
    print_diagnostics(shown, served.error());
    return kUnusable;
  }
  return kFine;
}

Command add_serve(CLI::App& program) {
  auto folder = std::make_shared<std::string>();
  auto arguments = std::make_shared<ServeArguments>();
  CLI::App* app = program.add_subcommand("serve", "Serve a folder of builds to the shop's screens");
  app->add_option("FOLDER", *folder, "The folder that the builds are in")->required();
  add_serve_options(*app, *arguments);
  return {app, [folder, arguments] { return run_serve(*folder, *arguments); }};
}

}  // namespace rig::cli
