#include <algorithm>
#include <cmath>
#include <utility>

#include "base/require.h"
#include "base/side_by_side.h"
#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"
#include "frame/stage_models_internal.h"

namespace rig::frame {

namespace {

/// Adds the places that are not marked yet.
void add_marks(const std::vector<RailMark>& places, std::vector<RailMark>& marks) {
  for (const RailMark& place : places) {
    const bool known = std::any_of(marks.begin(), marks.end(), [&](const RailMark& mark) {
      return mark.rail == place.rail && std::abs(mark.station_m - place.station_m) < kSamePlace_m;
    });
    if (!known) marks.push_back(place);
  }
}

/// Holds of warping as springs, this much stiffer than the stiffest beam that meets them.
std::vector<double> soften_holds(Structure& s) {
  constexpr double kStiffer = 1e6;
  std::vector<double> holds(s.scalars.size(), 0);
  for (const Beam& beam : s.beams) {
    const BeamSection& section = s.sections[at(beam.section)];
    const double stiffness =
        section.E_Pa *
        (section.properties.warping_constant_m6 + section.properties.warping_across_m6) /
        (beam.p_VoT_V - beam.p_VoF_V).norm();
    for (const int scalar : {beam.warp_from, beam.warp_to}) {
      if (scalar < 0 || !s.scalars[at(scalar)].held) continue;
      holds[at(scalar)] = std::max(holds[at(scalar)], kStiffer * stiffness);
    }
  }
  for (std::size_t i = 0; i < holds.size(); ++i) {
    if (holds[i] == 0) continue;
    s.scalars[i].held = false;
    s.scalar_springs.push_back({.scalars = {static_cast<int>(i)},
                                .stiffness = Eigen::MatrixXd::Constant(1, 1, holds[i]),
                                .place = s.scalars[i].place});
  }
  return holds;
}

Result<StageModel> make_stage_model(ModelMaker& maker, const std::vector<RailMark>& marks,
                                    const StageSet& set) {
  auto made = maker.make(marks);
  if (!made) return Failure{made.error()};
  std::vector<double> holds = soften_holds(made->model.structure);
  StageModel out{
      set.in, std::move(made->model), std::move(made->mark_joints), std::move(holds), {}};
  if (!set.is_solved) return out;
  auto solver = Solver::make(structure_of(out.model));
  if (!solver) return Failure{solver.error()};
  out.solver = *std::move(solver);
  return out;
}

}  // namespace

Result<StageModels> StageModels::make(const build::Build& build, const std::vector<StageSet>& sets,
                                      SectionBook& book) {
  StageModels out;
  std::map<Selection, bool> single;
  for (const StageSet& set : sets) single[set.in] |= set.is_solved;
  std::vector<StageSet> wanted;
  wanted.reserve(single.size());
  for (const auto& [in, is_solved] : single) wanted.push_back({in, is_solved});
  std::vector<ModelMaker> makers;
  makers.reserve(wanted.size());
  for (const StageSet& set : wanted) {
    makers.emplace_back(build, set.in, book);
    const auto places = makers.back().list_places();
    if (!places) return Failure{places.error()};
    add_marks(*places, out.marks_);
  }
  auto made = make_side_by_side(wanted.size(), [&](std::size_t i) {
    return make_stage_model(makers[i], out.marks_, wanted[i]);
  });
  // Of several that can't be made the first in time is told.
  for (const StageSet& set : sets) {
    const auto i = std::distance(single.begin(), single.find(set.in));
    const auto& model = made[static_cast<std::size_t>(i)];
    if (!model) return Failure{model.error()};
  }
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    out.models_.emplace(wanted[i].in, *std::move(made[i]));
  }
  return out;
}

const StageModel& StageModels::with(const Selection& in) const { return models_.at(in); }

int StageModels::find_mark(const std::string& path, int sign, double station_m) const {
  int best = -1;
  double least = 2 * kSamePlace_m;
  for (std::size_t i = 0; i < marks_.size(); ++i) {
    const double distance = std::abs(marks_[i].station_m - station_m);
    if (marks_[i].path != path || marks_[i].sign != sign || !(distance < least)) continue;
    least = distance;
    best = static_cast<int>(i);
  }
  return best;
}

std::array<int, 2> StageModels::ends_of(const StageModel& on, int member) const {
  const Structure& s = on.model->structure;
  std::array<int, 2> ends{-1, -1};
  const auto mark_of = [&](int joint) {
    // What is welded to the rail is the mark's joint or follows it.
    for (int j = joint; j >= 0; j = s.joints[at(j)].follows) {
      for (std::size_t i = 0; i < on.mark_joints.size(); ++i) {
        if (on.mark_joints[i] == j) return static_cast<int>(i);
      }
    }
    return -1;
  };
  for (const Beam& beam : s.beams) {
    if (beam.member != member) continue;
    if (ends[0] < 0) ends[0] = mark_of(beam.from);
    ends[1] = mark_of(beam.to);
  }
  RIG_REQUIRE(ends[0] >= 0 && ends[1] >= 0);
  return ends;
}

}  // namespace rig::frame
