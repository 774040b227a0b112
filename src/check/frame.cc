#include "check/frame.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "check/loaded_frame.h"
#include "frame/attachment_stress.h"

namespace rig::check {
namespace {

constexpr std::size_t kWorstPlaces = 12;

/// Masses that lie on the rails for want of mounts.
void list_laid_along(const build::Build& build, const frame::Model& model, const FrameCase& of,
                     FrameReport& out) {
  const auto laid = frame::lay_burdens(model, build, of.burdens, {.a_V = of.a_W});
  for (std::size_t i = 0; i < of.burdens.size(); ++i) {
    const auto* mass = build::find(build.masses, of.burdens[i].id);
    if (mass == nullptr || laid.bearings[i] == frame::Bearing::mounts) continue;
    if (mass->id == build.frame.own_mass.id) continue;  // It is the rails.
    out.laid_along.push_back(mass->value.label.empty() ? mass->id : mass->value.label);
    out.laid_along_kg += of.burdens[i].mass_kg;
  }
}

}  // namespace

StressPlace make_stress_place(const frame::Model& model, const frame::WorstPlace& worst,
                              const std::string& case_id, const units::UnitChoices& units) {
  return {.where = frame::describe_place(model, worst.at, worst.stress.at, units),
          .path = model.beams[static_cast<std::size_t>(worst.at.beam)].path,
          .case_id = case_id,
          .von_mises_Pa = worst.stress.von_mises_Pa,
          .axial_Pa = worst.stress.axial_Pa,
          .yield_Pa = worst.yield_Pa,
          .near_joint = worst.near_joint,
          .distorts = worst.distorts,
          .sign = model.beams[static_cast<std::size_t>(worst.at.beam)].sign,
          .along_m = frame::place_along_m(model, worst.at)};
}

double FrameState::mass_kg() const {
  return std::accumulate(member_masses_kg.begin(), member_masses_kg.end(), 0.0);
}

const FrameState* FrameReport::state(const std::string& id) const {
  const auto found = std::find_if(states.begin(), states.end(),
                                  [&](const FrameState& state) { return state.id == id; });
  return found == states.end() ? nullptr : &*found;
}

double FrameReport::twist_stiffness_Nm_per_rad() const {
  const FrameState* planned = state("planned");
  return planned == nullptr || !planned->whole ? kNaN
                                               : planned->whole->torsion.stiffness_Nm_per_rad;
}

void add_frame(const build::Build& build, Thorough thorough, KnownFrame& known, Report& report) {
  if (build.frame.rails.empty()) return;
  if (build.frame.crossmembers.empty()) {
    report.missing.push_back({"/frame/crossmembers", "the crossmembers between the rails",
                              "how stiff the frame is and where it is stressed"});
    return;
  }
  FrameReport out;
  const auto add = [&](std::string id, std::string label, std::string path,
                       const build::PartsIn& in) {
    const KnownFrame::State& state = known.with(in);
    report.add_faults(state.faults);
    if (!state.told) return;
    out.states.push_back(*state.told);
    out.states.back().id = std::move(id);
    out.states.back().label = std::move(label);
    out.states.back().path = std::move(path);
  };
  const bool all = thorough != Thorough::kVerdictsOnly;
  if (all) {
    // Most sections are in the planned frame: the others find them solved.
    known.with(build::planned_parts(build.frame));
    std::vector<build::PartsIn> others{build::donor_parts(build.frame)};
    for (std::size_t stage = 1; stage <= build.frame.stages.size(); ++stage) {
      others.push_back(build::parts_after(build.frame, stage));
    }
    known.measure_all(std::move(others));
  }
  if (all) add("donor", "As it came", "/frame", build::donor_parts(build.frame));
  add("planned", "As planned", "/frame", build::planned_parts(build.frame));
  std::size_t count = 0;
  for (const auto& stage : build.frame.stages) {
    if (!all) break;
    add("stage." + stage.id, stage.value.label.empty() ? stage.id : stage.value.label, stage.path,
        build::parts_after(build.frame, ++count));
  }
  if (!known.has_axle_lines()) {
    report.missing.push_back({"/axles", "the stations of both axles", "how stiff the frame is"});
  }
  report.frame = std::move(out);
}

void add_frame_cases(const build::Build& build, FrameCases cases, frame::SectionBook& book,
                     Report& report) {
  if (!report.frame || report.frame->state("planned") == nullptr) return;
  FrameReport& out = *report.frame;
  for (const auto& [label, why] : cases.left_out) out.left_out.push_back({label, why});
  if (cases.cases.empty()) {
    report.missing.push_back({"/masses", "a truck that settles on its wheels",
                              "what the frame carries and where it is stressed"});
    return;
  }
  Diagnostics faults;
  auto loaded =
      load_frame(build, build::planned_parts(build.frame), std::move(cases.cases), book, faults);
  report.add_faults(faults);
  if (!loaded) {
    report.add_faults(loaded.error());
    return;
  }
  out.loaded = std::make_shared<const LoadedFrame>(*std::move(loaded));
}

void add_frame_stresses(const build::Build& build, const Printer& print, Report& report) {
  if (!report.frame || !report.frame->loaded) return;
  FrameReport& out = *report.frame;
  const auto& [shared, solver, laid, loads, responses] = *out.loaded;
  const frame::Model& model = shared;
  const auto forces = frame::calc_case_forces(model.structure, loads, responses);
  const auto worst_of = frame::find_worst_of_cases(model, forces, kWorstPlaces, 1);
  for (const auto& worst : worst_of.all) {
    out.worst.push_back(make_stress_place(model, worst, laid[worst.load_case].id, print.choices()));
  }
  for (const auto& one : frame::find_attachment_stresses(model, forces)) {
    const frame::Attachment& of = model.attachments[one.attachment];
    out.points.push_back({.label = of.words,
                          .path = of.path,
                          .sign = of.sign,
                          .stress = make_stress_place(
                              model, one.worst, laid[one.worst.load_case].id, print.choices())});
  }
  const auto ends = frame::list_plate_ends(build, build::planned_parts(build.frame));
  out.plate_ends = frame::find_end_stresses(model, ends, forces);
  for (const auto& hole : frame::find_hole_stresses(model, build.frame, forces)) {
    out.holes.push_back({laid[hole.load_case].id, hole});
  }
  for (std::size_t i = 0; i < laid.size(); ++i) {
    FrameCaseReport told{.id = laid[i].id,
                         .label = laid[i].label,
                         .basis = laid[i].basis,
                         .state = laid[i].state,
                         .worst = {}};
    for (const auto& place : worst_of.each[i]) {
      told.worst.push_back(make_stress_place(model, place, laid[i].id, print.choices()));
    }
    out.cases.push_back(std::move(told));
  }
  if (!laid.empty()) list_laid_along(build, model, laid.front(), out);
}

}  // namespace rig::check
