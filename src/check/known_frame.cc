#include "check/known_frame.h"

#include <algorithm>

#include "base/side_by_side.h"

namespace rig::check {
namespace {

/// More sections than any frame has: what edit upon edit has left is let go then.
constexpr std::size_t kMostSections = 500;

/// The axles' stations are all that the measurement needs: without them it is only missing.
bool know_both_stations(const build::Build& build) {
  std::size_t known = 0;
  for (const auto& axle : build.axles) known += axle.value.station.known() ? 1U : 0U;
  return known == 2;
}

}  // namespace

KnownFrame::KnownFrame(const build::Build& of, const KnownFrame* last) : frame_(of) {
  has_axle_lines_ = know_both_stations(frame_.build());
  if (last == nullptr) return;
  if (last->sections_.size() < kMostSections) sections_ = last->sections_;
  if (!(frame_ == last->frame_)) return;
  states_ = last->states_;
  boxing_ = last->boxing_;
}

const KnownFrame::State& KnownFrame::with(const build::PartsIn& in) {
  const auto known = states_.find(in);
  return known != states_.end() ? known->second : states_.emplace(in, measure(in)).first->second;
}

void KnownFrame::measure_all(std::vector<build::PartsIn> wanted) {
  std::sort(wanted.begin(), wanted.end());
  wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
  std::erase_if(wanted, [&](const build::PartsIn& in) { return states_.contains(in); });
  auto measured =
      make_side_by_side(wanted.size(), [&](std::size_t i) { return measure(wanted[i]); });
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    states_.emplace(std::move(wanted[i]), std::move(measured[i]));
  }
}

KnownFrame::State KnownFrame::measure(const build::PartsIn& in) {
  auto made = frame::make_model(frame_.build(), in, sections_);
  if (!made) return {.told = std::nullopt, .faults = made.error()};
  const Shared<frame::Model> model(*std::move(made));
  State state{.told = FrameState{.id = {},
                                 .label = {},
                                 .path = {},
                                 .members = model->structure.members,
                                 .member_masses_kg = frame::calc_member_masses_kg(model->structure),
                                 .assumptions = model->assumptions,
                                 .whole = {}},
              .faults = {}};
  if (!has_axle_lines_) return state;
  const auto solver = frame::Solver::make(frame::structure_of(model));
  auto whole = solver ? frame::measure_whole_frame(*model, *solver)
                      : Result<frame::WholeFrame>(Failure{solver.error()});
  if (whole) {
    state.told->whole = *std::move(whole);
  } else {
    state.faults = whole.error();
  }
  return state;
}

const frame::BoxAdvice* KnownFrame::boxing() {
  if (!boxing_) {
    const auto planned = build::planned_parts(frame_.build().frame);
    boxing_ = frame::advise_boxing(frame_, planned, sections_);
  }
  return boxing_->has_value() ? &**boxing_ : nullptr;
}

}  // namespace rig::check
