#pragma once

#include <Eigen/Core>

#include "check/report.h"
#include "driveline/cases.h"

namespace rig::check {

/// How the planned frame gives under a line's mounts, as `driveline::CaseLine::frame_m_per_N`;
/// empty while nothing loads the frame. A mount that no part of the frame carries stands still.
Eigen::MatrixXd frame_under_mounts(const Report& report, const driveline::CaseLine& line);

}  // namespace rig::check
