#include "geometry/matrix.h"

#include <Eigen/Dense>

namespace rig {

Axes find_axes(const Eigen::MatrixXd& A) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(A);
  return {axes.eigenvalues(), axes.eigenvectors()};
}

Eigen::VectorXd find_axis_values(const Eigen::MatrixXd& A) {
  return Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(A, Eigen::EigenvaluesOnly).eigenvalues();
}

namespace {

Eigen::MatrixXd solve_pivoted(const Eigen::MatrixXd& A, const Eigen::MatrixXd& B) {
  return A.colPivHouseholderQr().solve(B);
}

}  // namespace

Eigen::VectorXd solve_least_squares(const Eigen::MatrixXd& A, const Eigen::VectorXd& b) {
  return solve_pivoted(A, b);
}

Eigen::MatrixXd invert_by_least_squares(const Eigen::MatrixXd& A) {
  return solve_pivoted(A, Eigen::MatrixXd::Identity(A.rows(), A.rows()));
}

Eigen::MatrixXd orthonormalise(const Eigen::MatrixXd& A) {
  return Eigen::HouseholderQR<Eigen::MatrixXd>(A).householderQ() *
         Eigen::MatrixXd::Identity(A.rows(), A.cols());
}

Eigen::MatrixXd invert(const Eigen::MatrixXd& A) { return A.inverse(); }

}  // namespace rig
