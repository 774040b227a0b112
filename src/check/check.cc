#include <fmt/format.h>

#include <algorithm>
#include <future>
#include <iterator>

#include "base/side_by_side.h"
#include "check/articulation.h"
#include "check/axles.h"
#include "check/drivetrain.h"
#include "check/findings.h"
#include "check/frame.h"
#include "check/missing.h"
#include "check/report.h"
#include "check/rows.h"
#include "check/settle_states.h"
#include "check/summary.h"
#include "check/truck.h"
#include "check/workings.h"

namespace rig::check {
namespace {

void drop_repeats(Diagnostics& diagnostics) {
  Diagnostics kept;
  for (auto& diagnostic : diagnostics) {
    const bool known = std::any_of(kept.begin(), kept.end(), [&](const Diagnostic& k) {
      return k.code == diagnostic.code && k.path == diagnostic.path &&
             k.message == diagnostic.message;
    });
    if (!known) kept.push_back(std::move(diagnostic));
  }
  diagnostics = std::move(kept);
}

Axles model_axles(const build::Build& build, Report& report) {
  Axles axles;
  for (const auto end : {build::End::kFront, build::End::kRear}) {
    const build::Entry<build::Axle>* found = nullptr;
    for (const auto& axle : build.axles) {
      if (axle.value.end == end) found = &axle;
    }
    if (found == nullptr) {
      const char* which = end == build::End::kFront ? "front" : "rear";
      report.missing.push_back(
          {"/axles", fmt::format("a {} axle", which), "axle loads and how the truck sits"});
      continue;
    }
    axles.entries.push_back(found);
    auto model = suspension::axle_from_build(*found);
    if (!model) {
      report.add_faults(model.error());
      axles.models.emplace_back();
      continue;
    }
    report.missing.insert(report.missing.end(), model->missing.begin(), model->missing.end());
    axles.models.emplace_back(std::move(*model));
  }
  return axles;
}

void articulate(Report& report) {
  const StateReport* ride = report.ride();
  if (ride == nullptr || !ride->settled || !ride->weigh.footing) return;
  auto [ramp, cross] = find_articulation(*ride);
  if (ramp) {
    report.ramp = std::move(*ramp);
  } else {
    report.add_faults(ramp.error());
  }
  if (cross) {
    report.cross_axle = std::move(*cross);
  } else {
    report.add_faults(cross.error());
  }
}

/// The axles over their travel, and what the ride state makes of them.
void add_axles(const build::Build& build, const Axles& axles, const Printer& print,
               Report& report) {
  struct Swept {
    std::optional<AxleReport> axle;
    Diagnostics diagnostics;
    std::vector<Missing> missing;
  };
  const StateReport* ride = report.ride();
  auto swept = make_side_by_side(axles.entries.size(), [&](std::size_t a) {
    Swept out;
    if (!axles.models[a]) return out;
    out.axle = sweep_for_report(
        *axles.entries[a], *axles.models[a],
        find_truck_numbers(ride == nullptr ? nullptr : &ride->weigh, axles.entries[a]->value),
        out.diagnostics, out.missing);
    return out;
  });
  for (Swept& one : swept) {
    if (!one.axle) continue;
    report.axles.push_back(*std::move(one.axle));
    report.add_faults(one.diagnostics);
    report.missing.insert(report.missing.end(), one.missing.begin(), one.missing.end());
  }
  if (ride == nullptr || report.axles.size() != 2) return;
  for (std::size_t a = 0; a < 2; ++a) add_ride_numbers(*ride, a, report.axles[a]);
  add_spring_seats(build, *ride, print, report.axles, report.diagnostics);
}

}  // namespace

const weigh::Standing* StateReport::standing() const { return weigh.standing(); }

double StateReport::mass_plus_minus_kg() const {
  if (weigh.scaled && weigh.scaled->standing) return weigh.scaled->mass_plus_minus_kg;
  return weigh.spread.mass_plus_minus_kg;
}

void Report::add_faults(const Diagnostics& faults) {
  diagnostics.insert(diagnostics.end(), faults.begin(), faults.end());
}

const StateReport* Report::state(const std::string& wanted) const {
  for (const auto& state : states) {
    if (state.id == wanted) return &state;
  }
  return nullptr;
}

const AxleReport* Report::axle(const std::string& wanted) const {
  for (const auto& axle : axles) {
    if (axle.id == wanted) return &axle;
  }
  return nullptr;
}

const Finding* Report::finding(std::string_view wanted) const {
  for (const auto& one : findings) {
    if (one.id == wanted) return &one;
  }
  return nullptr;
}

namespace {

/// What is worked out and told.
struct Scope {
  Thorough thorough = Thorough::kWithAdvice;
  std::optional<Work> only;  ///< Nothing: all works.

  bool tells(Work work) const { return !only || *only == work; }
  bool has_frame_cases() const {
    return tells(Work::kFrame) && thorough != Thorough::kVerdictsOnly;
  }
  /// What each stage's cuts do is a fifth of all the work.
  bool has_stages() const { return has_frame_cases() && !only; }
  /// Some of the frame's cases are those of the articulation.
  bool has_articulation() const { return tells(Work::kAxles) || tells(Work::kFrame); }
  /// The shafts follow the axles.
  bool has_axles() const { return tells(Work::kAxles) || tells(Work::kDrivetrain); }
  bool has_drivetrain() const {
    return tells(Work::kDrivetrain) && thorough != Thorough::kVerdictsOnly;
  }
};

Report run(const build::Build& build, const Scope& scope, const Report* last) {
  Report report;
  report.name = build.name;
  report.notice = build.notice;
  report.ride_state = build.ride_state.id;
  const Printer print(build.units);
  list_missing_parts(build, report);
  const Axles axles = model_axles(build, report);
  KnownFrame known(build, last == nullptr ? nullptr : last->known_frame.get());
  std::future<frame::StageFrames> stage_frames;
  if (scope.has_stages() && !build.frame.rails.empty()) {
    stage_frames = begin_stage_frames(build, known.sections());
  }
  // What other works ask of the frame is how much it twists as planned.
  add_frame(build, scope.has_frame_cases() ? scope.thorough : Thorough::kVerdictsOnly, known,
            report);
  settle_states(build, axles, report);
  if (scope.has_articulation()) articulate(report);
  std::future<SolvedStages> stages;
  if (report.frame && scope.has_frame_cases()) {
    FrameCases cases = make_frame_cases(build, report);
    if (scope.has_stages() && report.frame->state("donor") != nullptr) {
      // Nothing but the last findings asks for it.
      stages = std::async(std::launch::async, solve_stages, std::cref(build),
                          std::cref(report.states), find_standing(cases, build.ride_state.id),
                          print, std::move(stage_frames), known.sections());
    }
    add_frame_cases(build, std::move(cases), known.sections(), report);
    add_frame_stresses(build, print, report);
  }
  if (scope.has_axles()) add_axles(build, axles, print, report);
  if (scope.has_drivetrain()) add_drivetrain(build, known.sections(), report);
  const Limits limits = resolve_limits(build.limits);
  const auto subject_of = [&](std::vector<Finding>& findings) {
    return Subject{.build = build,
                   .print = print,
                   .limits = limits,
                   .report = report,
                   .known_frame = known,
                   .findings = findings,
                   .advise = scope.thorough == Thorough::kWithAdvice};
  };
  std::vector<Work> works;
  for (const Work work : {Work::kWeigh, Work::kAxles, Work::kFrame, Work::kDrivetrain}) {
    if (scope.tells(work)) works.push_back(work);
  }
  auto by_work = make_side_by_side(works.size(), [&](std::size_t i) {
    std::vector<Finding> found;
    add_findings(subject_of(found), works[i]);
    return found;
  });
  std::vector<Finding> findings;
  for (auto& found : by_work) {
    std::move(found.begin(), found.end(), std::back_inserter(findings));
  }
  if (stages.valid()) {
    add_stages(build, stages.get(), report);
    add_stage_findings(subject_of(findings));
  }
  take_findings(std::move(findings), report);
  report.known_frame = std::make_shared<const KnownFrame>(std::move(known));
  if (scope.thorough == Thorough::kVerdictsOnly) return report;
  if (scope.tells(Work::kAxles)) {
    for (auto& axle : report.axles) {
      add_rows_and_curves(build, print, axle);
      explain_rows(print, axle);
      explain_seats(print, axle);
    }
  }
  if (scope.tells(Work::kWeigh)) {
    for (auto& state : report.states) explain_state(print, state);
  }
  add_summaries(print, report);
  order_missing(report);
  drop_repeats(report.diagnostics);
  return report;
}

}  // namespace

Report check(const build::Build& build, Thorough thorough, const Report* last) {
  return run(build, {.thorough = thorough, .only = {}}, last);
}

Report check_work(const build::Build& build, Work work, const Report* last) {
  return run(build, {.thorough = Thorough::kWithoutAdvice, .only = work}, last);
}

}  // namespace rig::check
