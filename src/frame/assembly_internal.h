#pragma once

#include <Eigen/Core>
#include <vector>

#include "frame/beam_internal.h"
#include "frame/freedoms_internal.h"
#include "frame/skyline_internal.h"

namespace rig::frame {

/// What strains a beam, in terms of the freedoms.
void make_beam_part(const Structure& structure, const Freedoms& freedoms, const Beam& beam,
                    const Element& element, Part& part);

/// What strains a spring between joints, by the three displacements and rotations in its axes.
void make_spring_part(const Structure& structure, const Freedoms& freedoms,
                      const JointSpring& spring, Part& part);

/// Calls with each beam and joint spring in turn; the part is gone when the call returns.
template <typename Call>
void for_each_part(const Structure& structure, const Freedoms& freedoms,
                   const std::vector<Element>& elements, const Call& call) {
  Part part;
  for (std::size_t b = 0; b < elements.size(); ++b) {
    make_beam_part(structure, freedoms, structure.beams[b], elements[b], part);
    call(part);
  }
  for (const JointSpring& spring : structure.joint_springs) {
    make_spring_part(structure, freedoms, spring, part);
    call(part);
  }
}

/// Stiffness of all beams and springs on the freedoms.
Skyline assemble_stiffness(const Structure& structure, const Freedoms& freedoms,
                           const std::vector<Element>& elements);

/// Elastic energy of a motion, J, added up from what strains each part: no rounding of one part's
/// energy hides another's.
double calc_energy_J(const Structure& structure, const Freedoms& freedoms,
                     const std::vector<Element>& elements, const Eigen::VectorXd& x);

/// Forces of loads on the freedoms.
/// @param loads  Of known joints and beams.
void add_loads(const Structure& structure, const Freedoms& freedoms,
               const std::vector<Element>& elements, const Loads& loads,
               Eigen::Ref<Eigen::VectorXd> forces);

}  // namespace rig::frame
