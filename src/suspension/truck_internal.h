#pragma once

#include <string>

#include "suspension/settle.h"

namespace rig::suspension {

/// How the whole truck's unknowns lie in one vector: frame bounce, roll, pitch (and twist), six per
/// axle, then one tension per bar.
///
/// The frame turns about its own balance point; plan position and heading are held. When it twists,
/// the section of axle `a` is rolled by `twist_share(a)` times the twist against its middle.
class TruckUnknowns {
 public:
  explicit TruckUnknowns(const TruckModel& truck);

  static constexpr Eigen::Index kBounce = 0, kFrameRoll = 1, kFramePitch = 2, kTwist = 3;

  bool twists() const { return twists_; }
  double twist_share(std::size_t axle) const { return twists_ ? twist_shares_[axle] : 0; }
  Eigen::Index axle_start(std::size_t axle) const { return axle_start_[axle]; }
  Eigen::Index bar_start(std::size_t axle) const { return bar_start_[axle]; }
  Eigen::Index coordinates() const { return coordinates_; }
  Eigen::Index size() const { return size_; }
  double weight_N() const { return weight_N_; }
  const Vec3& balance_point() const { return balance_; }
  /// A rigid body's weight, at its balance point; the tongue's load, at the ball.
  struct Weight {
    double force_N = 0;
    Vec3 p_VoP_V = Vec3::Zero();  ///< As drawn.
    int axle = -1;                ///< Or -1: the frame.
  };
  const std::vector<Weight>& weights() const { return weights_; }
  std::string name(Eigen::Index coordinate) const;

  Eigen::VectorXd as_drawn() const;
  Eigen::VectorXd from_settled(const Settled& settled) const;
  /// Pose of the frame, or of a section that is rolled by `share` of the twist.
  Pose frame_pose(const Eigen::VectorXd& u, double share) const;

 private:
  const TruckModel& truck_;
  bool twists_ = false;
  std::vector<double> twist_shares_;
  std::vector<Eigen::Index> axle_start_, bar_start_;
  Eigen::Index coordinates_ = 0, size_ = 0;
  double weight_N_ = 0;
  std::vector<Weight> weights_;
  Vec3 balance_ = Vec3::Zero();
};

/// Unbalanced forces and misfits of the whole truck, and their matrix of derivatives (symmetric).
struct TruckSystem {
  double energy_J = 0;  ///< Of everything but the bars.
  Eigen::VectorXd residual;
  Eigen::MatrixXd matrix;
};
TruckSystem calc_truck_system(const TruckModel& truck, const TruckUnknowns& unknowns,
                              const Ground& ground, const Eigen::VectorXd& u);

/// Adds the work of the truck's pushes, and its slope. Their small stiffness is left out: the steps
/// of Newton's method come out a little off, the balance that they lead to does not.
void add_pushes(const TruckModel& truck, const TruckUnknowns& unknowns, const Eigen::VectorXd& u,
                TruckSystem& system);

}  // namespace rig::suspension
