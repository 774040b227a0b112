#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <Eigen/Dense>

#include "frame/order_internal.h"
#include "frame/skyline_internal.h"
#include "tests/support/test_frames.h"

namespace rig::frame {
namespace {

using Eigen::MatrixXd;

// Against Eigen's dense solver, for any skyline and any number of right sides.
RC_GTEST_PROP(Skyline, SolvesAsADenseMatrixDoes, ()) {
  std::mt19937 random(*rc::gen::arbitrary<unsigned>());
  const int n = 1 + testing::pick(random, 30);
  std::vector<int> first;
  for (int i = 0; i < n; ++i) first.push_back(testing::pick(random, i + 1));
  Skyline skyline(first);
  MatrixXd dense = MatrixXd::Zero(n, n);
  for (int i = 0; i < n; ++i) {
    for (int j = first[static_cast<std::size_t>(i)]; j <= i; ++j) {
      const double value = i == j ? n : testing::uniform(random, -1, 1);
      skyline.add(i, j, value / 2);
      skyline.add(i, j, value / 2);
      dense(i, j) = dense(j, i) = value;
    }
  }
  EXPECT_EQ(skyline.diagonal(), dense.diagonal());
  MatrixXd x = MatrixXd::Random(n, 1 + testing::pick(random, 9));
  const MatrixXd expected = dense.ldlt().solve(x);
  const double smallest = skyline.factorise();
  RC_ASSERT(smallest > 0 && smallest <= 1);
  MatrixXd one = x.col(0);
  skyline.solve(x);
  RC_ASSERT((x - expected).norm() <= 1e-12 * expected.norm());
  // A column's bits don't depend on its neighbours.
  skyline.solve(one);
  RC_ASSERT(one.col(0) == x.col(0));
}

TEST(Skyline, TellsOfAMatrixThatIsNotPositive) {
  Skyline loose({0, 0});
  loose.add(0, 0, 1);
  loose.add(1, 0, -1);
  loose.add(1, 1, 1);
  EXPECT_LE(loose.factorise(), 0);
  Skyline empty({0, 1});
  empty.add(0, 0, 2);
  EXPECT_LE(empty.factorise(), 0);
}

TEST(OrderNodes, WalksALadderFromItsEnd) {
  // Rails 0..9 and 10..19, numbered criss-cross, with rungs.
  const auto node = [](int side, int i) { return (7 * (10 * side + i) + 3) % 20; };
  std::vector<std::vector<int>> groups;
  for (int i = 0; i < 10; ++i) {
    groups.push_back({node(0, i), node(1, i)});
    if (i == 0) continue;
    for (const int side : {0, 1}) groups.push_back({node(side, i - 1), node(side, i)});
  }
  const std::vector<int> place = order_nodes(20, groups);
  int widest = 0;
  std::vector<bool> taken(20, false);
  for (const int p : place) taken[testing::at(p)] = true;
  EXPECT_EQ(std::count(taken.begin(), taken.end(), true), 20);
  for (const auto& g : groups) {
    widest = std::max(widest, std::abs(place[testing::at(g[0])] - place[testing::at(g[1])]));
  }
  EXPECT_LE(widest, 3);
}

TEST(OrderNodes, PlacesWhatIsTiedToNothing) {
  EXPECT_EQ(order_nodes(3, {{0, 2}, {1}, {}}), (std::vector<int>{2, 0, 1}));
  EXPECT_TRUE(order_nodes(0, {}).empty());
}

}  // namespace
}  // namespace rig::frame
