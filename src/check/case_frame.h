#pragma once

#include <Eigen/Core>
#include <optional>

#include "check/report.h"
#include "driveline/cases.h"
#include "frame/solved_model.h"

namespace rig::check {

/// The planned frame under the mounts of the cases.
class CaseFrame {
 public:
  /// @param book  What is solved for the frame's sections is added.
  CaseFrame(const build::Build& build, const Report& report, frame::SectionBook& book);

  /// How it gives under a line's mounts, as `driveline::CaseLine::frame_m_per_N`; empty without a
  /// frame that can be measured. A mount that no part of the frame carries stands still.
  Eigen::MatrixXd under(const driveline::CaseLine& line) const;

 private:
  std::optional<frame::SolvedModel> planned_;  ///< None where it can't be solved.
};

}  // namespace rig::check
