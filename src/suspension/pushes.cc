#include "suspension/jet_internal.h"
#include "suspension/truck_internal.h"

namespace rig::suspension {
namespace {

using Eigen::VectorXd;

/// How a frame section turns about the balance point: spins in W per unit of roll and of pitch.
struct Turning {
  Pose X_WS;
  Vec3 w_roll, w_pitch;
};

Turning find_turning(const TruckUnknowns& unknowns, const VectorXd& u, double share) {
  const Pose X_WS = unknowns.frame_pose(u, share);
  return {.X_WS = X_WS, .w_roll = X_WS.R_AB.col(0), .w_pitch = Vec3::UnitY()};
}

}  // namespace

void add_pushes(const TruckModel& truck, const TruckUnknowns& unknowns, const VectorXd& u,
                TruckSystem& system) {
  for (const Push& push : truck.pushes) {
    const auto axle = static_cast<std::size_t>(push.axle);
    const double share = push.axle < 0 ? 0 : unknowns.twist_share(axle);
    const Turning turning = find_turning(unknowns, u, share);
    Vec3 p_V = push.p_VoP_V;
    if (push.axle >= 0) {
      const auto start = unknowns.axle_start(axle);
      const AxleAxes axes = axes_from_coordinates(u.segment<6>(start));
      const Vec3 r = axes.R_VA * (push.p_VoP_V - truck.axles[axle].p_VC);
      p_V = axes.p_VC + r;
      system.residual.segment<6>(start) -=
          point_jacobian(axes, r).transpose() * (turning.X_WS.R_AB.transpose() * push.f_P_W);
    }
    const Vec3 moment_W = (turning.X_WS.R_AB * (p_V - unknowns.balance_point())).cross(push.f_P_W);
    const double by_roll = turning.w_roll.dot(moment_W);
    system.energy_J -= push.f_P_W.dot(turning.X_WS * p_V);
    system.residual[TruckUnknowns::kBounce] -= push.f_P_W.z();
    system.residual[TruckUnknowns::kFrameRoll] -= by_roll;
    system.residual[TruckUnknowns::kFramePitch] -= turning.w_pitch.dot(moment_W);
    if (unknowns.twists()) system.residual[TruckUnknowns::kTwist] -= share * by_roll;
  }
}

}  // namespace rig::suspension
