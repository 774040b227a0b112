#pragma once

#include "suspension/elements.h"
#include "suspension/pose.h"
#include "suspension/sweep.h"

namespace rig::suspension {

/// First derivatives of the axle coordinates along the solved poses, by the implicit function
/// theorem: column 0 per heave, column 1 per roll.
Eigen::Matrix<double, 6, 2> calc_pose_derivatives(const AxleModel& axle, const LinkagePose& pose);

/// `calc_linkage_system` where the jets are known.
LinkageSystem make_linkage_system(const AxleModel& axle, const LinkageJets& jets,
                                  const BarForces& tension_N);

/// Everything that is told about one solved pose.
SweptPose calc_swept_pose(const AxleModel& axle, const TruckNumbers& truck,
                          const LinkagePose& pose);

}  // namespace rig::suspension
