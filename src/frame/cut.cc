#include "frame/cut.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "base/require.h"
#include "base/side_by_side.h"
#include "frame/stage_state_internal.h"
#include "frame/stage_verdict_internal.h"

namespace rig::frame {

namespace {

/// What is in of the parts, before, between and after a stage's work.
struct StageParts {
  Selection before, with, after;
};

StageParts parts_of(const build::Frame& frame, std::size_t stage) {
  StageParts out{build::parts_after(frame, stage), {}, build::parts_after(frame, stage + 1)};
  out.with = out.before;
  for (const auto& part : frame.stages[stage].value.put_in) out.with.insert(part.id);
  return out;
}

/// Paths of the temporary parts among those that are in.
std::vector<std::string> list_braces(const build::Frame& frame, const Selection& in) {
  std::vector<std::string> paths;
  const auto list = [&](const auto& map) {
    for (const auto& entry : map) {
      if (entry.value.fate == build::Fate::kTemporary && in.contains(entry.id)) {
        paths.push_back(entry.path);
      }
    }
  };
  list(frame.crossmembers);
  list(frame.plates);
  return paths;
}

Selection without_braces(const build::Frame& frame, Selection in) {
  for (const std::string& path : list_braces(frame, in)) {
    in.erase(path.substr(path.rfind('/') + 1));
  }
  return in;
}

std::optional<double> ratio(double with, double without) {
  if (without == 0) return std::nullopt;
  return std::abs(with / without);
}

}  // namespace

std::optional<double> StageCut::height_ratio() const {
  if (!without_brace) return std::nullopt;
  return ratio(change.height.change_m, without_brace->height.change_m);
}

std::optional<double> StageCut::diagonals_ratio() const {
  if (!without_brace || !change.diagonals || !without_brace->diagonals) return std::nullopt;
  return ratio(change.diagonals->difference_m(), without_brace->diagonals->difference_m());
}

std::optional<double> StageCut::stress_ratio() const {
  if (!without_brace) return std::nullopt;
  return ratio(change.stress.worst.von_mises_Pa, without_brace->stress.worst.von_mises_Pa);
}

namespace {

/// A frame before a stage's cuts.
struct Moment {
  FrameState before;
  History history;  ///< With what the stage has put in.
};

/// What a stage does, but for its stress before.
struct Seen {
  StageCut cut;
  std::optional<StageStress> next;  ///< That the stage after it begins with.
};

/// The stages one by one, each from what those before have left.
class StageWalk {
 public:
  StageWalk(const build::Build& build, const StageModels& models, const WeightsOf& weights,
            const StageOptions& options)
      : build_(build), models_(models), weights_(weights), options_(options) {}

  /// The frame before a stage; what the stage puts in joins the history.
  Result<FrameState> put_in(std::size_t stage, History& history) const {
    const StageParts parts = parts_of(build_.frame, stage);
    auto before = solve(stage, parts.before, history);
    if (before) add_history(models_, *before, models_.with(parts.with), history);
    return before;
  }

  /// @param next  What the next stage begins with, or null.
  Result<Seen> cut(std::size_t stage, const Moment& now, const FrameState* next) const {
    const StageParts parts = parts_of(build_.frame, stage);
    const FrameState& before = now.before;
    const auto after = solve(stage, parts.after, now.history, next);
    if (!after) return Failure{after.error()};
    StageCut out{.stands = before.stand_points,
                 .stands_before = before.stands,
                 .stress_before = {},
                 .parts = list_cut_parts(build_, stage, models_, before, *after, options_.units),
                 .change = compare(stage, before, *after),
                 .braces = list_braces(build_.frame, parts.after)};
    if (!out.braces.empty()) {
      const auto bare = solve(stage, without_braces(build_.frame, parts.after), now.history);
      if (!bare) return Failure{bare.error()};
      out.without_brace = compare(stage, before, *bare);
    }
    judge_stage(options_, stage, before.on->model, after->on->model, out);
    Seen seen{std::move(out), {}};
    if (next != nullptr) {
      seen.next = is_same(*after, *next) ? seen.cut.change.stress
                                         : find_stage_stress(*next, options_.units);
    }
    return seen;
  }

 private:
  Result<FrameState> solve(std::size_t stage, const Selection& in, const History& history,
                           const FrameState* alike = nullptr) const {
    return solve_state(build_, stage, models_, in, history, weights_, options_, alike);
  }

  StageChange compare(std::size_t stage, const FrameState& before, const FrameState& after) const {
    return {.stands = after.stands,
            .height = find_height_change(models_, before, after, options_.units),
            .diagonals = calc_diagonal_change(before, after, build_.frame.stages[stage].path),
            .stress = find_stage_stress(after, options_.units)};
  }

  const build::Build& build_;
  const StageModels& models_;
  const WeightsOf& weights_;
  const StageOptions& options_;
};

/// What is in at any time of the first stages.
std::vector<StageSet> list_sets(const build::Frame& frame, std::size_t stages) {
  std::vector<StageSet> sets;
  for (std::size_t k = 0; k < stages; ++k) {
    const StageParts parts = parts_of(frame, k);
    sets.insert(sets.end(), {{parts.before},
                             {.in = parts.with, .is_solved = false},
                             {parts.after},
                             {without_braces(frame, parts.after)}});
  }
  return sets;
}

}  // namespace

struct StageFrames::Impl {
  std::size_t stages = 0;
  Result<StageModels> models;  ///< Of the stages before the first that can't be made.
  std::size_t sound = 0;       ///< How many these are.
  Diagnostics why;             ///< What stops the first that can't.
};

StageFrames::StageFrames(const build::Build& build, std::size_t stages, SectionBook& book) {
  RIG_REQUIRE(stages <= build.frame.stages.size());
  const auto make = [&](std::size_t of) {
    return StageModels::make(build, list_sets(build.frame, of), book);
  };
  Impl impl{.stages = stages, .models = make(stages), .sound = stages, .why = {}};
  // What stops a later stage is no reason not to tell of those before it.
  while (!impl.models && impl.sound > 0) {
    impl.why = impl.models.error();
    impl.models = make(--impl.sound);
  }
  impl_ = std::make_shared<const Impl>(std::move(impl));
}

std::size_t StageFrames::stages() const { return impl_->stages; }

Result<StageCut> solve_cut(const build::Build& build, std::size_t stage, const WeightsOf& weights,
                           const StageOptions& options) {
  RIG_REQUIRE(stage < build.frame.stages.size());
  SectionBook book;
  const auto models = StageModels::make(build, list_sets(build.frame, stage + 1), book);
  if (!models) return Failure{models.error()};
  const StageWalk walk(build, *models, weights, options);
  History history;
  for (std::size_t k = 0; k < stage; ++k) {
    if (build.frame.stages[k].value.put_in.empty()) continue;
    if (const auto passed = walk.put_in(k, history); !passed) return Failure{passed.error()};
  }
  auto before = walk.put_in(stage, history);
  if (!before) return Failure{before.error()};
  const Moment now{*std::move(before), std::move(history)};
  auto seen = walk.cut(stage, now, nullptr);
  if (!seen) return Failure{seen.error()};
  seen->cut.stress_before = find_stage_stress(now.before, options.units);
  return std::move(seen->cut);
}

std::vector<Result<StageCut>> solve_cuts(const build::Build& build, const StageFrames& frames,
                                         const WeightsOf& weights, const StageOptions& options) {
  const StageFrames::Impl& made = *frames.impl_;
  Diagnostics why = made.why;
  const StageWalk walk(build, *made.models, weights, options);
  std::vector<Moment> moments;
  History history;
  while (moments.size() < made.sound) {
    auto before = walk.put_in(moments.size(), history);
    if (!before) {
      why = before.error();
      break;
    }
    moments.push_back({*std::move(before), history});
  }
  auto seen = make_side_by_side(moments.size(), [&](std::size_t k) {
    return walk.cut(k, moments[k], k + 1 < moments.size() ? &moments[k + 1].before : nullptr);
  });
  std::vector<Result<StageCut>> out;
  std::optional<StageStress> stress;
  if (!moments.empty()) stress = find_stage_stress(moments.front().before, options.units);
  for (auto& one : seen) {
    if (!one) {
      why = one.error();
      break;
    }
    one->cut.stress_before = *stress;
    stress = std::move(one->next);
    out.emplace_back(std::move(one->cut));
  }
  while (out.size() < made.stages) out.emplace_back(Failure{why});
  return out;
}

}  // namespace rig::frame
