#pragma once

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

  section::WallStress at(const section::WallPoint& place) const;

 private:
  const section::Section& section_;
  const section::Section& before_;
  section::StressField now_, locked_;
  std::vector<std::vector<int>> same_part_;  ///< By wall of the section: walls of before.
};

}  // namespace rig::frame
