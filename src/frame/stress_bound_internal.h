#pragma once

#include "frame/structure.h"
#include "section/stress.h"

namespace rig::frame {

StressBound calc_stress_bound(const section::Section& section,
                              const section::SectionProperties& properties);

/// Height of a section's walls, m.
double calc_depth_m(const section::Section& section);

/// Shear that a flat bar can't carry as a flow along its wall, taken out.
section::SectionForces without_shear_across(const BeamSection& section,
                                            const section::SectionForces& forces);

}  // namespace rig::frame
