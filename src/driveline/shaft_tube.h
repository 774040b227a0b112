#pragma once

#include <string>

#include "base/nan.h"
#include "base/result.h"

namespace rig::driveline {

/// A round tube; a wall of half the diameter makes it a solid bar.
struct ShaftTube {
  double outside_diameter_m = kNaN;
  double wall_m = kNaN;
};

struct TubeSection {
  double area_m2 = 0;
  double second_moment_m4 = 0;  ///< I, for bending; for torsion J = 2 I.
};

/// @param path  Put before the path of what is wrong.
/// @errors  driveline.size_not_positive, driveline.wall_too_thick.
Diagnostics check_tube(const ShaftTube& tube, const std::string& path = {});

/// @param tube  Of which `check_tube` finds nothing.
TubeSection calc_tube_section(const ShaftTube& tube);

/// A fault unless `value` is a positive number: `what` in shop words, its unit.
void check_positive(double value, const std::string& path, const char* what, const char* unit,
                    Diagnostics& faults);

}  // namespace rig::driveline
