#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include "frame/skyline_internal.h"

namespace rig::frame {

namespace {

constexpr int kTile = Skyline::kTile;
using Tile = Skyline::Tile;
using Piece = Eigen::Matrix<double, kTile, 1>;

/// Turns a tile A = L L^T into L by columns; false where it is not positive definite.
/// @param pivots  What is left of each diagonal.
bool factorise_tile(Tile& A, Piece& pivots) {
  for (int c = 0; c < kTile; ++c) {
    pivots[c] = A(c, c);
    if (!(pivots[c] > 0)) return false;
    for (int r = kTile - 1; r >= c; --r) A(r, c) /= std::sqrt(pivots[c]);
    for (int k = c + 1; k < kTile; ++k) {
      for (int r = k; r < kTile; ++r) A(r, k) -= A(r, c) * A(k, c);
    }
  }
  return true;
}

Tile invert_lower(const Tile& L) {
  Tile out = Tile::Identity();
  for (int c = 0; c < kTile; ++c) {
    for (int r = c; r < kTile; ++r) {
      for (int k = c; k < r; ++k) out(r, c) -= L(r, k) * out(k, c);
      out(r, c) /= L(r, r);
    }
  }
  return out;
}

}  // namespace

Skyline::Skyline(const std::vector<int>& first) : size_(static_cast<int>(first.size())) {
  const int rows = (size_ + kTile - 1) / kTile;
  row_.reserve(static_cast<std::size_t>(rows));
  Eigen::Index places = 0;
  for (int row = 0; row < rows; ++row) {
    const auto begin = first.begin() + std::ptrdiff_t{row} * kTile;
    const auto end = first.begin() + std::min((row + 1) * kTile, size_);
    const int least = *std::min_element(begin, end) / kTile;
    row_.push_back({.first = least, .origin = (places - least) * kTile * kTile});
    places += row - least + 1;
  }
  values_.assign(static_cast<std::size_t>(places * kTile * kTile), 0);
  for (int i = size_; i < rows * kTile; ++i) entry(i, i) = 1;
}

Eigen::VectorXd Skyline::diagonal() const {
  Eigen::VectorXd out(size_);
  for (int i = 0; i < size_; ++i) out[i] = entry(i, i);
  return out;
}

SkylineFactors::SkylineFactors(Skyline matrix) : factors_(std::move(matrix)) {
  double smallest = 1;
  for (int i = 0; i < factors_.rows(); ++i) {
    const int first = factors_.first(i);
    const auto less_those_before = [&](int j) {
      Tile left = factors_.tile(i, j);
      for (int k = std::max(first, factors_.first(j)); k < j; ++k) {
        const auto a = factors_.tile(i, k), b = factors_.tile(j, k);
        for (int c = 0; c < kTile; ++c) left -= a.col(c).lazyProduct(b.col(c).transpose());
      }
      return left;
    };
    for (int j = first; j < i; ++j) {
      factors_.tile(i, j) = less_those_before(j).lazyProduct(factors_.tile(j, j).transpose());
    }
    Tile own = less_those_before(i);
    Piece pivots;
    if (!factorise_tile(own, pivots)) return;
    const Piece shares = pivots.cwiseQuotient(factors_.tile(i, i).diagonal());
    smallest = std::min(smallest, shares.minCoeff());
    factors_.tile(i, i) = invert_lower(own);
  }
  smallest_pivot_ = smallest;
}

void SkylineFactors::solve_in_place(Eigen::Ref<Eigen::MatrixXd> x) const {
  const int rows = factors_.rows();
  std::vector<Piece> b(static_cast<std::size_t>(rows));
  const auto piece = [&](int row) -> Piece& { return b[static_cast<std::size_t>(row)]; };
  // One by one, so that an answer does not depend on what is asked with it.
  for (Eigen::Index column = 0; column < x.cols(); ++column) {
    piece(rows - 1).setZero();
    Eigen::Map<Eigen::VectorXd>(b.front().data(), x.rows()) = x.col(column);
    int pushed = 0;  // Nothing pushes on what is before.
    while (pushed < rows && piece(pushed).isZero(0)) ++pushed;
    for (int i = pushed; i < rows; ++i) {
      Piece left = piece(i);
      for (int k = std::max(pushed, factors_.first(i)); k < i; ++k) {
        left -= factors_.tile(i, k).lazyProduct(piece(k));
      }
      piece(i) = factors_.tile(i, i).lazyProduct(left);
    }
    for (int i = rows - 1; i >= 0; --i) {
      const Piece own = factors_.tile(i, i).transpose().lazyProduct(piece(i));
      for (int k = factors_.first(i); k < i; ++k) {
        piece(k) -= factors_.tile(i, k).transpose().lazyProduct(own);
      }
      piece(i) = own;
    }
    x.col(column) = Eigen::Map<const Eigen::VectorXd>(b.front().data(), x.rows());
  }
}

}  // namespace rig::frame
