#include "check/shaft_places.h"

#include <algorithm>

namespace rig::check {
namespace {

using driveline::ShaftEnds;
using suspension::SweptPose;

suspension::AxlePlace place_of(const SweptPose& pose) { return {pose.q.head<3>(), pose.R_VA}; }

/// As drawn the shaft stands just as the file has it, which no pose of a sweep need do.
void put_drawn(const ShaftEnds& drawn, ShaftPlaces& places) {
  const auto after = std::lower_bound(places.bump_m.begin(), places.bump_m.end(), 0.0);
  const auto at = after - places.bump_m.begin();
  places.ride = static_cast<std::size_t>(at);
  if (after != places.bump_m.end() && *after == 0) return;
  places.bump_m.insert(after, 0);
  places.bump.insert(places.bump.begin() + at, drawn);
}

}  // namespace

ShaftEnds ends_at(const ShaftEnds& drawn, const suspension::AxleModel& axle,
                  const suspension::AxlePlace& place) {
  ShaftEnds ends = drawn;
  ends.p_VOut = place.p_VC + place.R_VA * (drawn.p_VOut - axle.p_VC);
  ends.d_out_V = place.R_VA * drawn.d_out_V;
  return ends;
}

ShaftPlaces find_shaft_places(const ShaftEnds& drawn, const AxleReport* axle) {
  ShaftPlaces places;
  std::vector<ShaftEnds> ends_of_sweeps;
  if (axle != nullptr) {
    const auto at = [&](const SweptPose& pose) {
      return ends_at(drawn, axle->model, place_of(pose));
    };
    for (const SweptPose& pose : axle->bump.poses) {
      places.bump_m.push_back(pose.numbers.heave_m);
      places.bump.push_back(at(pose));
    }
    for (const auto* sweep : {&axle->roll, &axle->crossed}) {
      for (const SweptPose& pose : sweep->poses) places.others.push_back(at(pose));
    }
    for (const auto* sweep : {&axle->bump, &axle->roll, &axle->crossed}) {
      if (sweep->poses.empty()) continue;
      ends_of_sweeps.push_back(at(sweep->poses.front()));
      ends_of_sweeps.push_back(at(sweep->poses.back()));
    }
  }
  put_drawn(drawn, places);
  places.corners = {places.bump[places.ride]};
  places.corners.insert(places.corners.end(), ends_of_sweeps.begin(), ends_of_sweeps.end());
  return places;
}

std::vector<ShaftEnds> move_ends(std::vector<ShaftEnds> poses, const driveline::CaseMotion& start,
                                 const driveline::CaseMotion& end) {
  for (ShaftEnds& ends : poses) {
    ends.p_VIn += start.travel_V;
    ends.d_in_V += start.turn_V.cross(ends.d_in_V);
    ends.p_VOut += end.travel_V;
    ends.d_out_V += end.turn_V.cross(ends.d_out_V);
  }
  return poses;
}

}  // namespace rig::check
