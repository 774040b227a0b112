#include <algorithm>
#include <cmath>
#include <limits>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/place_limits_internal.h"
#include "frame/stage_history_internal.h"
#include "frame/stress_bound_internal.h"

namespace rig::frame {

namespace {

/// Share of a box's stress from torque above which its distortion may matter.
constexpr double kTwisted = 0.1;

/// Where along every member something is joined to it: stations of a rail, offsets of a
/// crossmember.
std::vector<std::vector<double>> list_joints(const Model& model) {
  const Structure& s = model.structure;
  std::vector<std::vector<double>> out(s.members.size());
  std::vector<char> meets(s.joints.size(), 0);
  for (std::size_t b = 0; b < s.beams.size(); ++b) {
    if (model.beams[b].sign != 0) continue;
    for (const int joint : {s.beams[b].from, s.beams[b].to}) meets[at(root_of(s, joint))] = 1;
  }
  for (std::size_t b = 0; b < s.beams.size(); ++b) {
    const BeamPlace& place = model.beams[b];
    std::vector<double>& joints = out[at(s.beams[b].member)];
    const auto another = [&](std::size_t other) {
      return other >= s.beams.size() || s.beams[other].member != s.beams[b].member;
    };
    if (place.sign == 0) {
      if (b == 0 || another(b - 1)) joints.push_back(place.begin_m);
      if (another(b + 1)) joints.push_back(place.end_m);
      continue;
    }
    if (meets[at(root_of(s, s.beams[b].to))] != 0) joints.push_back(place.begin_m);
    if (meets[at(root_of(s, s.beams[b].from))] != 0) joints.push_back(place.end_m);
    if (!another(b + 1) && model.beams[b + 1].plates != place.plates) {
      joints.push_back(place.end_m);
    }
  }
  return out;
}

}  // namespace

PlaceLimits::PlaceLimits(const Model& model) : model_(model), joints_(list_joints(model)) {
  for (const BeamSection& section : model.structure.sections) {
    depths_m_.push_back(calc_depth_m(section.section));
  }
}

double PlaceLimits::depth_m(int beam) const {
  return depths_m_[at(model_.structure.beams[at(beam)].section)];
}

double PlaceLimits::to_joint_m(const AlongBeam& place) const {
  const double along_m = place_along_m(model_, place);
  double least = std::numeric_limits<double>::infinity();
  for (const double joint_m : joints_[at(model_.structure.beams[at(place.beam)].member)]) {
    least = std::min(least, std::abs(joint_m - along_m));
  }
  return least;
}

void PlaceLimits::tell(const BeamForces& carried, WorstPlace& place) const {
  const int beam = place.at.beam;
  place.near_joint = to_joint_m(place.at) < (kJointReach - kReachRounding) * depth_m(beam);
  if (model_.beams[at(beam)].plates.empty()) return;
  const BeamSection& section =
      model_.structure.sections[at(model_.structure.beams[at(beam)].section)];
  const auto twisted = section::calc_wall_stress(
      section.section, section.properties,
      {.torque_St_Venant_Nm = carried.at(place.at.share).torque_St_Venant_Nm}, place.stress.at);
  RIG_REQUIRE(twisted.has_value());
  place.distorts = twisted->von_mises_Pa > kTwisted * place.stress.von_mises_Pa;
}

}  // namespace rig::frame
