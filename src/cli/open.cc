#include <memory>

#include "cli/commands.h"
#include "cli/file.h"
#include "cli/serve.h"

namespace rig::cli {
namespace {

int run_open(const std::string& file, const ServeArguments& arguments) {
  auto shop = serve::Shop::open_file(file);
  if (!shop) {
    print_diagnostics(file, shop.error());
    return kUnusable;
  }
  return serve_until_stopped(**shop, file, arguments);
}

}  // namespace

Command add_open(CLI::App& program) {
  auto file = std::make_shared<std::string>();
  auto arguments = std::make_shared<ServeArguments>();
  CLI::App* app = program.add_subcommand("open", "Open a build in the page");
  app->add_option("FILE", *file, "The build file")->required();
  add_serve_options(*app, *arguments);
  return {app, [file, arguments] { return run_open(*file, *arguments); }};
}

}  // namespace rig::cli
