#include <Eigen/LU>
#include <cmath>

#include "base/nan.h"
#include "suspension/elements.h"
#include "suspension/pose_numbers_internal.h"

namespace rig::suspension {
namespace {

/// A side-view instant centre further away than this is told as being at infinity.
constexpr double kFarthestCentre_m = 1e4;

Vec3 spin(const AxleAxes& axes, const Vec6& rate) {
  return axes.w_roll * rate[kRoll] + axes.w_pitch * rate[kPitch] + AxleAxes::w_yaw() * rate[kYaw];
}

struct Motion {
  Vec6 dq = Vec6::Zero();
  Vec3 w = Vec3::Zero();    ///< Spin per unit.
  Vec3 v_C = Vec3::Zero();  ///< Velocity of C per unit.
};

Motion make_motion(const AxleAxes& axes, const Vec6& dq) {
  return {dq, spin(axes, dq), dq.head<3>()};
}

/// Change of the wheel line's heading and tilt per unit of motion.
std::array<double, 2> wheel_line_rates(const AxleAxes& axes, const Motion& motion) {
  const Vec3 line = axes.R_VA.col(1);
  const Vec3 turn = motion.w.cross(line);
  const double flat = line.x() * line.x() + line.y() * line.y();
  return {(line.x() * turn.y() - line.y() * turn.x()) / flat, turn.z() / std::sqrt(flat)};
}

void fill_geometry(const AxleModel& axle, const TruckNumbers& truck, const AxleAxes& axes,
                   const Motion& heave, const Motion& roll, PoseNumbers& n) {
  const double r = axle.loaded_radius_m;
  const Vec3 line = axes.R_VA.col(1);
  n.heading_rad = std::atan2(-line.x(), line.y());
  n.tilt_rad = std::asin(line.z());

  n.roll_centre_height_m = r + roll.v_C.y() / roll.w.x();
  n.roll_axis_slope = roll.w.z() / roll.w.x();
  const auto [heading_rate, tilt_rate] = wheel_line_rates(axes, roll);
  n.roll_steer = heading_rate / tilt_rate;

  n.contact_slope = heave.v_C.x() - r * heave.w.y();
  n.pitch_per_heave_rad_per_m = heave.w.y();
  if (std::abs(heave.w.y()) * kFarthestCentre_m > 1) {
    n.instant_centre_ahead_m = 1 / heave.w.y();
    n.instant_centre_height_m = r - heave.v_C.x() / heave.w.y();
  }
  const double percent = n.contact_slope * truck.wheelbase_m / truck.cg_height_m;
  const double sense = axle.front ? 1 : -1;
  n.anti_drive = sense * percent * truck.drive_share;
  n.anti_brake = sense * percent * truck.brake_share;
}

/// Greatest force in a link, or at the apex of an arm.
double greatest_load(const AxleModel& axle, const AxleAxes& axes, const BarForces& tension_N) {
  const auto pull = [&](int bar) -> Vec3 {
    const Bar& b = axle.bars[static_cast<std::size_t>(bar)];
    return tension_N[bar] * (axes.p_VC + axes.R_VA * b.p_AQ - b.p_VP).normalized();
  };
  std::vector<bool> in_arm(axle.bars.size(), false);
  double greatest = 0;
  for (const auto& [first, second] : axle.arms) {
    in_arm[static_cast<std::size_t>(first)] = in_arm[static_cast<std::size_t>(second)] = true;
    greatest = std::max(greatest, (pull(first) + pull(second)).norm());
  }
  for (std::size_t i = 0; i < axle.bars.size(); ++i) {
    if (!in_arm[i]) greatest = std::max(greatest, pull(static_cast<int>(i)).norm());
  }
  return greatest;
}

/// The linkage's system at a pose, and the same factorised.
struct PoseSystem {
  PoseSystem(const AxleModel& axle, const AxleAxes& axes, const BarForces& bind_N)
      : jets(calc_linkage_jets(axle, axes)),
        system(make_linkage_system(axle, jets, bind_N)),
        factor(system.matrix) {}

  LinkageJets jets;
  LinkageSystem system;
  Eigen::PartialPivLU<SmallMatrix> factor;
};

/// Forces and rates that the springs make on the solved pose.
void fill_forces(const AxleModel& axle, const AxleAxes& axes, const LinkagePose& pose,
                 const PoseSystem& at, SweptPose& swept) {
  const auto bars = static_cast<Eigen::Index>(axle.bars.size());
  PoseNumbers& n = swept.numbers;
  n.bind_N = greatest_load(axle, axes, pose.bind_N);
  Vec6 bind = at.jets.bushes.gradient;
  for (Eigen::Index i = 0; i < bars; ++i) {
    bind += pose.bind_N[i] * at.jets.bar_lengths[static_cast<std::size_t>(i)].gradient;
  }
  n.bind_roll_Nm = bind[kRoll];
  n.bind_heave_N = bind[kZ];

  // Bars' answer to the springs: linear response about the pose where the links put the axle.
  const Jet springs = calc_spring_energy(axle, axes);
  SmallVector load = SmallVector::Zero(4 + bars);
  for (std::size_t i = 0; i < 4; ++i)
    load[static_cast<Eigen::Index>(i)] = springs.gradient[kFree[i]];
  const SmallVector answer = at.factor.solve(-load);
  const BarForces tension = pose.bind_N + answer.tail(bars);
  swept.bar_forces_N.assign(tension.data(), tension.data() + bars);

  // Stiffness against heave and roll with the load in: Schur complement on the held coordinates.
  LinkageSystem loaded = at.system;
  Jet total = springs;
  total += at.jets.energy;
  for (Eigen::Index i = 0; i < bars; ++i) {
    const Jet& length = at.jets.bar_lengths[static_cast<std::size_t>(i)];
    total.gradient += tension[i] * length.gradient;
    total.hessian += tension[i] * length.hessian;
  }
  for (std::size_t i = 0; i < 4; ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    for (std::size_t k = 0; k < 4; ++k) {
      loaded.matrix(row, static_cast<Eigen::Index>(k)) = total.hessian(kFree[i], kFree[k]);
    }
    for (std::size_t h = 0; h < 2; ++h) {
      loaded.held(row, static_cast<Eigen::Index>(h)) = total.hessian(kFree[i], kHeld[h]);
    }
  }
  const SmallMatrix follow = loaded.matrix.partialPivLu().solve(loaded.held);
  const auto stiffness = [&](std::size_t a, std::size_t b) {
    return total.hessian(kHeld[a], kHeld[b]) - loaded.held.col(static_cast<Eigen::Index>(a))
                                                   .dot(follow.col(static_cast<Eigen::Index>(b)));
  };
  n.wheel_load_N = total.gradient[kZ] / 2;
  n.wheel_rate_N_per_m = stiffness(0, 0) / 2;
  n.roll_rate_Nm_per_rad = stiffness(1, 1);
}

/// Angle between a bar's direction now and as drawn, seen from the body that holds the joint.
double swing(const Vec3& now, const Vec3& drawn) {
  return std::atan2(now.cross(drawn).norm(), now.dot(drawn));
}

void fill_elements(const AxleModel& axle, const AxleAxes& axes, const Vec6& per_heave,
                   SweptPose& swept) {
  for (const auto& bar : axle.bars) {
    const Vec3 now = axes.p_VC + axes.R_VA * bar.p_AQ - bar.p_VP;
    const Vec3 drawn = axle.p_VC + bar.p_AQ - bar.p_VP;
    swept.bar_swing_frame_rad.push_back(swing(now, drawn));
    swept.bar_swing_axle_rad.push_back(swing(axes.R_VA.transpose() * now, drawn));
  }
  for (const auto& coil : axle.coils) {
    const Jet length = distance_jet(axes, coil.p_VP, coil.p_AQ);
    swept.coil_lengths_m.push_back(length.value);
    swept.coil_motion_ratios.push_back(-length.gradient.dot(per_heave));
  }
  for (const auto& shock : axle.shocks) {
    const Jet length = distance_jet(axes, shock.p_VP, shock.p_AQ);
    swept.shock_lengths_m.push_back(length.value);
    swept.shock_motion_ratios.push_back(-length.gradient.dot(per_heave));
  }
  for (const auto& stop : axle.stops) {
    const double length = calc_distance(axes, stop.p_VP, stop.p_AQ);
    swept.stop_compressions_m.push_back(std::max(0.0, stop.free_height_m - length));
  }
}

/// Past a coil's solid length or a shock's end the truck can't be: no load is told there.
bool beyond_limits(const AxleModel& axle, const SweptPose& swept) {
  for (std::size_t i = 0; i < axle.coils.size(); ++i) {
    if (swept.coil_lengths_m[i] < axle.coils[i].solid_length_m) return true;
  }
  for (std::size_t i = 0; i < axle.shocks.size(); ++i) {
    const double length = swept.shock_lengths_m[i];
    if (length < axle.shocks[i].closed_length_m || length > axle.shocks[i].open_length_m)
      return true;
  }
  return false;
}

Eigen::Matrix<double, 6, 2> calc_derivatives(const PoseSystem& at) {
  const SmallMatrix follow = at.factor.solve(-at.system.held);
  Eigen::Matrix<double, 6, 2> dq = Eigen::Matrix<double, 6, 2>::Zero();
  for (std::size_t h = 0; h < 2; ++h) {
    const auto column = static_cast<Eigen::Index>(h);
    dq(kHeld[h], column) = 1;
    for (std::size_t k = 0; k < 4; ++k) {
      dq(kFree[k], column) = follow(static_cast<Eigen::Index>(k), column);
    }
  }
  return dq;
}

}  // namespace

Eigen::Matrix<double, 6, 2> calc_pose_derivatives(const AxleModel& axle, const LinkagePose& pose) {
  return calc_derivatives(PoseSystem(axle, axes_from_coordinates(pose.q), pose.bind_N));
}

SweptPose calc_swept_pose(const AxleModel& axle, const TruckNumbers& truck,
                          const LinkagePose& pose) {
  const AxleAxes axes = axes_from_coordinates(pose.q);
  const PoseSystem at(axle, axes, pose.bind_N);
  const auto dq = calc_derivatives(at);
  SweptPose swept;
  swept.q = pose.q;
  swept.R_VA = axes.R_VA;
  PoseNumbers& n = swept.numbers;
  n.heave_m = pose.q[kZ] - axle.p_VC.z();
  n.roll_rad = pose.q[kRoll];
  n.lateral_shift_m = pose.q[kY] - axle.p_VC.y();
  n.forward_shift_m = pose.q[kX] - axle.p_VC.x();
  n.nose_up_rad = -pose.q[kPitch];
  fill_geometry(axle, truck, axes, make_motion(axes, dq.col(0)), make_motion(axes, dq.col(1)), n);
  fill_forces(axle, axes, pose, at, swept);
  fill_elements(axle, axes, dq.col(0), swept);
  const bool carries = !axle.coils.empty() || !axle.leaf_halves.empty();
  if (!carries || beyond_limits(axle, swept)) {
    n.wheel_rate_N_per_m = n.roll_rate_Nm_per_rad = n.wheel_load_N = kNaN;
    std::fill(swept.bar_forces_N.begin(), swept.bar_forces_N.end(), kNaN);
  }
  return swept;
}

}  // namespace rig::suspension
