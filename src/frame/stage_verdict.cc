#include <algorithm>
#include <cmath>
#include <utility>

#include "frame/stage_verdict_internal.h"

namespace rig::frame {

namespace {

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

void judge_stage(const StageOptions& options, std::size_t stage, const Model& before,
                 const Model& after, StageCut& cut) {
  Judge(options, stage, cut).run(before, after);
}

}  // namespace rig::frame
