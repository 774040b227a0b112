#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "build/types.h"
#include "suspension/settle.h"
#include "suspension/spring_seats.h"
#include "suspension/sweep.h"
#include "units/quantity.h"
#include "weigh/weigh.h"

namespace rig::check {

/// `kGood` inside the limit; `kLook` inside but close, or an assumption decides it; `kStop` outside.
enum class Verdict { kGood, kLook, kStop };

/// A value with what it measures, so that it can be printed in the build's units.
struct Number {
  double si = 0;
  units::Dimension dimension = units::Dimension::kRatio;
};

/// One line of a working: formula in symbols, the same with values, the result.
struct WorkingStep {
  std::string formula;   ///< "L = L0 - F / k"
  std::string with_values;
  std::string source;    ///< Equation, clause, or "common practice".
  std::vector<std::string> input_paths;  ///< JSON pointers of the inputs it came from.
};

/// One checked statement. Every one ends in advice a builder can act on.
struct Finding {
  std::string id;         ///< Stable: "sits.front.left", "shock.rear.bump" ...
  Verdict verdict = Verdict::kLook;
  std::string subject;    ///< "Left front shock"
  std::string sentence;   ///< "Tops out 1 1/4 in before the wanted droop."
  std::optional<Number> value;
  std::optional<Number> limit;
  std::string basis;      ///< Where the limit comes from.
  std::string advice;     ///< What to do, with a number.
  std::string assumption; ///< Set when an assumption decides it: then never `kGood`.
  std::string path;       ///< JSON pointer of the thing it is about.
  std::string work;       ///< "weigh" or "axles": the sheet it belongs to.
  std::vector<WorkingStep> working;
};

struct StateReport {
  std::string id;
  std::string label;
  weigh::WeighResult weigh;
  std::optional<suspension::Settled> settled;
};

struct SeatReport {
  std::string axle_id;
  suspension::CoilSpring coil;
  suspension::SpringSeat seat;
  double ride_frequency_Hz = 0;  ///< NaN: not known.
};

struct AxleReport {
  std::string id;
  std::string label;
  suspension::AxleModel model;
  suspension::Sweep bump;                     ///< Heave from full droop to full bump, no roll.
  suspension::Sweep roll;                     ///< Roll at drawn height.
  std::vector<SeatReport> seats;
  double ride_frequency_Hz = 0;               ///< NaN: not known.
  double damping_ratio = 0;                   ///< NaN: not known.
};

/// Everything the program has to say about one build.
struct Report {
  std::string name;
  std::string notice;
  Diagnostics diagnostics;        ///< Faults met on the way that stop a part of the work.
  std::vector<Missing> missing;
  std::vector<StateReport> states;
  std::vector<AxleReport> axles;
  std::optional<suspension::TruckModel> truck;         ///< At ride state.
  std::optional<suspension::Articulation> ramp;
  std::optional<suspension::Articulation> cross_axle;
  std::vector<Finding> findings;  ///< Worst and surest first.
};

/// Runs the whole flow. Never fails: what can't be done is in `diagnostics` and `missing`.
Report check(const build::Build& build);

}  // namespace rig::check
