#pragma once

#include <Eigen/Core>
#include <vector>

namespace rig::frame {

/// Entry (row, column) of a symmetric matrix, row >= column.
struct MatrixEntry {
  int row = 0;
  int column = 0;
  double value = 0;
};

/// A symmetric matrix, each row from its first entry to the diagonal. What lies before the first
/// entry stays zero in the factors, so that they take the same room.
class Skyline {
 public:
  /// @param entries  Those at the same place are added up.
  Skyline(int size, const std::vector<MatrixEntry>& entries);

  int size() const { return static_cast<int>(first_.size()); }
  double& diagonal(int i) { return values_[place(i, i)]; }
  Eigen::VectorXd diagonal() const;

  friend class SkylineFactors;

 private:
  std::size_t place(int row, int column) const {
    return start_[static_cast<std::size_t>(row)] +
           static_cast<std::size_t>(column - first_[static_cast<std::size_t>(row)]);
  }
  /// Entries of a row from a column on.
  Eigen::Map<Eigen::VectorXd> row(int i, int from, int count) {
    return {values_.data() + place(i, from), count};
  }
  Eigen::Map<const Eigen::VectorXd> row(int i, int from, int count) const {
    return {values_.data() + place(i, from), count};
  }
  int first(int row) const { return first_[static_cast<std::size_t>(row)]; }

  std::vector<int> first_;          ///< By row: the column of its first entry.
  std::vector<std::size_t> start_;  ///< By row: where that stands among the values.
  std::vector<double> values_;
};

/// L D L^T of a positive definite matrix.
class SkylineFactors {
 public:
  explicit SkylineFactors(Skyline matrix);

  /// As a share of its diagonal; not positive when the matrix is not positive definite, and then
  /// nothing can be solved.
  double smallest_pivot() const { return smallest_pivot_; }
  /// Puts the answers in place of the right sides, by column.
  void solve_in_place(Eigen::Ref<Eigen::MatrixXd> x) const;

 private:
  Skyline factors_;  ///< L below the diagonal, D on it.
  double smallest_pivot_ = 0;
};

}  // namespace rig::frame
