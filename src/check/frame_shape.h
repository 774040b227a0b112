#pragma once

#include "base/nan.h"
#include "frame/model.h"
#include "frame/solve.h"
#include "geometry/rigid_motion.h"

/// How a frame's shape under load is drawn.
namespace rig::check {

/// The motion that is taken out of a frame's shape before it is drawn, so that what is left is how
/// it bends between the wheels: that nearest to what the places do where the axle lines pass the
/// rails; without four of these, that nearest to what all ends of beams do.
RigidMotion find_ride_motion(const frame::Model& model, const frame::Response& response);

/// What a section of a beam does.
struct SectionMotion {
  Vec3 d_V = Vec3::Zero();  ///< Of the beam's reference line, m.
  Vec3 r_V = Vec3::Zero();  ///< Of the section, rad.
};

/// The solver's motion at the ends of a beam, and between them a shape for drawing: the cubic that
/// has their displacements and slopes, the sections' turns evenly from one to the other. Exact
/// where the beam bends by forces on its ends and neither shears nor twists.
/// @param share  Of the length from the beam's `from`, 0 to 1.
SectionMotion calc_section_motion(const frame::Structure& structure,
                                  const frame::Response& response, int beam, double share);

/// By how much to exaggerate a shape so that it can be seen: the largest of 1, 2, 5, 10, 20 ...
/// 1000 that brings the greatest displacement to no more than a readable size, and 1 when none
/// does.
/// @param most_m      Greatest displacement, not negative.
/// @param readable_m  > 0.
double find_exaggeration(double most_m, double readable_m);

/// The least of 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 15 ... that is no less than a value; 1 for none.
double round_step_up(double value);

}  // namespace rig::check
