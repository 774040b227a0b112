#include <algorithm>

#include "frame/skyline_internal.h"

namespace rig::frame {

namespace {

using Eigen::Index;

/// In place of a pivot that is none, as a share of its diagonal.
constexpr double kNoPivot = 1e-20;

double dot(const double* a, const double* b, int length) {
  return Eigen::Map<const Eigen::VectorXd>(a, length).dot(
      Eigen::Map<const Eigen::VectorXd>(b, length));
}

}  // namespace

Skyline::Skyline(std::vector<int> first)
    : first_(std::move(first)), diagonal_(Eigen::VectorXd::Zero(size())) {
  std::size_t next = 0;
  for (int i = 0; i < size(); ++i) {
    start_.push_back(next);
    next += static_cast<std::size_t>(i - this->first(i));
  }
  entries_.assign(next, 0.0);
}

double Skyline::factorise() {
  double smallest = 1;
  for (int i = 0; i < size(); ++i) {
    const int from = first(i);
    double* const own = entries_.data() + start_[static_cast<std::size_t>(i)];
    // L_ij D_j, for want of the D_j.
    for (int j = from; j < i; ++j) {
      const int shared = std::max(from, first(j));
      if (shared < j) {
        own[j - from] -= dot(own + (shared - from), row(j) + (shared - first(j)), j - shared);
      }
    }
    const double before = diagonal_[i];
    for (int j = from; j < i; ++j) {
      const double scaled = own[j - from] / diagonal_[j];
      diagonal_[i] -= scaled * own[j - from];
      own[j - from] = scaled;
    }
    smallest = std::min(smallest, before > 0 ? diagonal_[i] / before : 0.0);
    if (!(diagonal_[i] > 0)) diagonal_[i] = before > 0 ? kNoPivot * before : 1;
  }
  return smallest;
}

void Skyline::solve(Eigen::Ref<Eigen::MatrixXd> x) const {
  // Four columns at a time, side by side; each with the same operations whatever its neighbours.
  constexpr Index kColumns = 4;
  using Chunk = Eigen::Matrix<double, Eigen::Dynamic, kColumns, Eigen::RowMajor>;
  using Row = Eigen::Matrix<double, 1, kColumns>;
  Chunk chunk(size(), kColumns);
  for (Index c = 0; c < x.cols(); c += kColumns) {
    const Index columns = std::min(kColumns, x.cols() - c);
    chunk.setZero();
    chunk.leftCols(columns) = x.middleCols(c, columns);
    for (int i = 0; i < size(); ++i) {
      const double* const own = row(i);
      Row sum = chunk.row(i);
      for (int j = first(i); j < i; ++j) sum -= own[j - first(i)] * chunk.row(j);
      chunk.row(i) = sum;
    }
    for (int i = 0; i < size(); ++i) chunk.row(i) /= diagonal_[i];
    for (int i = size() - 1; i >= 0; --i) {
      const double* const own = row(i);
      const Row done = chunk.row(i);
      for (int j = first(i); j < i; ++j) chunk.row(j) -= own[j - first(i)] * done;
    }
    x.middleCols(c, columns) = chunk.leftCols(columns);
  }
}

}  // namespace rig::frame
