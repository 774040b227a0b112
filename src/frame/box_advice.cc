#include "frame/box_advice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/side_by_side.h"
#include "frame/end_stress.h"
#include "frame/solved_model.h"
#include "frame/whole_frame.h"

namespace rig::frame {
namespace {

struct MeasuredFrame {
  Shared<Model> model;
  WholeFrame whole;

  FrameStiffness stiffness() const {
    return {whole.torsion.stiffness_Nm_per_rad, whole.bending.stiffness_N_per_m,
            whole.lozenging.stiffness_N_per_m};
  }
  double mass_kg() const {
    double sum = 0;
    for (const double mass : calc_member_masses_kg(model->structure)) sum += mass;
    return sum;
  }
};

Result<MeasuredFrame> measure_frame(const build::Build& build, const Selection& in,
                                    SectionBook& book) {
  auto solved = make_solved_model(build, in, book);
  if (!solved) return Failure{solved.error()};
  auto whole = measure_whole_frame(solved->model, solved->solver);
  if (!whole) return Failure{whole.error()};
  return MeasuredFrame{std::move(solved->model), *std::move(whole)};
}

/// Length along the rail's line between two stations, of all sides that a plate is on.
double plate_length_m(const Model& model, const std::string& plate_path) {
  double sum = 0;
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const auto& plates = model.beams[b].plates;
    if (std::find(plates.begin(), plates.end(), plate_path) == plates.end()) continue;
    sum += (model.structure.beams[b].p_VoT_V - model.structure.beams[b].p_VoF_V).norm();
  }
  return sum;
}

std::optional<StretchGain> measure_stretch(const build::Build& build, const Selection& in,
                                           const OpenStretch& stretch, double mass_now_kg,
                                           SectionBook& book) {
  build::Build with = build;
  Selection in_with = in;
  std::vector<std::string> paths;
  for (std::size_t i = 0; i < stretch.plates.size(); ++i) {
    // No id of a file has a blank in it.
    const std::string id = fmt::format("new {}", i);
    paths.push_back("/frame/plates/" + id);
    with.frame.plates.push_back({.id = id, .path = paths.back(), .value = stretch.plates[i]});
    in_with.insert(id);
  }
  const auto measured = measure_frame(with, in_with, book);
  if (!measured) return std::nullopt;
  StretchGain gain{.stretch = stretch,
                   .plate_mass_kg = measured->mass_kg() - mass_now_kg,
                   .with = measured->stiffness()};
  for (const std::string& path : paths)
    gain.plate_length_m += plate_length_m(measured->model, path);
  return gain;
}

class Beside {
 public:
  Beside(const MeasuredFrame& with, const MeasuredFrame& without)
      : with_(with),
        without_(without),
        forces_with_(forces_of(with)),
        forces_without_(forces_of(without)) {}

  std::optional<BesidePlate> look(const PlateEnd& end) const {
    double with_Pa = 0, without_Pa = 0;
    const double there_m = end.station_m + (end.front ? -1 : 1) * end.depth_m;
    const double from_m = std::min(end.station_m, there_m), to_m = std::max(end.station_m, there_m);
    const auto most_Pa = [&](const MeasuredFrame& frame, const std::vector<BeamForces>& forces,
                             int sign) {
      return find_rail_stress(frame.model, forces, end.rail_path, sign, from_m, to_m).von_mises_Pa;
    };
    for (const int sign : end.signs) {
      with_Pa = std::max(with_Pa, most_Pa(with_, forces_with_, sign));
      without_Pa = std::max(without_Pa, most_Pa(without_, forces_without_, sign));
    }
    if (!(with_Pa > 0) || !(without_Pa > 0)) return std::nullopt;
    const double ratio = with_Pa / without_Pa;
    return BesidePlate{.same_couple = ratio,
                       .same_twist = ratio * with_.whole.torsion.stiffness_Nm_per_rad /
                                     without_.whole.torsion.stiffness_Nm_per_rad};
  }

 private:
  static std::vector<BeamForces> forces_of(const MeasuredFrame& frame) {
    const Measurement& measured = frame.whole.torsion.measured;
    return calc_all_beam_forces(frame.model->structure, measured.loads, measured.response);
  }

  const MeasuredFrame& with_;
  const MeasuredFrame& without_;
  std::vector<BeamForces> forces_with_, forces_without_;
};

std::optional<PlateEffect> measure_plate(const build::Build& build, const Selection& in,
                                         const build::Entry<build::BoxingPlate>& plate,
                                         const MeasuredFrame& now, SectionBook& book) {
  Selection in_without = in;
  in_without.erase(plate.id);
  const auto without = measure_frame(build, in_without, book);
  if (!without) return std::nullopt;
  PlateEffect effect{.path = plate.path,
                     .without = without->stiffness(),
                     .mass_kg = now.mass_kg() - without->mass_kg()};
  const Beside beside(now, *without);
  for (const PlateEnd& end : list_plate_ends(build, in)) {
    if (end.plate_path != plate.path) continue;
    (end.front ? effect.front : effect.rear) = beside.look(end);
  }
  return effect;
}

std::optional<TubeEffect> measure_tube_through(const build::Build& build, const Selection& in,
                                               const build::Entry<build::Crossmember>& tube,
                                               SectionBook& book) {
  build::Build through = build;
  for (auto& part : through.frame.crossmembers) {
    if (part.id == tube.id) part.value.joint = build::CrossmemberJoint::kThroughWebAndPlate;
  }
  const auto measured = measure_frame(through, in, book);
  if (!measured) return std::nullopt;
  return TubeEffect{.path = tube.path, .through = measured->stiffness()};
}

/// One of the things that are measured by themselves.
struct MeasuredEffect {
  std::optional<StretchGain> gain;
  std::optional<PlateEffect> plate;
  std::optional<TubeEffect> tube;
};

}  // namespace

Result<BoxAdvice> advise_boxing(const BareFrame& frame, const Selection& in, SectionBook& book) {
  const build::Build& build = frame.build();
  const auto now = measure_frame(build, in, book);
  if (!now) return Failure{now.error()};
  const double mass_kg = now->mass_kg();
  const std::vector<OpenStretch> stretches = list_open_stretches(build, in);
  std::vector<const build::Entry<build::BoxingPlate>*> plates;
  for (const auto& plate : build.frame.plates) {
    if (in.contains(plate.id)) plates.push_back(&plate);
  }
  const auto tubes = list_stopped_tubes(build, in);
  auto measured =
      make_side_by_side(stretches.size() + plates.size() + tubes.size(), [&](std::size_t i) {
        MeasuredEffect out;
        if (i < stretches.size()) {
          out.gain = measure_stretch(build, in, stretches[i], mass_kg, book);
        } else if (i -= stretches.size(); i < plates.size()) {
          out.plate = measure_plate(build, in, *plates[i], *now, book);
        } else {
          out.tube = measure_tube_through(build, in, *tubes[i - plates.size()], book);
        }
        return out;
      });
  BoxAdvice advice{.now = now->stiffness(), .stretches = {}, .plates = {}, .tubes = {}};
  for (MeasuredEffect& one : measured) {
    if (one.gain) advice.stretches.push_back(*std::move(one.gain));
    if (one.plate) advice.plates.push_back(*std::move(one.plate));
    if (one.tube) advice.tubes.push_back(*std::move(one.tube));
  }
  std::stable_sort(advice.stretches.begin(), advice.stretches.end(),
                   [&](const StretchGain& a, const StretchGain& b) {
                     return a.per_length(advice.now) > b.per_length(advice.now);
                   });
  return advice;
}

}  // namespace rig::frame
