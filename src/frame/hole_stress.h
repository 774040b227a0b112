#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "frame/plate_ends.h"
#include "frame/worst_places.h"
#include "section/holes.h"

/// What round holes do to the rails.
namespace rig::frame {

/// A hole on one side of the truck, in the case that stresses its edge most.
struct HoleStress {
  std::string path;
  int sign = 1;  ///< +1: left.
  std::size_t load_case = 0;
  double axial_Pa = 0;   ///< Of the whole section, over the hole's width where it is greatest.
  double shear_Pa = 0;   ///< Of the whole section, at the hole's middle.
  double edge_Pa = 0;    ///< The greatest at the hole's edge: `section::calc_hole_edge_stress_Pa`.
  double factor = 0;     ///< `section::calc_hole_factor`.
  double width_m = 0;    ///< Of the strip that it is taken as in the middle of.
  double area_left = 1;  ///< Net over whole section.
  double bending_left = 1;  ///< Net over whole second moment about the level axis.
  double yield_Pa = kNaN;   ///< Of that wall; NaN: not known.
};

/// Each hole of the planned frame whose sizes are known and whose wall is in the model, on each
/// side that it is on.
///
/// Stress is that of the whole section where the hole is, on the wall's midline; the beams know
/// nothing of the hole. The strip is twice as wide as the hole's middle is from the nearer edge of
/// its wall, though the other walls hold that edge in part. A bolt that fills the hole is left out.
///
/// @accuracy  That of the beams' stress (10 %), and of the strip: on the safe side.
std::vector<HoleStress> find_hole_stresses(const Model& model, const build::Frame& frame,
                                           std::span<const FrameForces> cases);

/// How a hole lies in its wall. NaN where a size is not known.
struct HoleFit {
  double to_edge_m = kNaN;  ///< From its middle to the nearer edge of the wall, outside.
  double clear_m = kNaN;    ///< Of its edge from the nearer bend or weld corner; below 0: in it.
};
HoleFit calc_hole_fit(const build::Frame& frame, const build::Hole& hole);

}  // namespace rig::frame
