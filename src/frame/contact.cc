#include <Eigen/LU>
#include <algorithm>
#include <array>
#include <cmath>

#include "frame/contact_internal.h"

namespace rig::frame {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Forces below this share of the weight, and gaps below this share of what the weight bends, are
/// rounding.
constexpr double kContactRounding = 1e-10;

/// Goes from one set of places that carry to the next. Forces by weight, heights by the largest
/// flexibility times weight, lengths by the distance of the furthest place.
class ContactSearch {
 public:
  ContactSearch(const MatrixXd& flexibility, const VectorXd& heights, const MatrixXd& levers)
      : flexibility_(flexibility),
        heights_(heights),
        levers_(levers),
        count_(heights.size()),
        carries_(static_cast<std::size_t>(count_), 0),
        forces_(VectorXd::Zero(count_)) {}

  bool run() {
    if (!start()) return false;
    const Index most = 10 * count_ * count_;
    for (Index i = 0; i < most; ++i) {
      const VectorXd wanted = solve_carrying();
      if (wanted.minCoeff() < -kContactRounding) {
        step_towards(wanted);
        continue;
      }
      forces_ = wanted.cwiseMax(0);
      gaps_ = heights_ + flexibility_ * wanted + levers_.transpose() * plane_;
      Index lowest = -1;
      for (Index k = 0; k < count_; ++k) {
        if (carries(k)) {
          gaps_[k] = 0;
        } else if (lowest < 0 || gaps_[k] < gaps_[lowest]) {
          lowest = k;
        }
      }
      if (lowest < 0 || gaps_[lowest] > -kContactRounding) return true;
      carries(lowest) = 1;
    }
    return false;
  }

  const VectorXd& forces() const { return forces_; }
  VectorXd gaps() const { return gaps_.cwiseMax(0); }
  const Vec3& plane() const { return plane_; }
  const std::vector<char>& carrying() const { return carries_; }

 private:
  char& carries(Index i) { return carries_[static_cast<std::size_t>(i)]; }

  /// Three places around the point of balance, as well within as can be.
  bool start() {
    std::array<Index, 3> best{};
    Vec3 shares = Vec3::Zero();
    double least = -kContactRounding;
    for (Index i = 0; i < count_; ++i) {
      for (Index j = i + 1; j < count_; ++j) {
        for (Index k = j + 1; k < count_; ++k) {
          const Vec2 a = place(i), b = place(j), c = place(k);
          const Vec3 parts(cross(b, c), cross(c, a), cross(a, b));
          const double twice_area = parts.sum();
          if (std::abs(twice_area) < kContactRounding) continue;
          const Vec3 split = parts / twice_area;
          if (split.minCoeff() <= least) continue;
          least = split.minCoeff();
          shares = split;
          best = {i, j, k};
        }
      }
    }
    if (best[2] == 0) return false;
    for (std::size_t i = 0; i < 3; ++i) {
      carries(best[i]) = 1;
      forces_[best[i]] = std::max(shares[static_cast<Index>(i)], 0.0);
    }
    return true;
  }

  Vec2 place(Index i) const { return {levers_(1, i), levers_(2, i)}; }

  /// Least energy with what carries, signs aside; [Nocedal] (16.4).
  VectorXd solve_carrying() {
    std::vector<Index> on;
    for (Index i = 0; i < count_; ++i) {
      if (carries(i)) on.push_back(i);
    }
    const auto n = static_cast<Index>(on.size());
    MatrixXd matrix = MatrixXd::Zero(n + 3, n + 3);
    VectorXd right = VectorXd::Zero(n + 3);
    for (Index i = 0; i < n; ++i) {
      const Index a = on[static_cast<std::size_t>(i)];
      for (Index j = 0; j < n; ++j) {
        matrix(i, j) = flexibility_(a, on[static_cast<std::size_t>(j)]);
      }
      matrix.block<1, 3>(i, n) = levers_.col(a).transpose();
      matrix.block<3, 1>(n, i) = levers_.col(a);
      right[i] = -heights_[a];
    }
    right[n] = 1;
    const VectorXd answer = matrix.fullPivLu().solve(right);
    VectorXd forces = VectorXd::Zero(count_);
    for (Index i = 0; i < n; ++i) forces[on[static_cast<std::size_t>(i)]] = answer[i];
    plane_ = answer.tail<3>();
    return forces;
  }

  /// As far as no force is pulled below zero; what reaches it first lifts off.
  void step_towards(const VectorXd& wanted) {
    double share = 1;
    Index first = -1;
    for (Index i = 0; i < count_; ++i) {
      if (!carries(i) || wanted[i] >= -kContactRounding) continue;
      const double reach = forces_[i] / (forces_[i] - wanted[i]);
      if (first >= 0 && reach >= share) continue;
      share = reach;
      first = i;
    }
    forces_ += share * (wanted - forces_);
    forces_[first] = 0;
    carries(first) = 0;
  }

  const MatrixXd& flexibility_;
  const VectorXd& heights_;
  const MatrixXd& levers_;
  Index count_;
  std::vector<char> carries_;
  VectorXd forces_, gaps_;
  Vec3 plane_ = Vec3::Zero();
};

}  // namespace

ContactAnswer solve_contact(const MatrixXd& flexibility_m_per_N, const VectorXd& heights_m,
                            const std::vector<Vec2>& places, double weight_N) {
  const double give_m = flexibility_m_per_N.cwiseAbs().maxCoeff() * weight_N;
  double size_m = 0;
  for (const Vec2& p : places) size_m = std::max(size_m, p.norm());
  MatrixXd levers(3, heights_m.size());
  for (Index i = 0; i < levers.cols(); ++i) {
    levers.col(i) << 1, places[static_cast<std::size_t>(i)] / size_m;
  }
  const MatrixXd flexibility = flexibility_m_per_N * (weight_N / give_m);
  const VectorXd heights = heights_m / give_m;
  ContactSearch search(flexibility, heights, levers);
  if (!search.run()) return {};
  return {
      .found = true,
      .forces_N = search.forces() * weight_N,
      .gaps_m = search.gaps() * give_m,
      .resting = search.carrying(),
      .plane = Vec3(search.plane().x(), search.plane().y() / size_m, search.plane().z() / size_m) *
               give_m};
}

}  // namespace rig::frame
