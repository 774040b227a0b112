#pragma once

#include "check/drivetrain.h"

namespace rig::check {

/// Where a shaft's ends are taken, by the axle at one and the cases at the other or at both.
struct ShaftPlaces {
  std::vector<double> bump_m;  ///< Rising.
  std::vector<driveline::ShaftEnds> bump;
  std::size_t ride = 0;                       ///< Of `bump`: as drawn.
  std::vector<driveline::ShaftEnds> others;   ///< In roll, and one wheel up.
  std::vector<driveline::ShaftEnds> corners;  ///< The ends of the travel, ride first.
};

/// @param axle  At its far end; null: another case.
ShaftPlaces find_shaft_places(const driveline::ShaftEnds& drawn, const AxleReport* axle);

/// The shaft's far end where an axle's place takes it.
driveline::ShaftEnds ends_at(const driveline::ShaftEnds& drawn, const suspension::AxleModel& axle,
                             const suspension::AxlePlace& place);

/// The same poses with the cases moved.
/// @param start, end  Of the shaft's first and last joint.
std::vector<driveline::ShaftEnds> move_ends(std::vector<driveline::ShaftEnds> poses,
                                            const driveline::CaseMotion& start,
                                            const driveline::CaseMotion& end);

}  // namespace rig::check
