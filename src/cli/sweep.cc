#include <fmt/format.h>

#include <charconv>
#include <memory>

#include "check/sweep_csv.h"
#include "check/truck.h"
#include "cli/commands.h"
#include "cli/file.h"
#include "suspension/from_build.h"
#include "weigh/weigh.h"

namespace rig::cli {
namespace {

struct SweepAsked {
  std::string file;
  std::string axle;
  std::string heave = "0:0:1";
  std::string roll = "0:0:1";
  bool csv = false;
};

/// FROM:TO:N.
struct Range {
  double from_si = 0;
  double to_si = 0;
  int count = 1;
};

constexpr int kMostPoses = 2000;  ///< In one range.

Result<Range> parse_range(const std::string& text, const char* option, units::Dimension dimension,
                          const char* example) {
  const auto bad = [&](const std::string& why) {
    return fail("cli.bad_range", option, fmt::format("\"{}\": {}", text, why),
                fmt::format("FROM:TO:N, such as \"{}\"", example));
  };
  const std::size_t first = text.find(':'), last = text.rfind(':');
  if (first == std::string::npos || first == last) return bad("it needs two colons");
  Range range;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data() + last + 1, end, range.count);
  if (error != std::errc() || stop != end || range.count < 1 || range.count > kMostPoses) {
    return bad(fmt::format("the count must be a whole number from 1 to {}", kMostPoses));
  }
  const std::string parts[] = {text.substr(0, first), text.substr(first + 1, last - first - 1)};
  double values[2] = {0, 0};
  for (std::size_t i = 0; i < 2; ++i) {
    if (parts[i] == "0") continue;  // Zero needs no unit.
    const auto reading = units::parse_quantity(parts[i], dimension);
    if (!reading) return bad(reading.error().front().message);
    values[i] = reading->si;
  }
  range.from_si = values[0];
  range.to_si = values[1];
  return range;
}

int complain(const std::string& file, const Diagnostics& diagnostics) {
  print_diagnostics(file, diagnostics);
  return kUnusable;
}

int run(const SweepAsked& asked) {
  const auto heave =
      parse_range(asked.heave, "--heave", units::Dimension::kLength, "-3 in:3 in:13");
  if (!heave) return complain(asked.file, heave.error());
  const auto roll = parse_range(asked.roll, "--roll", units::Dimension::kAngle, "-5 deg:5 deg:11");
  if (!roll) return complain(asked.file, roll.error());
  const auto read = read_file(asked.file);
  if (!read) return complain(asked.file, read.error());
  const auto& build = read->build;
  const auto* axle = build::find(build.axles, asked.axle);
  if (axle == nullptr) {
    std::string known;
    for (const auto& entry : build.axles) known += (known.empty() ? "" : ", ") + entry.id;
    return complain(asked.file, fail("cli.unknown_axle", "/axles",
                                     fmt::format("there is no axle \"{}\"", asked.axle),
                                     known.empty() ? "the file has no axles" : "it has: " + known)
                                    .diagnostics);
  }
  const auto model = suspension::axle_from_build(*axle);
  if (!model) return complain(asked.file, model.error());
  if (!model->has_linkage) {
    Diagnostics lacks;
    for (const auto& missing : model->missing) {
      lacks.push_back({.code = "cli.missing",
                       .path = missing.path,
                       .message = missing.what + " is not told",
                       .remedy = "needed for " + missing.needed,
                       .at = {}});
    }
    if (lacks.empty()) {
      lacks = fail("cli.missing", axle->path, "the axle has no links", "add its links").diagnostics;
    }
    return complain(asked.file, lacks);
  }
  const auto weighed = weigh::weigh_state(build, build.ride_state.id);
  const auto truck = check::find_truck_numbers(weighed ? &*weighed : nullptr, axle->value);
  const auto targets = suspension::make_targets(heave->from_si, heave->to_si, heave->count,
                                                roll->from_si, roll->to_si, roll->count);
  const auto sweep = suspension::sweep_axle(model->model, truck, targets);
  if (!sweep) return complain(asked.file, sweep.error());
  fmt::print("{}", check::sweep_csv(model->model, *sweep));
  if (!sweep->locks.empty()) {
    const std::size_t lost = targets.size() - sweep->poses.size();
    const auto& lock = sweep->locks.front();
    std::string names;
    for (const int bar : lock.bars) {
      names += (names.empty() ? "" : ", ") + model->model.bars[static_cast<std::size_t>(bar)].name;
    }
    const bool one = lock.bars.size() == 1;
    fmt::print(stderr, "{} of {} poses can't be reached and {} left out: {} {}\n", lost,
               targets.size(), lost == 1 ? "is" : "are", names,
               lock.flips ? (one ? "passes dead centre" : "pass dead centre")
               : one      ? "has no reach left"
                          : "have no reach left");
    return kStops;
  }
  return kFine;
}

}  // namespace

Command add_sweep(CLI::App& program) {
  auto* app = program.add_subcommand(
      "sweep", "Follow one axle through bump and roll and write every pose as a table.");
  const auto asked = std::make_shared<SweepAsked>();
  app->add_option("FILE", asked->file, "The build file, NAME.rig.json")->required();
  app->add_option("--axle", asked->axle, "Id of the axle")->required();
  app->add_option("--heave", asked->heave,
                  "FROM:TO:N, such as \"-3 in:3 in:13\"; as drawn if left out");
  app->add_option("--roll", asked->roll,
                  "FROM:TO:N, such as \"-5 deg:5 deg:11\"; level if left out");
  app->add_flag("--csv", asked->csv, "Comma-separated values in SI units; the only form so far")
      ->required();
  app->footer(
      "Bump is + and a left wheel up is + roll. Columns are SI; link forces are with the springs' "
      "load, "
      "tension +. What needs a mass or spring that the file does not tell is left out.\n"
      "Exit code: 0 fine, 1 some poses can't be reached, 2 the file or what was asked can't be "
      "used.");
  return {app, [asked] { return run(*asked); }};
}

}  // namespace rig::cli
