// Forces under a body that gives: against trying every set of places that may carry.

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/LU>
#include <cmath>
#include <optional>
#include <random>

#include "frame/contact_internal.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

struct Problem {
  MatrixXd flexibility;
  VectorXd heights;
  std::vector<Vec2> places;
  double weight_N = 0;
};

using testing::uniform;

Problem make_problem(std::mt19937& random) {
  const Index n = 3 + static_cast<Index>(random() % 5);
  Problem p;
  const MatrixXd root = MatrixXd::NullaryExpr(n, n, [&] { return uniform(random, -1, 1); });
  p.flexibility = 1e-6 * (root * root.transpose() + 0.01 * MatrixXd::Identity(n, n));
  p.weight_N = uniform(random, 100, 20000);
  p.heights = VectorXd::NullaryExpr(n, [&] { return 1e-6 * p.weight_N * uniform(random, -1, 1); });
  // The first three around the point of balance.
  for (Index i = 0; i < n; ++i) {
    const double angle = i < 3 ? 2.1 * static_cast<double>(i) + uniform(random, -0.4, 0.4)
                               : uniform(random, 0, 6.28);
    p.places.emplace_back(uniform(random, 0.3, 3) * Vec2(std::cos(angle), std::sin(angle)));
  }
  return p;
}

/// The answer among all sets; none when there is none or it hangs on rounding.
std::optional<VectorXd> try_every_set(const Problem& p) {
  const Index n = p.heights.size();
  std::optional<VectorXd> found;
  for (unsigned set = 0; set < (1U << n); ++set) {
    std::vector<Index> on;
    for (Index i = 0; i < n; ++i) {
      if ((set >> i) & 1U) on.push_back(i);
    }
    const auto m = static_cast<Index>(on.size());
    if (m < 3) continue;
    MatrixXd matrix = MatrixXd::Zero(m + 3, m + 3);
    VectorXd right = VectorXd::Zero(m + 3);
    const auto lever = [&](Index i) {
      const Vec2& at = p.places[static_cast<std::size_t>(i)];
      return Vec3(1, at.x(), at.y());
    };
    for (Index a = 0; a < m; ++a) {
      const Index i = on[static_cast<std::size_t>(a)];
      for (Index b = 0; b < m; ++b) {
        matrix(a, b) = 1e6 * p.flexibility(i, on[static_cast<std::size_t>(b)]);
      }
      matrix.block<3, 1>(m, a) = lever(i);
      matrix.block<1, 3>(a, m) = lever(i).transpose();
      right[a] = -1e6 * p.heights[i];
    }
    right[m] = p.weight_N;
    const VectorXd x = matrix.fullPivLu().solve(right);
    if ((matrix * x - right).norm() > 1e-6 * right.norm()) continue;
    VectorXd forces = VectorXd::Zero(n);
    for (Index a = 0; a < m; ++a) forces[on[static_cast<std::size_t>(a)]] = x[a];
    bool right_one = forces.minCoeff() >= 0;
    for (Index i = 0; i < n; ++i) {
      const double gap =
          1e6 * (p.flexibility.row(i).dot(forces) + p.heights[i]) + lever(i).dot(Vec3(x.tail<3>()));
      right_one = right_one && (((set >> i) & 1U) != 0 || gap >= 0);
    }
    if (right_one) found = forces;
  }
  return found;
}

RC_GTEST_PROP(Contact, IsTheOnlySetThatFits, ()) {
  std::mt19937 random(*rc::gen::arbitrary<unsigned>());
  for (int i = 0; i < 10; ++i) {
    const Problem p = make_problem(random);
    const ContactAnswer answer = solve_contact(p.flexibility, p.heights, p.places, p.weight_N);
    RC_ASSERT(answer.found);
    const auto expected = try_every_set(p);
    RC_ASSERT(expected.has_value());
    RC_ASSERT((answer.forces_N - *expected).norm() < 1e-7 * p.weight_N);
    Vec2 moment = Vec2::Zero();
    for (Index k = 0; k < p.heights.size(); ++k) {
      moment += answer.forces_N[k] * p.places[static_cast<std::size_t>(k)];
      const Vec2& at = p.places[static_cast<std::size_t>(k)];
      const double height_m = p.flexibility.row(k).dot(answer.forces_N) + p.heights[k] +
                              answer.plane.dot(Vec3(1, at.x(), at.y()));
      RC_ASSERT(std::abs(height_m - answer.gaps_m[k]) < 1e-8 * 1e-6 * p.weight_N);
    }
    RC_ASSERT(std::abs(answer.forces_N.sum() - p.weight_N) < 1e-9 * p.weight_N);
    RC_ASSERT(moment.norm() < 1e-9 * p.weight_N);
  }
}

}  // namespace
}  // namespace rig::frame
