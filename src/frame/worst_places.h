#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "frame/model.h"
#include "frame/solve.h"
#include "frame/words.h"
#include "section/stress.h"

/// Where a frame is stressed most.
namespace rig::frame {

/// What a beam carried before a plate closed it, still in the walls that were there then.
struct LockedForces {
  int beam = -1;
  std::shared_ptr<const BeamSection> section;  ///< Of that time.
  BeamForces forces;
};

/// What all beams carry at one time. Stresses of `forces` and of `locked` add up.
struct FrameForces {
  std::vector<BeamForces> forces;    ///< By beam of the structure.
  std::vector<LockedForces> locked;  ///< At most one for a beam.
};

/// What the beams carry under each of several loads, by what these make of the frame.
/// @param responses  One for each of `loads`.
std::vector<FrameForces> calc_case_forces(const Structure& structure, std::span<const Loads> loads,
                                          std::span<const Response> responses);

struct WorstPlace {
  std::size_t load_case = 0;
  AlongBeam at;
  section::WallStress stress;
  double yield_Pa = kNaN;  ///< Of that wall; NaN: not known.
  /// Within half of the part's depth of a crossmember, a box's end or its own end: the joint's own
  /// stress comes on top, which beams do not have.
  bool near_joint = false;
  /// In a box whose torque makes a good part of it: boxes distort under torque put in by brackets,
  /// which beams do not.
  bool distorts = false;

  double share_of_yield() const { return stress.von_mises_Pa / yield_Pa; }
};

/// Where one section is stressed most.
struct SectionStress {
  section::WallStress stress;
  double yield_Pa = kNaN;  ///< Of that wall; NaN: not known.
};

/// The place of von Mises' greatest stress in the section at one place of a beam:
/// `section::find_worst_stress` of what the beam carries there, shear across a flat bar left out.
/// @param forces  Of that beam.
SectionStress find_section_stress(const Model& model, const BeamForces& forces,
                                  const AlongBeam& where);

enum class WorstBy {
  stress,         ///< Von Mises'.
  share_of_yield  ///< Places of unknown yield are left out.
};

/// The places that are stressed most, worst first, over several load cases together.
///
/// Looked at are both ends and the middle of every beam, and where the joint's own reach ends:
/// `section::find_worst_stress` there, so that one place stands for one section. Of two places
/// within 3 in of each other on one wall of a member only the worse is given. Bounds by section
/// sort out what can't be among the worst, so that few places are looked at.
///
/// Shear across a flat bar is left out, as is what beams do not have (docs/design/frame.md).
std::vector<WorstPlace> find_worst_places(const Model& model, std::span<const FrameForces> cases,
                                          std::size_t count, WorstBy by = WorstBy::stress);

/// The same for responses of a solver.
/// @param responses  One for each of `loads`.
std::vector<WorstPlace> find_worst_places(const Model& model, std::span<const Loads> loads,
                                          std::span<const Response> responses, std::size_t count,
                                          WorstBy by = WorstBy::stress);

/// The worst places of several load cases together and of each by itself, of one look.
struct WorstOfCases {
  std::vector<WorstPlace> all;
  std::vector<std::vector<WorstPlace>> each;  ///< By case.
};
/// @param count_each  Of each case.
WorstOfCases find_worst_of_cases(const Model& model, std::span<const FrameForces> cases,
                                 std::size_t count, std::size_t count_each);

/// The worst places by either measure, of one look.
struct WorstBoth {
  std::vector<WorstPlace> by_stress;
  std::vector<WorstPlace> by_share_of_yield;
};
WorstBoth find_worst_both(const Model& model, std::span<const FrameForces> cases,
                          std::size_t count);

}  // namespace rig::frame
