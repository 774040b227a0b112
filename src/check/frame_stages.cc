#include <algorithm>

#include "base/require.h"
#include "check/frame.h"
#include "units/factors.h"

namespace rig::check {
namespace {

/// What lies on the frame stage by stage, as far as it is known.
class StageWeights {
 public:
  /// @param standing  The truck on its wheels, or null.
  StageWeights(const build::Build& build, const std::vector<StateReport>& states,
               const FrameCase* standing)
      : build_(build), states_(states), on_wheels_(standing) {}

  /// The frame's own weight and what the stage says is aboard; without stands all that the truck
  /// carries and what its axles push.
  /// @errors  Those of `lay_case`.
  Result<frame::Loads> lay(const frame::Model& model, std::size_t stage) const {
    if (on_wheels(stage)) {
      RIG_REQUIRE(on_wheels_ != nullptr);
      return lay_case(build_, model, *on_wheels_);
    }
    const Vec3 a_V(0, 0, units::kStandardGravity_m_per_s2);
    frame::Loads loads = frame::lay_burdens(model, build_, aboard(stage), {.a_V = a_V}).loads;
    frame::add_body_forces(model.structure, a_V, loads);
    return loads;
  }

  /// Paths of what the mounts of a model would let tip or drop.
  std::vector<std::string> find_unheld(const frame::Model& model, std::size_t stage) const {
    std::vector<std::string> paths;
    const auto burdens = on_wheels(stage) ? on_wheels_->burdens : aboard(stage);
    for (const std::string& id : frame::find_unheld(model, build_, burdens)) {
      if (const auto* mass = build::find(build_.masses, id)) paths.push_back(mass->path);
    }
    return paths;
  }

  bool known(std::size_t stage) const {
    if (on_wheels(stage)) return on_wheels_ != nullptr;
    const auto& aboard = stage_at(stage).aboard;
    return std::all_of(aboard.begin(), aboard.end(),
                       [&](const auto& item) { return find_burden(item.id).has_value(); });
  }

 private:
  bool on_wheels(std::size_t stage) const { return stage_at(stage).stands.empty(); }

  /// As far as the masses are known.
  std::vector<frame::Burden> aboard(std::size_t stage) const {
    std::vector<frame::Burden> burdens;
    for (const auto& item : stage_at(stage).aboard) {
      if (auto burden = find_burden(item.id)) burdens.push_back(*std::move(burden));
    }
    return burdens;
  }

  const build::Stage& stage_at(std::size_t index) const {
    return (build_.frame.stages.begin() + static_cast<std::ptrdiff_t>(index))->value;
  }

  /// A mass as any load state has it; the first that does.
  std::optional<frame::Burden> find_burden(const std::string& id) const {
    for (const auto& state : states_) {
      for (const auto& item : state.weigh.items) {
        if (item.id != id) continue;
        const auto* mass = build::find(build_.masses, id);
        const bool sized = mass != nullptr && mass->value.size && mass->value.size->length.known();
        return frame::Burden{.id = id,
                             .mass_kg = item.mass_kg(),
                             .p_VoCm_V = item.p_VoCm_V(),
                             .length_m = sized ? mass->value.size->length.si : 0};
      }
    }
    return std::nullopt;
  }

  const build::Build& build_;
  const std::vector<StateReport>& states_;
  const FrameCase* on_wheels_;
};

}  // namespace

std::future<frame::StageFrames> begin_stage_frames(const build::Build& build,
                                                   frame::SectionBook book) {
  return std::async(std::launch::async, [&build, book]() mutable {
    return frame::StageFrames(build, build.frame.stages.size(), book);
  });
}

std::optional<FrameCase> find_standing(const FrameCases& cases, const std::string& state) {
  for (const FrameCase& of : cases.cases) {
    if (of.state == state && of.id.starts_with("standing")) return of;
  }
  return std::nullopt;
}

SolvedStages solve_stages(const build::Build& build, const std::vector<StateReport>& states,
                          const std::optional<FrameCase>& standing, const Printer& print,
                          std::future<frame::StageFrames> frames, frame::SectionBook book) {
  const StageWeights weights(build, states, standing ? &*standing : nullptr);
  frame::StageOptions options{
      .limits = {},
      .unknown_weights = {},
      .unheld_on = [&](const frame::Model& model,
                       std::size_t at) { return weights.find_unheld(model, at); },
      .units = print.choices()};
  // A stage goes on from those before it: up to the first that nothing is known to carry.
  std::size_t known = 0;
  for (const auto& stage : build.frame.stages) {
    if (!weights.known(known)) {
      if (stage.value.stands.empty()) break;
      options.unknown_weights.push_back(known);
    }
    ++known;
  }
  const auto lay = [&](const frame::Model& model, std::size_t at) {
    return weights.lay(model, at);
  };
  // Places on the rails are those of all stages that are told.
  const frame::StageFrames all = frames.get();
  if (known == all.stages()) return frame::solve_cuts(build, all, lay, options);
  return frame::solve_cuts(build, {build, known, book}, lay, options);
}

void add_stages(const build::Build& build, SolvedStages solved, Report& report) {
  std::size_t index = 0;
  for (const auto& stage : build.frame.stages) {
    StageReport told{.id = stage.id,
                     .label = stage.value.label.empty() ? stage.id : stage.value.label,
                     .path = stage.path,
                     .cut = {}};
    if (index >= solved.size()) {
      report.missing.push_back({stage.path + "/stands",
                                "what carries the frame in the stage \"" + told.label + "\"",
                                "what its cuts do"});
    } else if (solved[index]) {
      told.cut = *std::move(solved[index]);
    } else {
      report.add_faults(solved[index].error());
    }
    report.frame->stages.push_back(std::move(told));
    ++index;
  }
}

}  // namespace rig::check
