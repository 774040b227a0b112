#include <algorithm>
#include <limits>
#include <numeric>
#include <utility>

#include "frame/skyline_internal.h"

namespace rig::frame {

Skyline::Skyline(int size, const std::vector<MatrixEntry>& entries)
    : first_(static_cast<std::size_t>(size)), start_(first_.size()) {
  std::iota(first_.begin(), first_.end(), 0);
  for (const MatrixEntry& entry : entries) {
    int& first = first_[static_cast<std::size_t>(entry.row)];
    first = std::min(first, entry.column);
  }
  std::size_t count = 0;
  for (std::size_t i = 0; i < first_.size(); ++i) {
    start_[i] = count;
    count += i + 1 - static_cast<std::size_t>(first_[i]);
  }
  values_.assign(count, 0);
  for (const MatrixEntry& entry : entries) values_[place(entry.row, entry.column)] += entry.value;
}

Eigen::VectorXd Skyline::diagonal() const {
  Eigen::VectorXd out(size());
  for (int i = 0; i < size(); ++i) out[i] = values_[place(i, i)];
  return out;
}

SkylineFactors::SkylineFactors(Skyline matrix) : factors_(std::move(matrix)) {
  double smallest = std::numeric_limits<double>::infinity();
  for (int i = 0; i < factors_.size(); ++i) {
    const int first = factors_.first(i);
    auto row = factors_.row(i, first, i - first);
    // a_ij = sum over k <= j of L_ik D_k L_jk: first L_ij D_j, then L_ij.
    for (int j = first; j < i; ++j) {
      const int from = std::max(first, factors_.first(j)), count = j - from;
      row[j - first] -= row.segment(from - first, count).dot(factors_.row(j, from, count));
    }
    double& pivot = factors_.diagonal(i);
    const double diagonal = pivot;
    for (int j = first; j < i; ++j) {
      const double scaled = row[j - first] / factors_.diagonal(j);
      pivot -= scaled * row[j - first];
      row[j - first] = scaled;
    }
    if (!(pivot > 0)) return;
    smallest = std::min(smallest, pivot / diagonal);
  }
  smallest_pivot_ = smallest;
}

void SkylineFactors::solve_in_place(Eigen::Ref<Eigen::MatrixXd> x) const {
  const Eigen::VectorXd pivots = factors_.diagonal();
  const int size = factors_.size();
  for (Eigen::Index column = 0; column < x.cols(); ++column) {
    auto b = x.col(column);
    for (int i = 0; i < size; ++i) {
      const int first = factors_.first(i), count = i - first;
      b[i] -= factors_.row(i, first, count).dot(b.segment(first, count));
    }
    b.array() /= pivots.array();
    for (int i = size - 1; i >= 0; --i) {
      const int first = factors_.first(i), count = i - first;
      b.segment(first, count) -= b[i] * factors_.row(i, first, count);
    }
  }
}

}  // namespace rig::frame
