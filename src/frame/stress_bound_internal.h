#pragma once

#include "frame/structure.h"
#include "section/stress.h"

namespace rig::frame {

/// Most that each action of size one makes anywhere in a section: axial stress and shear, Pa.
struct StressBound {
  double axial = 0, moment_y = 0, moment_z = 0, bimoment = 0;
  double shear_y = 0, shear_z = 0, torque_warping = 0, torque_St_Venant = 0;

  /// No von Mises stress in the section is above this.
  double von_mises_Pa(const section::SectionForces& forces) const;
};

StressBound calc_stress_bound(const BeamSection& section);

/// Height of a section's walls, m.
double calc_depth_m(const section::Section& section);

/// Shear that a flat bar can't carry as a flow along its wall, taken out.
section::SectionForces without_shear_across(const BeamSection& section,
                                            const section::SectionForces& forces);

}  // namespace rig::frame
