#include "frame/cut.h"

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "frame/stage_state_internal.h"

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

/// Gathers what speaks against a stage.
class Judge {
 public:
  Judge(const StageOptions& options, std::size_t stage, StageCut& cut)
      : options_(options), stage_(stage), cut_(cut) {}

  void run(const Model& before, const Model& after) {
    const StageStress& stress = cut_.change.stress;
    const double most = 1 / options_.limits.yield_factor;
    if (const auto& place = stress.closest_to_yield;
        place && place->von_mises_Pa > most * place->yield_Pa) {
      add(StageVerdict::stop,
          {StageReasonKind::near_yield, place->path, place->von_mises_Pa, most * place->yield_Pa});
    }
    if (!cut_.parts.empty()) judge_movement();
    if (std::isnan(stress.worst.yield_Pa)) {
      add(StageVerdict::look,
          {StageReasonKind::yield_unknown, stress.worst.path, stress.worst.von_mises_Pa, kNaN});
    }
    for (const Assumption& one : before.assumptions) {
      const bool decides = one.path.ends_with("/fastening") &&
                           std::any_of(cut_.parts.begin(), cut_.parts.end(), [&](const auto& part) {
                             return one.path == part.path + "/fastening";
                           });
      if (decides) add(StageVerdict::look, {StageReasonKind::bolted_joint, one.path, kNaN, kNaN});
    }
    const auto& unknown = options_.unknown_weights;
    if (std::find(unknown.begin(), unknown.end(), stage_) != unknown.end()) {
      add(StageVerdict::look, {StageReasonKind::weights_unknown, "", kNaN, kNaN});
    }
    if (!options_.unheld_on) return;
    for (std::string& path : options_.unheld_on(after, stage_)) {
      add(StageVerdict::look, {StageReasonKind::not_held, std::move(path), kNaN, kNaN});
    }
  }

 private:
  void judge_movement() {
    const StageVerdict verdict = cut_.braces.empty() ? StageVerdict::stop : StageVerdict::look;
    const HeightChange& height = cut_.change.height;
    if (std::abs(height.change_m) > options_.limits.height_m) {
      add(verdict,
          {StageReasonKind::moves, height.rail, height.change_m, options_.limits.height_m});
    }
    const auto& diagonals = cut_.change.diagonals;
    if (diagonals && std::abs(diagonals->difference_m()) > options_.limits.diagonals_m) {
      add(verdict, {StageReasonKind::goes_out_of_square, "", diagonals->difference_m(),
                    options_.limits.diagonals_m});
    }
  }

  void add(StageVerdict verdict, StageReason reason) {
    const bool told = std::any_of(
        cut_.reasons.begin(), cut_.reasons.end(),
        [&](const StageReason& r) { return r.kind == reason.kind && r.path == reason.path; });
    if (told) return;
    cut_.verdict = std::max(cut_.verdict, verdict);
    cut_.reasons.push_back(std::move(reason));
  }

  const StageOptions& options_;
  std::size_t stage_;
  StageCut& cut_;
};

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

/// Goes through the stages in order, each from what those before have left.
class StageWalk {
 public:
  StageWalk(const build::Build& build, const StageModels& models, const WeightsOf& weights,
            const StageOptions& options)
      : build_(build), models_(models), weights_(weights), options_(options) {}

  /// Over the next stage without a look at what it does; what stops it, or nothing.
  Diagnostics pass() {
    const StageParts parts = parts_of(build_.frame, stage_);
    if (parts.with != parts.before) {
      const auto before = solve(parts.before);
      if (!before) return before.error();
      add_history(models_, *before, models_.with(parts.with), history_);
    }
    ++stage_;
    return {};
  }

  Result<StageCut> look() {
    const build::Frame& frame = build_.frame;
    const StageParts parts = parts_of(frame, stage_);
    // Under the same weights it stands as the stage before has left it.
    const auto before = solve(parts.before, last_ ? &*last_ : nullptr);
    if (!before) return Failure{before.error()};
    add_history(models_, *before, models_.with(parts.with), history_);
    auto after = solve(parts.after);
    if (!after) return Failure{after.error()};
    StageCut out{.stands = before->stand_points,
                 .stands_before = before->stands,
                 .stress_before = last_ && is_same(*before, *last_)
                                      ? last_stress_
                                      : find_stage_stress(*before, options_.units),
                 .parts = list_cut_parts(build_, stage_, models_, *before, *after, options_.units),
                 .change = compare(*before, *after),
                 .braces = list_braces(frame, parts.after)};
    if (!out.braces.empty()) {
      const auto bare = solve(without_braces(frame, parts.after));
      if (!bare) return Failure{bare.error()};
      out.without_brace = compare(*before, *bare);
    }
    Judge(options_, stage_, out).run(before->on->model, after->on->model);
    ++stage_;
    last_ = *std::move(after);
    last_stress_ = out.change.stress;
    return out;
  }

 private:
  Result<FrameState> solve(const Selection& in, const FrameState* last = nullptr) const {
    return solve_state(build_, stage_, models_, in, history_, weights_, options_, last);
  }

  StageChange compare(const FrameState& before, const FrameState& after) const {
    return {.stands = after.stands,
            .height = find_height_change(models_, before, after, options_.units),
            .diagonals = calc_diagonal_change(before, after, build_.frame.stages[stage_].path),
            .stress = find_stage_stress(after, options_.units)};
  }

  const build::Build& build_;
  const StageModels& models_;
  const WeightsOf& weights_;
  const StageOptions& options_;
  std::size_t stage_ = 0;
  History history_;
  std::optional<FrameState> last_;  ///< As the stage before has left it.
  StageStress last_stress_;
};

/// What is in at any time of the first stages.
std::vector<Selection> list_sets(const build::Frame& frame, std::size_t stages) {
  std::vector<Selection> sets;
  for (std::size_t k = 0; k < stages; ++k) {
    const StageParts parts = parts_of(frame, k);
    sets.insert(sets.end(),
                {parts.before, parts.with, parts.after, without_braces(frame, parts.after)});
  }
  return sets;
}

}  // namespace

Result<StageCut> solve_cut(const build::Build& build, std::size_t stage, const WeightsOf& weights,
                           const StageOptions& options) {
  RIG_REQUIRE(stage < build.frame.stages.size());
  SectionBook book;
  const auto models = StageModels::make(build, list_sets(build.frame, stage + 1), book);
  if (!models) return Failure{models.error()};
  StageWalk walk(build, *models, weights, options);
  for (std::size_t k = 0; k < stage; ++k) {
    if (auto faults = walk.pass(); !faults.empty()) return Failure{std::move(faults)};
  }
  return walk.look();
}

std::vector<Result<StageCut>> solve_cuts(const build::Build& build, std::size_t stages,
                                         const WeightsOf& weights, SectionBook& book,
                                         const StageOptions& options) {
  RIG_REQUIRE(stages <= build.frame.stages.size());
  std::vector<Result<StageCut>> out;
  Diagnostics why;
  std::size_t sound = stages;
  auto models = StageModels::make(build, list_sets(build.frame, sound), book);
  // What stops a later stage is no reason not to tell of those before it.
  while (!models && sound > 0) {
    why = models.error();
    models = StageModels::make(build, list_sets(build.frame, --sound), book);
  }
  StageWalk walk(build, *models, weights, options);
  while (out.size() < sound) {
    out.push_back(walk.look());
    if (out.back()) continue;
    why = out.back().error();
    break;
  }
  while (out.size() < stages) out.emplace_back(Failure{why});
  return out;
}

}  // namespace rig::frame
