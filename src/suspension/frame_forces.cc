#include "suspension/frame_forces.h"

#include "suspension/elements.h"
#include "suspension/truck_internal.h"
#include "units/factors.h"

namespace rig::suspension {
namespace {

/// Gathers an axle's forces, seen from its section of the frame.
class AxleForces {
 public:
  AxleForces(const TruckModel& truck, std::size_t axle, const AxleAxes& axes,
             std::vector<FrameForce>& out)
      : model_(truck.axles[axle]), axle_(static_cast<int>(axle)), axes_(axes), out_(out) {}

  void add_all(const SettledAxle& settled) {
    for (std::size_t i = 0; i < model_.bars.size(); ++i) {
      const Bar& bar = model_.bars[i];
      add(bar, settled.bar_forces_N[i] * calc_bar_length(bar, axes_).gradient.head<3>());
    }
    for (const auto& bush : model_.bush_moments) {
      const Bar& bar = model_.bars[static_cast<std::size_t>(bush.bar)];
      const Vec3 f =
          calc_bush_energy(bush, bar, calc_bar_length(bar, axes_), axes_).gradient.head<3>();
      bush.on_axle ? add(bar, f) : add_at_axle(bar, f);
    }
    for (const auto& half : model_.leaf_halves) {
      add_at_axle(half, calc_leaf_energy(half, axes_).gradient.head<3>());
    }
    for (const auto& coil : model_.coils) add(coil, push(calc_coil_energy(coil, axes_)));
    for (const auto& stop : model_.stops) add(stop, push(calc_stop_energy(stop, axes_)));
    for (const auto& shock : model_.shocks) add(shock, push(calc_shock_energy(shock, axes_)));
    for (const auto& bar : model_.roll_bars) {
      const double moment_Nm = calc_roll_bar_energy(bar, axes_).gradient[kRoll];
      out_.push_back({.path = bar.path,
                      .name = bar.name,
                      .axle = axle_,
                      .p_VoP_V = model_.p_VC,
                      .p_VoF_V = axes_.p_VC,
                      .f_F_V = Vec3::Zero(),
                      .t_V = couple(moment_Nm)});
    }
  }

 private:
  static Vec3 push(const Jet& energy) { return energy.gradient.head<3>(); }

  /// The couple on the frame of an energy that depends on the axle's roll alone: no work in its
  /// pitch and yaw.
  Vec3 couple(double moment_Nm) const {
    Mat3 spins;
    spins << axes_.w_roll, axes_.w_pitch, AxleAxes::w_yaw();
    return spins.transpose().inverse() * Vec3(moment_Nm, 0, 0);
  }

  template <typename Element>
  void add_force(const Element& element, const Vec3& f, const Vec3& p_VoF_V) {
    out_.push_back({.path = element.path,
                    .name = element.name,
                    .axle = axle_,
                    .p_VoP_V = element.p_VP,
                    .p_VoF_V = p_VoF_V,
                    .f_F_V = f});
  }
  template <typename Element>
  void add(const Element& element, const Vec3& f) {
    add_force(element, f, element.p_VP);
  }
  template <typename Element>
  void add_at_axle(const Element& element, const Vec3& f) {
    add_force(element, f, axes_.p_VC + axes_.R_VA * element.p_AQ);
  }

  const AxleModel& model_;
  int axle_;
  const AxleAxes& axes_;
  std::vector<FrameForce>& out_;
};

}  // namespace

std::vector<FrameForce> calc_frame_forces(const TruckModel& truck, const Settled& settled) {
  const TruckUnknowns unknowns(truck);
  const Eigen::VectorXd u = unknowns.from_settled(settled);
  std::vector<FrameForce> out;
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    const std::size_t first = out.size();
    const AxleAxes axes = axes_from_coordinates(settled.axles[a].q);
    AxleForces(truck, a, axes, out).add_all(settled.axles[a]);
    const double share = unknowns.twist_share(a);
    if (share == 0) continue;
    const Pose X_VS = settled.X_WV.inverse() * unknowns.frame_pose(u, share);
    for (std::size_t i = first; i < out.size(); ++i) {
      out[i].p_VoF_V = X_VS * out[i].p_VoF_V;
      out[i].f_F_V = X_VS.R_AB * out[i].f_F_V;
      out[i].t_V = X_VS.R_AB * out[i].t_V;
    }
  }
  return out;
}

FrameWeight calc_frame_weight(const TruckModel& truck, const Settled& settled) {
  FrameWeight out;
  const Mat3& R_WV = settled.X_WV.R_AB;
  const auto add = [&](const Vec3& p_V, const Vec3& f_W) {
    const Vec3 f_V = R_WV.transpose() * f_W;
    out.f_V += f_V;
    out.t_Vo_V += p_V.cross(f_V);
  };
  for (const auto& mass : truck.masses) {
    if (mass.axle >= 0) continue;
    add(mass.p_VoCm_V, {0, 0, -units::kStandardGravity_m_per_s2 * mass.mass_kg});
  }
  if (truck.tongue_load_N != 0) add(truck.p_VoBall_V, {0, 0, -truck.tongue_load_N});
  for (const auto& push : truck.pushes) {
    if (push.axle < 0) add(push.p_VoP_V, push.f_P_W);
  }
  return out;
}

}  // namespace rig::suspension
