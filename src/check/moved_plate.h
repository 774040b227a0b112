#pragma once

#include <optional>

#include "check/finding.h"
#include "frame/end_stress.h"

/// A plate that ends elsewhere.
namespace rig::check {

/// The planned truck with one end of one plate moved, solved anew under the same cases.
struct MovedPlate {
  double torsion_Nm_per_rad = kNaN;  ///< NaN without axle lines.
  /// Within a depth of the new end; none where no open rail goes on from it, or without cases.
  std::optional<frame::EndStress> stress;
};

/// @return  Nothing where that frame can't be solved.
std::optional<MovedPlate> solve_with_plate_ended(const Subject& subject, const frame::PlateEnd& end,
                                                 double station_m);

}  // namespace rig::check
