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
  Judge(const StageOptions& options, StageCut& cut) : options_(options), cut_(cut) {}

  void run(const Model& before) {
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
    if (!options_.weights_known) {
      add(StageVerdict::look, {StageReasonKind::weights_unknown, "", kNaN, kNaN});
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

Result<StageCut> solve_cut(const build::Build& build, std::size_t stage, const WeightsOf& weights,
                           const StageOptions& options) {
  const build::Frame& frame = build.frame;
  RIG_REQUIRE(stage < frame.stages.size());
  std::vector<Selection> sets;
  for (std::size_t k = 0; k <= stage; ++k) {
    const StageParts parts = parts_of(frame, k);
    sets.insert(sets.end(), {parts.before, parts.with, parts.after});
  }
  const StageParts parts = parts_of(frame, stage);
  sets.push_back(without_braces(frame, parts.after));
  const auto models = StageModels::make(build, sets);
  if (!models) return Failure{models.error()};

  History history;
  for (std::size_t k = 0; k < stage; ++k) {
    const StageParts earlier = parts_of(frame, k);
    if (earlier.with == earlier.before) continue;
    const auto state = solve_state(build, k, *models, earlier.before, history, weights, options);
    if (!state) return Failure{state.error()};
    add_history(*models, *state, models->with(earlier.with), history);
  }
  const auto before = solve_state(build, stage, *models, parts.before, history, weights, options);
  if (!before) return Failure{before.error()};
  add_history(*models, *before, models->with(parts.with), history);

  const std::string& path = frame.stages[stage].path;
  const auto compare = [&](const FrameState& after) {
    return StageChange{.stands = after.stands,
                       .height = find_height_change(*models, *before, after, options.units),
                       .diagonals = calc_diagonal_change(*before, after, path),
                       .stress = find_stage_stress(after, options.units)};
  };
  const auto after = solve_state(build, stage, *models, parts.after, history, weights, options);
  if (!after) return Failure{after.error()};
  StageCut out{.stands = before->stand_points,
               .stands_before = before->stands,
               .stress_before = find_stage_stress(*before, options.units),
               .parts = list_cut_parts(build, stage, *models, *before, *after, options.units),
               .change = compare(*after),
               .braces = list_braces(frame, parts.after)};
  if (!out.braces.empty()) {
    const auto bare = solve_state(build, stage, *models, without_braces(frame, parts.after),
                                  history, weights, options);
    if (!bare) return Failure{bare.error()};
    out.without_brace = compare(*bare);
  }
  Judge(options, out).run(before->on->model);
  return out;
}

}  // namespace rig::frame
