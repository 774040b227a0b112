#pragma once

#include <Eigen/Core>
#include <vector>

namespace rig::frame {

/// A symmetric matrix that is empty left of a skyline: of each row, what stands from its first
/// entry to the diagonal. Factorised in place as L D L^T, which fills nothing outside.
class Skyline {
 public:
  /// @param first  Column of each row's first entry; not beyond the diagonal.
  explicit Skyline(std::vector<int> first);

  int size() const { return static_cast<int>(first_.size()); }
  const Eigen::VectorXd& diagonal() const { return diagonal_; }

  /// Adds to an entry inside the skyline, column <= row.
  void add(int row, int column, double value) {
    if (row == column) {
      diagonal_[row] += value;
    } else {
      entry(row, column) += value;
    }
  }

  /// Turns the matrix into its factors.
  /// @return  Smallest pivot as a share of its diagonal; not positive when the matrix is not.
  double factorise();

  /// Once factorised: x = matrix^-1 x, column by column.
  void solve(Eigen::Ref<Eigen::MatrixXd> x) const;

 private:
  int first(int row) const { return first_[static_cast<std::size_t>(row)]; }
  double& entry(int row, int column) {
    return entries_[start_[static_cast<std::size_t>(row)] +
                    static_cast<std::size_t>(column - first(row))];
  }
  const double* row(int i) const { return entries_.data() + start_[static_cast<std::size_t>(i)]; }

  std::vector<int> first_;
  std::vector<std::size_t> start_;  ///< Of each row in `entries_`.
  std::vector<double> entries_;
  Eigen::VectorXd diagonal_;
};

}  // namespace rig::frame
