#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "base/nan.h"
#include "build/types.h"
#include "check/frame_report.h"
#include "check/printer.h"
#include "suspension/from_build.h"
#include "suspension/settle.h"
#include "suspension/spring_seats.h"
#include "suspension/sweep.h"
#include "weigh/weigh.h"

/// Runs the flow on one build and gathers what there is to say. Rules: docs/findings.md.
namespace rig::check {

/// `kGood` inside the limit; `kLook` inside but close, or an assumption decides it; `kStop`
/// outside.
enum class Verdict { kGood, kLook, kStop };

/// Whether a limit is the least or the most that is allowed.
enum class Edge { kUnsaid, kLeast, kMost };

/// One line of a working: formula in symbols, the same with values and the result.
struct WorkingStep {
  std::string formula;  ///< "L = L0 - F / k"
  std::string with_values;
  std::string source;                    ///< Equation, clause, or "common practice".
  std::vector<std::string> input_paths;  ///< JSON pointers of the inputs it came from.
};

/// One checked statement. Every one that is not good ends in advice a builder can act on.
struct Finding {
  std::string id;  ///< Stable: "height.front.left", "shock.rear.bump" ...
  Verdict verdict = Verdict::kLook;
  std::string subject;   ///< "Left front shock"
  std::string sentence;  ///< "Tops out 1 1/4 in before the wanted droop."
  std::optional<Number> value;
  std::optional<Number> limit;
  Edge edge = Edge::kUnsaid;  ///< Which way the limit holds.
  std::string basis;          ///< Where the limit comes from.
  std::string advice;         ///< What to do, with a number.
  std::string assumption;     ///< Set when an assumption decides it: then never `kGood`.
  std::string path;           ///< JSON pointer of the thing it is about.
  std::string work;  ///< "weigh", "axles", "frame" or "drivetrain": the sheet it belongs to.
  std::vector<WorkingStep> working;
};

/// A number opened: what it is, what is usual (common practice unless it names a source), how it
/// came about.
struct Explained {
  std::string id;
  std::string label;
  std::string explain;
  std::string usual;
  std::vector<WorkingStep> working;
};

struct StateReport {
  std::string id;
  std::string label;
  weigh::WeighResult weigh;
  std::optional<suspension::TruckModel> truck;  ///< Absent when something it needs is missing.
  std::optional<suspension::Settled> settled;   ///< On flat ground, seats as drawn.
  std::vector<Explained> explained;

  /// The calibrated truck when there were scale readings, else the estimate.
  const weigh::Standing* standing() const;
  double mass_plus_minus_kg() const;
};

struct SeatReport {
  suspension::CoilSpring coil;
  suspension::SpringSeat seat;
  std::string sentence;  ///< "Tack the left front upper seat at 14 11/16 in."
  std::vector<WorkingStep> working;
};

/// One number of an axle as drawn or over its travel.
struct Row {
  std::string id;
  std::string label;
  Number value;
  std::optional<Number> low;  ///< Limits, where there are any.
  std::optional<Number> high;
  std::string finding;  ///< Id of the finding that judges it; empty: none.
  std::string explain;
  std::string usual = {};                 ///< Common practice unless it names a source.
  std::vector<WorkingStep> working = {};  ///< Empty where the finding has it.
};

struct Curve {
  std::string id;
  std::string label;
  std::string x_label;
  std::vector<double> x, y;  ///< SI.
  units::Dimension x_dimension = units::Dimension::kLength;
  units::Dimension y_dimension = units::Dimension::kLength;
  double low = kNaN;  ///< NaN: no limit.
  double high = kNaN;
};

/// What the shop calls a part, by its place in the file.
struct PartLabel {
  std::string path;
  std::string label;  ///< The file's label, or the id.
};

struct AxleReport {
  std::string id;
  std::string label;
  std::string path;
  std::vector<PartLabel> labels;  ///< Of its links, springs, shocks ...
  bool front = true;
  suspension::AxleModel model;
  suspension::TruckNumbers truck;
  bool has_linkage = false;
  std::vector<suspension::WorkedOut> worked_out;  ///< Rates from wire and leaves.
  double bump_m = kNaN;                           ///< Wanted; NaN: not given.
  double droop_m = kNaN;
  double roll_rad = kNaN;  ///< One wheel up, one down, C still.

  std::optional<suspension::SweptPose> drawn;
  suspension::Sweep bump;     ///< Heave from full droop to full bump, no roll.
  suspension::Sweep roll;     ///< Roll at drawn height.
  suspension::Sweep crossed;  ///< From drawn to one wheel at full bump, the other at full droop.
  std::vector<SeatReport> seats;

  double sprung_per_wheel_kg = kNaN;  ///< Ride state.
  double ride_rate_N_per_m = kNaN;    ///< Spring and tyre in series.
  double ride_frequency_Hz = kNaN;
  double hop_frequency_Hz = kNaN;  ///< Of the axle between its springs and tyres.
  double damping_ratio = kNaN;
  std::vector<double> bar_forces_N;  ///< In the ride state.

  std::vector<Row> rows;
  std::vector<Curve> curves;
};

class KnownFrame;
struct DrivetrainReport;

/// Everything the program has to say about one build.
struct Report {
  std::string name;
  std::string notice;
  std::vector<std::string> weigh_summary, axles_summary, frame_summary, drivetrain_summary;
  Diagnostics diagnostics;  ///< Faults met on the way that stop a part of the work.
  std::vector<Missing> missing;
  std::vector<StateReport> states;
  std::string ride_state;  ///< Id; empty: none.
  std::vector<AxleReport> axles;
  std::optional<suspension::Articulation> ramp;
  std::optional<suspension::Articulation> cross_axle;
  std::optional<FrameReport> frame;  ///< Absent without rails.
  /// Absent while nothing is told of it; check/drivetrain_report.h.
  std::shared_ptr<const DrivetrainReport> drivetrain;
  std::vector<Finding> findings;                  ///< Worst first, then by sheet and axle.
  std::shared_ptr<const KnownFrame> known_frame;  ///< For the next check.

  /// Takes up faults; what is told twice is dropped at the end.
  void add_faults(const Diagnostics& faults);

  const StateReport* state(const std::string& id) const;
  const StateReport* ride() const { return state(ride_state); }
  const AxleReport* axle(const std::string& id) const;
  const Finding* finding(std::string_view id) const;
};

/// Whether to search for what to move where a finding asks for it, which is half of the work, and
/// to fill rows, curves, workings and summaries; else findings and what they rest on. For verdicts
/// only, as many builds in a row are tried, what the frame carries is left out too.
enum class Thorough { kWithAdvice, kWithoutAdvice, kVerdictsOnly };

/// What the page has a sheet for.
enum class Work { kWeigh, kAxles, kFrame, kDrivetrain };

/// Runs the whole flow. Never fails: what can't be done is in `diagnostics` and `missing`.
/// @param last  A report of an earlier build, or null. What rests on nothing but parts that are
///              still alike is taken from it: the answer is the same, sooner.
Report check(const build::Build& build, Thorough thorough = Thorough::kWithAdvice,
             const Report* last = nullptr);

/// A check without advice for as long as a hand moves something: what the sheet of one work tells,
/// and what that rests on. Every number of it is the whole check's; what it leaves out is what
/// other sheets tell, and what the stages of the frame's work do. docs/design/serve.md.
Report check_work(const build::Build& build, Work work, const Report* last);

}  // namespace rig::check
