#pragma once

#include <array>
#include <vector>

#include "suspension/model.h"

/// Where the links put an axle whose heave and roll are given.
namespace rig::suspension {

/// Small dense matrices: four free coordinates and up to twenty bars, without the heap.
inline constexpr int kMaxBars = 20;
inline constexpr int kMaxUnknowns = 4 + kMaxBars;
using SmallMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::ColMajor,
                                  kMaxUnknowns, kMaxUnknowns>;
using SmallVector = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor, kMaxUnknowns, 1>;
using BarForces = Eigen::Matrix<double, Eigen::Dynamic, 1, Eigen::ColMajor, kMaxBars, 1>;

/// The coordinates that are free when heave (z) and roll are held.
inline constexpr std::array<int, 4> kFree{kX, kY, kPitch, kYaw};
/// Those that are held.
inline constexpr std::array<int, 2> kHeld{kZ, kRoll};

/// A solved pose: coordinates, and what the bars carry without any spring (their bind).
struct LinkagePose {
  Vec6 q = Vec6::Zero();
  BarForces bind_N;  ///< Tension +, one per bar.
};

/// An axle made ready for solving many poses.
class Linkage {
 public:
  /// Requires at most kMaxBars bars and a square compliance matrix of their number.
  static Linkage make(const AxleModel& axle);

  const AxleModel& axle() const { return axle_; }

  /// The pose as drawn, solved; bind comes from lengths that do not fit, normally none.
  LinkagePose drawn() const;

  /// Moves `pose` to the given z of C and roll by Newton's method from where it is.
  ///
  /// Ideal bars are rigid; the others and the bushes take the energy minimum at the held
  /// coordinates.
  /// @return False when it did not converge; `pose` is then unspecified.
  /// @accuracy Last Newton step below 1e-8 m and rad, so the error is near rounding.
  bool solve(double z_m, double roll_rad, LinkagePose& pose) const;

  /// Determinant of the bars' unit gradients in the free coordinates; it changes sign where an
  /// ideal linkage passes dead centre. 1 for linkages that are not four ideal bars.
  double assembly_sign(const Vec6& q) const;

 private:
  explicit Linkage(AxleModel axle) : axle_(std::move(axle)) {}
  bool solve_four_ideal(double z_m, double roll_rad, Vec6& q) const;
  bool solve_general(double z_m, double roll_rad, LinkagePose& pose) const;

  struct IdealBar {
    double P[3];
    double Q[3];
    double half_length_squared;
  };

  AxleModel axle_;
  bool four_ideal_ = false;
  std::array<IdealBar, 4> ideal_{};
};

/// The linear system of the linkage at a pose: rows and columns are the free coordinates, then the
/// bars. [H J^T; J -C] with H of the linkage energy and of the bars' tension.
struct LinkageSystem {
  SmallMatrix matrix;    ///< (4 + bars) square.
  SmallMatrix held;      ///< (4 + bars) x 2: the same rows against heave and roll.
  SmallVector residual;  ///< Unbalanced generalised forces, then misfit of the bars.
};
LinkageSystem calc_linkage_system(const AxleModel& axle, const Vec6& q, const BarForces& tension_N);

}  // namespace rig::suspension
