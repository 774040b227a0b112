#pragma once

#include <array>
#include <vector>

#include "frame/structure.h"
#include "section/stress.h"

namespace rig::frame {

/// Stresses in a section of what it carries, and of what is locked in its walls from a time when
/// there were fewer of them: they lie at the same places as far as there are walls of the same
/// part.
class LockedStress {
 public:
  /// @param before  Both sections must live on.
  LockedStress(const BeamSection& section, const section::SectionForces& forces,
               const BeamSection& before, const section::SectionForces& locked);

  /// On the middle and on both faces, as of the section.
  std::array<section::WallStress, 3> across(int wall, double share) const;

  /// Von Mises' stress is nowhere on a wall of the section above this.
  double bound_Pa(std::size_t wall) const {
    return now_.bound_Pa(wall) + most_locked_Pa_[static_cast<std::size_t>(parts_[wall])];
  }

 private:
  const section::Section& section_;
  const section::Section& before_;
  section::StressField now_, locked_;
  std::vector<int> parts_, parts_before_;  ///< Number of each wall's part.
  std::vector<double> most_locked_Pa_;     ///< By part.
};

}  // namespace rig::frame
