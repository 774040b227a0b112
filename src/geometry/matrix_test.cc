#include "geometry/matrix.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace rig {
namespace {

Eigen::MatrixXd random_matrix(int rows, int columns) {
  return Eigen::MatrixXd::NullaryExpr(rows, columns,
                                      [] { return *rc::gen::inRange(-1000, 1000) / 1000.0; });
}

RC_GTEST_PROP(Matrix, AxesAddUpToIt, ()) {
  const int n = *rc::gen::inRange(1, 7);
  const Eigen::MatrixXd B = random_matrix(n, n), A = B + B.transpose();
  const Axes axes = find_axes(A);
  RC_ASSERT(
      (axes.vectors * axes.values.asDiagonal() * axes.vectors.transpose()).isApprox(A, 1e-12) ||
      A.norm() < 1e-12);
  for (int i = 1; i < n; ++i) RC_ASSERT(axes.values[i] >= axes.values[i - 1]);
}

RC_GTEST_PROP(Matrix, WhatLeastSquaresLeavesIsSquareToTheColumns, ()) {
  const int columns = *rc::gen::inRange(1, 4), rows = columns + *rc::gen::inRange(0, 4);
  const Eigen::MatrixXd A = random_matrix(rows, columns);
  const Eigen::VectorXd b = random_matrix(rows, 1);
  const Eigen::VectorXd left = A * solve_least_squares(A, b) - b;
  RC_ASSERT((A.transpose() * left).norm() < 1e-9);
}

RC_GTEST_PROP(Matrix, OrthonormalColumnsSpanTheSame, ()) {
  const int columns = *rc::gen::inRange(1, 4);
  Eigen::MatrixXd A = random_matrix(6, columns);
  A.topRows(columns) += 3 * Eigen::MatrixXd::Identity(columns, columns);
  const Eigen::MatrixXd Q = orthonormalise(A);
  RC_ASSERT((Q.transpose() * Q).isIdentity(1e-12));
  RC_ASSERT((Q * (Q.transpose() * A)).isApprox(A, 1e-12));
}

RC_GTEST_PROP(Matrix, TimesItsInverseIsOne, ()) {
  const int n = *rc::gen::inRange(1, 7);
  const Eigen::MatrixXd A = random_matrix(n, n) + 10 * Eigen::MatrixXd::Identity(n, n);
  RC_ASSERT((invert(A) * A).isIdentity(1e-10));
}

}  // namespace
}  // namespace rig
