#pragma once

#include <Eigen/Core>

/// What is asked of small dense matrices, compiled once here: as templates, these take the compiler
/// longer than all else in a file that uses them.
namespace rig {

/// A = sum of value * vector * vector^T.
struct Axes {
  Eigen::VectorXd values;   ///< Rising.
  Eigen::MatrixXd vectors;  ///< By column, of length 1.
};

/// @param A  Symmetric; what stands below the diagonal counts.
Axes find_axes(const Eigen::MatrixXd& A);

/// Their values alone, rising: a third of the work.
Eigen::VectorXd find_axis_values(const Eigen::MatrixXd& A);

/// x of the least |A x - b|, by columns that are swapped as they are reduced.
Eigen::VectorXd solve_least_squares(const Eigen::MatrixXd& A, const Eigen::VectorXd& b);

/// What that does to any b, as a matrix.
Eigen::MatrixXd invert_by_least_squares(const Eigen::MatrixXd& A);

/// Columns of length 1, square to each other, that span what the columns of A span.
/// @param A  Of independent columns.
Eigen::MatrixXd orthonormalise(const Eigen::MatrixXd& A);

/// @param A  Square, not singular.
Eigen::MatrixXd invert(const Eigen::MatrixXd& A);

}  // namespace rig
