#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Cholesky>
#include <algorithm>
#include <numeric>
#include <random>

#include "frame/skyline_internal.h"

namespace rig::frame {
namespace {

using Eigen::MatrixXd;

struct Entry {
  int row = 0, column = 0;
  double value = 0;
};

struct Random {
  std::mt19937 engine;
  int whole(int from, int to) { return std::uniform_int_distribution<int>(from, to)(engine); }
  double real() { return std::uniform_real_distribution<double>(-1, 1)(engine); }
};

/// Springs between any two freedoms and one to the ground at each: positive definite, with any
/// pattern.
std::vector<Entry> make_entries(int size, Random& random) {
  std::vector<Entry> out;
  for (int i = 0; i < size; ++i) out.push_back({i, i, 0.1 + std::abs(random.real())});
  for (int spring = random.whole(0, 3 * size); spring > 0; --spring) {
    const int a = random.whole(0, size - 1), b = random.whole(0, size - 1);
    if (a == b) continue;
    const double stiffness = std::abs(random.real());
    out.push_back({a, a, stiffness});
    out.push_back({b, b, stiffness});
    out.push_back({std::max(a, b), std::min(a, b), -stiffness});
  }
  return out;
}

MatrixXd make_dense(int size, const std::vector<Entry>& entries) {
  MatrixXd out = MatrixXd::Zero(size, size);
  for (const Entry& entry : entries) {
    out(entry.row, entry.column) += entry.value;
    if (entry.row != entry.column) out(entry.column, entry.row) += entry.value;
  }
  return out;
}

Skyline make_skyline(int size, const std::vector<Entry>& entries) {
  std::vector<int> first(static_cast<std::size_t>(size));
  std::iota(first.begin(), first.end(), 0);
  for (const Entry& entry : entries) {
    int& column = first[static_cast<std::size_t>(entry.row)];
    column = std::min(column, entry.column);
  }
  Skyline out(first);
  for (const Entry& entry : entries) out.entry(entry.row, entry.column) += entry.value;
  return out;
}

double smallest_pivot(int size, const std::vector<Entry>& entries) {
  return SkylineFactors(make_skyline(size, entries)).smallest_pivot();
}

// Eigen's dense factors.
RC_GTEST_PROP(Skyline, SolvesAsDenseFactorsDo, ()) {
  Random random{std::mt19937(*rc::gen::arbitrary<unsigned>())};
  const int size = random.whole(1, 40), columns = random.whole(1, 3);
  const auto entries = make_entries(size, random);
  const MatrixXd dense = make_dense(size, entries);
  const MatrixXd right = MatrixXd::NullaryExpr(size, columns, [&] { return random.real(); });
  const Skyline matrix = make_skyline(size, entries);
  RC_ASSERT((matrix.diagonal() - dense.diagonal()).norm() < 1e-12 * dense.norm());
  const SkylineFactors factors(matrix);
  RC_ASSERT(factors.smallest_pivot() > 0);
  MatrixXd x = right;
  factors.solve_in_place(x);
  const MatrixXd expected = dense.llt().solve(right);
  RC_ASSERT((x - expected).norm() < 1e-10 * expected.norm());
}

// Pivots of the chain 2 -1, -1 2 ... are 2, 3/2, 4/3, ... (n + 1)/n.
TEST(Skyline, SmallestPivotIsAShareOfItsDiagonal) {
  constexpr int kSize = 9;
  std::vector<Entry> entries;
  for (int i = 0; i < kSize; ++i) entries.push_back({i, i, 2});
  for (int i = 1; i < kSize; ++i) entries.push_back({i, i - 1, -1});
  EXPECT_NEAR(smallest_pivot(kSize, entries), 10.0 / 9 / 2, 1e-14);
}

TEST(Skyline, HasNoPivotWhereTheMatrixIsNotPositive) {
  EXPECT_EQ(smallest_pivot(2, {{0, 0, 1}, {1, 1, 1}, {1, 0, -1}}), 0);
  EXPECT_EQ(smallest_pivot(2, {{0, 0, 1}, {1, 1, 1}, {1, 0, 2}}), 0);
  EXPECT_EQ(smallest_pivot(1, {}), 0);
}

}  // namespace
}  // namespace rig::frame
