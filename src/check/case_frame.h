#pragma once

#include <Eigen/Core>
#include <memory>
#include <optional>

#include "check/report.h"
#include "driveline/cases.h"
#include "frame/solved_model.h"

namespace rig::check {

struct LoadedFrame;

/// The planned frame under the mounts of the cases.
class CaseFrame {
 public:
  /// @param book  What is solved for the frame's sections is added.
  CaseFrame(const build::Build& build, const Report& report, frame::SectionBook& book);

  /// How it gives under a line's mounts, as `driveline::CaseLine::frame_m_per_N`; empty without a
  /// frame that can be measured. A mount that no part of the frame carries stands still.
  Eigen::MatrixXd under(const driveline::CaseLine& line) const;

 private:
  std::shared_ptr<const LoadedFrame> loaded_;  ///< Null: `own_` instead.
  std::optional<frame::SolvedModel> own_;
};

}  // namespace rig::check
