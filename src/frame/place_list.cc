#include <algorithm>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/place_list_internal.h"
#include "frame/stress_bound_internal.h"

namespace rig::frame {

const BeamSection& section_at(const Model& model, int beam) {
  return model.structure.sections[at(model.structure.beams[at(beam)].section)];
}

PlaceList::PlaceList(const Model& model, std::span<const FrameForces> cases)
    : model_(model), cases_(cases), limits_(model) {
  for (const FrameForces& of : cases) {
    RIG_REQUIRE(of.forces.size() == model.structure.beams.size());
    std::vector<const LockedForces*> locked(model.structure.beams.size(), nullptr);
    for (const LockedForces& one : of.locked) locked[at(one.beam)] = &one;
    locked_.push_back(std::move(locked));
  }
  for (std::size_t b = 0; b < model.structure.beams.size(); ++b) add(static_cast<int>(b));
  field_of_.assign(places_.size(), -1);
}

const BeamForces& PlaceList::carried(const Place& place) const {
  return cases_[place.load_case].forces[at(place.at.beam)];
}

const LockedForces* PlaceList::locked(const Place& place) const {
  return locked_[place.load_case][at(place.at.beam)];
}

void PlaceList::add(int beam) {
  if (cases_.empty()) return;
  const double length_m = cases_.front().forces[at(beam)].length_m;
  const double reach = kJointReach * limits_.depth_m(beam) / length_m;
  std::vector<double> shares{0, 0.5, 1};
  if (reach < 0.5) {
    if (limits_.to_joint_m({beam, 0}) < kReachRounding) shares.push_back(reach);
    if (limits_.to_joint_m({beam, 1}) < kReachRounding) shares.push_back(1 - reach);
  }
  std::sort(shares.begin(), shares.end());
  const StressBound& bound = section_at(model_, beam).stress_bound;
  for (const double share : shares) {
    for (std::size_t c = 0; c < cases_.size(); ++c) {
      const LockedForces* before = locked_[c][at(beam)];
      double bound_Pa = bound.von_mises_Pa(cases_[c].forces[at(beam)].at(share));
      if (before != nullptr) {
        bound_Pa += before->section->stress_bound.von_mises_Pa(before->forces.at(share));
      }
      places_.push_back({c, {beam, share}, bound_Pa});
    }
  }
}

const PlaceList::Field& PlaceList::field_at(std::size_t index) {
  int& of = field_of_[index];
  if (of < 0) {
    of = static_cast<int>(fields_.size());
    fields_.push_back(make_field(places_[index]));
  }
  return fields_[at(of)];
}

PlaceList::Field PlaceList::make_field(const Place& place) const {
  const BeamSection& section = section_at(model_, place.at.beam);
  const section::SectionForces forces =
      without_shear_across(section, carried(place).at(place.at.share));
  if (const LockedForces* before = locked(place)) {
    return LockedStress(section, forces, *before->section, before->forces.at(place.at.share));
  }
  return section::StressField(section.section, section.properties, forces);
}

}  // namespace rig::frame
