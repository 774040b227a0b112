#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/require.h"
#include "suspension/elements.h"
#include "suspension/truck_internal.h"
#include "units/factors.h"

namespace rig::suspension {
namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// The world's upward unit vector in frame axes, with derivatives in the frame's roll and pitch.
struct Upward {
  Vec3 n, by_roll, by_pitch, by_roll_roll, by_roll_pitch, by_pitch_pitch;
};

Upward upward(double roll, double pitch) {
  const double cr = std::cos(roll), sr = std::sin(roll);
  const double cp = std::cos(pitch), sp = std::sin(pitch);
  return {.n = {-sp, cp * sr, cp * cr},
          .by_roll = {0, cp * cr, -cp * sr},
          .by_pitch = {-cp, -sp * sr, -sp * cr},
          .by_roll_roll = {0, -cp * sr, -cp * cr},
          .by_roll_pitch = {0, -sp * cr, sp * sr},
          .by_pitch_pitch = {sp, -cp * sr, -cp * cr}};
}

/// A section of the frame, rolled by a share of the twist.
struct FrameSection {
  FrameSection(const TruckUnknowns& unknowns, const VectorXd& u, double share)
      : X_WS(unknowns.frame_pose(u, share)),
        up(upward(
            u[TruckUnknowns::kFrameRoll] + (share == 0 ? 0 : share * u[TruckUnknowns::kTwist]),
            u[TruckUnknowns::kFramePitch])) {}

  Pose X_WS;
  Upward up;
};

/// Adds f(h) of the world height h of one point to the whole truck's gradient and Hessian.
class HeightAdder {
 public:
  HeightAdder(const TruckUnknowns& unknowns, const VectorXd& u, TruckSystem& system)
      : unknowns_(unknowns),
        system_(system),
        frame_(unknowns, u, 0),
        sections_{FrameSection(unknowns, u, unknowns.twist_share(0)),
                  FrameSection(unknowns, u, unknowns.twist_share(1))} {}

  /// World height of a frame point.
  double frame_height(const Vec3& p_V) const { return frame_.X_WS.p_AB.z() + frame_.up.n.dot(p_V); }

  void add_on_frame(const Vec3& p_V, double slope) {
    const Vec3 s = p_V - unknowns_.balance_point();
    const Upward& up = frame_.up;
    auto r = system_.residual.head<3>();
    r += slope * Vec3(1, up.by_roll.dot(s), up.by_pitch.dot(s));
    auto H = system_.matrix.topLeftCorner<3, 3>();
    H(1, 1) += slope * up.by_roll_roll.dot(s);
    H(2, 2) += slope * up.by_pitch_pitch.dot(s);
    H(1, 2) += slope * up.by_roll_pitch.dot(s);
    H(2, 1) += slope * up.by_roll_pitch.dot(s);
  }

  /// `slope` and `rate` are f' and f'' at the point's height.
  void add_on_axle(std::size_t axle, const AxleAxes& axes, const Vec3& p_A, double slope,
                   double rate) {
    const double share = unknowns_.twist_share(axle);
    const Vec3 r = axes.R_VA * p_A;
    const Vec3 s = axes.p_VC + r - unknowns_.balance_point();
    const Upward& up = sections_[axle].up;
    const Mat3 turned = turning(axes, r);
    const auto by_axle = [&](const Vec3& along) {
      return (Vec6() << along, turned.transpose() * along).finished();
    };

    // Local order: bounce, roll, pitch, six of the axle; the twist acts as `share` of roll.
    Eigen::Matrix<double, 9, 1> by;
    by << 1, up.by_roll.dot(s), up.by_pitch.dot(s), by_axle(up.n);
    Eigen::Matrix<double, 9, 9> H = Eigen::Matrix<double, 9, 9>::Zero();
    H(1, 1) = up.by_roll_roll.dot(s);
    H(2, 2) = up.by_pitch_pitch.dot(s);
    H(1, 2) = H(2, 1) = up.by_roll_pitch.dot(s);
    H.block<6, 1>(3, 1) = by_axle(up.by_roll);
    H.block<6, 1>(3, 2) = by_axle(up.by_pitch);
    H.block<2, 6>(1, 3) = H.block<6, 2>(3, 1).transpose();
    H.bottomRightCorner<3, 3>() = rotation_curvature(axes, turned, up.n);
    H = slope * H + rate * by * by.transpose();
    by *= slope;

    const Index start = unknowns_.axle_start(axle);
    system_.residual.head<3>() += by.head<3>();
    system_.residual.segment<6>(start) += by.tail<6>();
    system_.matrix.topLeftCorner<3, 3>() += H.topLeftCorner<3, 3>();
    system_.matrix.block<3, 6>(0, start) += H.topRightCorner<3, 6>();
    system_.matrix.block<6, 3>(start, 0) += H.bottomLeftCorner<6, 3>();
    system_.matrix.block<6, 6>(start, start) += H.bottomRightCorner<6, 6>();
    if (share == 0) return;
    constexpr Index kTwist = TruckUnknowns::kTwist;
    system_.residual[kTwist] += share * by[1];
    system_.matrix(kTwist, kTwist) += share * share * H(1, 1);
    const Eigen::Matrix<double, 9, 1> by_twist = share * H.col(1);
    system_.matrix.block<3, 1>(0, kTwist) += by_twist.head<3>();
    system_.matrix.block<6, 1>(start, kTwist) += by_twist.tail<6>();
    system_.matrix.block<1, 3>(kTwist, 0) += by_twist.head<3>().transpose();
    system_.matrix.block<1, 6>(kTwist, start) += by_twist.tail<6>().transpose();
  }

  /// World height of an axle point.
  double axle_height(std::size_t axle, const AxleAxes& axes, const Vec3& p_A) const {
    return (sections_[axle].X_WS * (axes.p_VC + axes.R_VA * p_A)).z();
  }

 private:
  const TruckUnknowns& unknowns_;
  TruckSystem& system_;
  FrameSection frame_;                    ///< Its middle.
  std::array<FrameSection, 2> sections_;  ///< At each axle.
};

void add_suspension(const AxleModel& axle, const AxleAxes& axes, Index start, Index bar_start,
                    const VectorXd& u, TruckSystem& system) {
  const LinkageJets jets = calc_linkage_jets(axle, axes);
  Jet jet = jets.energy;
  jet += calc_spring_energy(axle, axes);
  system.energy_J += jet.value;
  const auto bars = static_cast<Index>(axle.bars.size());
  const auto tension = u.segment(bar_start, bars);
  for (Index i = 0; i < bars; ++i) {
    const Bar& bar = axle.bars[static_cast<std::size_t>(i)];
    const Jet& length = jets.bar_lengths[static_cast<std::size_t>(i)];
    jet.gradient += tension[i] * length.gradient;
    jet.hessian += tension[i] * length.hessian;
    system.residual[bar_start + i] = length.value - bar.length_m;
    system.matrix.block<1, 6>(bar_start + i, start) = length.gradient.transpose();
    system.matrix.block<6, 1>(start, bar_start + i) = length.gradient;
  }
  system.residual.segment(bar_start, bars) -= axle.compliance_m_per_N * tension;
  system.matrix.block(bar_start, bar_start, bars, bars) = -axle.compliance_m_per_N;
  system.residual.segment<6>(start) += jet.gradient;
  system.matrix.block<6, 6>(start, start) += jet.hessian;
}

}  // namespace

TruckUnknowns::TruckUnknowns(const TruckModel& truck) : truck_(truck) {
  RIG_REQUIRE(truck.axles.size() == 2 && truck.tyres.size() == truck.axles.size());
  twists_ = std::isfinite(truck.frame_twist_stiffness_Nm_per_rad);
  twist_shares_ = {0.5, -0.5};
  if (!truck.axles.front().front) twist_shares_ = {-0.5, 0.5};
  coordinates_ = twists_ ? 4 : 3;
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    axle_start_.push_back(coordinates_);
    coordinates_ += 6;
  }
  size_ = coordinates_;
  for (const auto& axle : truck.axles) {
    bar_start_.push_back(size_);
    size_ += static_cast<Index>(axle.bars.size());
  }
  for (int axle = -1; axle < static_cast<int>(truck.axles.size()); ++axle) {
    double mass_kg = 0;
    Vec3 moment = Vec3::Zero();
    for (const auto& mass : truck.masses) {
      if (mass.axle != axle) continue;
      mass_kg += mass.mass_kg;
      moment += mass.mass_kg * mass.p_VoCm_V;
    }
    RIG_REQUIRE(axle >= 0 || mass_kg > 0);
    if (axle < 0) balance_ = moment / mass_kg;
    if (mass_kg == 0) continue;
    weights_.push_back({units::kStandardGravity_m_per_s2 * mass_kg, moment / mass_kg, axle});
  }
  if (truck.tongue_load_N != 0) weights_.push_back({truck.tongue_load_N, truck.p_VoBall_V, -1});
  for (const Weight& weight : weights_) weight_N_ += weight.force_N;
}

std::string TruckUnknowns::name(Index coordinate) const {
  static constexpr const char* kFrame[] = {"the frame's bounce", "the frame's roll",
                                           "the frame's pitch", "the frame's twist"};
  static constexpr const char* kAxle[] = {"fore and aft", "sideways", "up and down",
                                          "roll",         "wind-up",  "swing"};
  if (coordinate < axle_start_.front()) return kFrame[coordinate];
  const std::size_t axle = coordinate < axle_start_.back() ? 0 : 1;
  return fmt::format("the {} axle's {}", truck_.axles[axle].id,
                     kAxle[coordinate - axle_start_[axle]]);
}

VectorXd TruckUnknowns::as_drawn() const {
  VectorXd u = VectorXd::Zero(size_);
  for (std::size_t a = 0; a < truck_.axles.size(); ++a) {
    u.segment<6>(axle_start_[a]) = truck_.axles[a].drawn();
  }
  return u;
}

VectorXd TruckUnknowns::from_settled(const Settled& settled) const {
  VectorXd u = VectorXd::Zero(size_);
  u[kBounce] = settled.heave_m;
  u[kFrameRoll] = settled.roll_rad;
  u[kFramePitch] = settled.pitch_rad;
  if (twists_) u[kTwist] = settled.frame_twist_rad;
  for (std::size_t a = 0; a < truck_.axles.size(); ++a) {
    u.segment<6>(axle_start_[a]) = settled.axles[a].q;
    for (std::size_t i = 0; i < settled.axles[a].bar_forces_N.size(); ++i) {
      u[bar_start_[a] + static_cast<Index>(i)] = settled.axles[a].bar_forces_N[i];
    }
  }
  return u;
}

Pose TruckUnknowns::frame_pose(const VectorXd& u, double share) const {
  const double roll = u[kFrameRoll] + (share == 0 ? 0 : share * u[kTwist]);
  const Mat3 R = rotation_from_yaw_pitch_roll(0, u[kFramePitch], roll);
  return {R, balance_ + Vec3(0, 0, u[kBounce]) - R * balance_};
}

TruckSystem calc_truck_system(const TruckModel& truck, const TruckUnknowns& unknowns,
                              const Ground& ground, const VectorXd& u) {
  RIG_REQUIRE(ground.size() == truck.axles.size());
  TruckSystem system;
  system.residual = VectorXd::Zero(unknowns.size());
  system.matrix = Eigen::MatrixXd::Zero(unknowns.size(), unknowns.size());
  HeightAdder heights(unknowns, u, system);
  std::vector<AxleAxes> axes;
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    axes.push_back(axes_from_coordinates(u.segment<6>(unknowns.axle_start(a))));
  }

  for (const auto& [force_N, p_V, axle] : unknowns.weights()) {
    if (axle < 0) {
      system.energy_J += force_N * heights.frame_height(p_V);
      heights.add_on_frame(p_V, force_N);
    } else {
      const auto a = static_cast<std::size_t>(axle);
      const Vec3 p_A = p_V - truck.axles[a].p_VC;
      system.energy_J += force_N * heights.axle_height(a, axes[a], p_A);
      heights.add_on_axle(a, axes[a], p_A, force_N, 0);
    }
  }

  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    add_suspension(truck.axles[a], axes[a], unknowns.axle_start(a), unknowns.bar_start(a), u,
                   system);
    for (const int side : {0, 1}) {
      const Vec3 hub(0, (side == 0 ? 0.5 : -0.5) * truck.axles[a].track_m, 0);
      const double height =
          heights.axle_height(a, axes[a], hub) - ground[a][static_cast<std::size_t>(side)];
      const double squash = truck.tyres[a].free_radius_m - height;
      if (squash <= 0) continue;
      const double k = truck.tyres[a].rate_N_per_m;
      system.energy_J += 0.5 * k * squash * squash;
      heights.add_on_axle(a, axes[a], hub, -k * squash, k);
    }
  }
  add_pushes(truck, unknowns, u, system);
  if (unknowns.twists()) {
    const double k = truck.frame_twist_stiffness_Nm_per_rad;
    const double twist = u[TruckUnknowns::kTwist];
    system.energy_J += 0.5 * k * twist * twist;
    system.residual[TruckUnknowns::kTwist] += k * twist;
    system.matrix(TruckUnknowns::kTwist, TruckUnknowns::kTwist) += k;
  }
  return system;
}

}  // namespace rig::suspension
