#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "check/report.h"

namespace rig::check {

/// The report as JSON text, exactly docs/api.md "report".
std::string report_json(const build::Build& build, const Report& report);

/// What is asked of a trial.
struct TrialAsked {
  Work work = Work::kWeigh;
  std::string axle;  ///< The axle that the sheet shows; empty: all.
};

/// What `check_work` has found of one work as JSON text, exactly docs/api.md "trial".
std::string trial_json(const build::Build& build, const Report& report, const TrialAsked& asked);

/// The key of a work in docs/api.md: "weigh" ...
const char* work_name(Work work);

/// The work of a key, if there is one.
std::optional<Work> find_work(std::string_view name);

/// The units object of docs/api.md, for axis ticks.
std::string units_json(const build::Units& units);

/// A list of diagnostics as JSON text.
std::string diagnostics_json(const Diagnostics& diagnostics);

}  // namespace rig::check
