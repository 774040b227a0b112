#pragma once

#include <Eigen/Core>
#include <vector>

namespace rig::frame {

/// A sparse symmetric matrix by rows of tiles, each from its first entry to the diagonal: freedoms
/// in the order of a long frame's stations have their entries near it.
class Skyline {
 public:
  static constexpr int kTile = 4;
  using Tile = Eigen::Matrix<double, kTile, kTile>;
  using TileInPlace = Eigen::Map<Tile, Eigen::Aligned16>;
  using ConstTileInPlace = Eigen::Map<const Tile, Eigen::Aligned16>;

  Skyline() = default;

  /// All zero.
  /// @param first  By row: the first column with an entry, at most the row itself.
  explicit Skyline(const std::vector<int>& first);

  int size() const { return size_; }
  /// On and below the diagonal.
  double& entry(int row, int column) { return values_[place(row, column)]; }
  double entry(int row, int column) const { return values_[place(row, column)]; }
  Eigen::VectorXd diagonal() const;

  /// Rows of tiles. The last may reach past the matrix, where its diagonal is one.
  int rows() const { return static_cast<int>(row_.size()); }
  /// The first tile of a row.
  int first(int row) const { return of(row).first; }
  /// Of one on the diagonal what stands above it means nothing.
  TileInPlace tile(int row, int column) { return TileInPlace(&entry(row * kTile, column * kTile)); }
  ConstTileInPlace tile(int row, int column) const {
    return ConstTileInPlace(values_.data() + place(row * kTile, column * kTile));
  }

 private:
  struct Row {
    int first = 0;
    Eigen::Index origin = 0;  ///< Where a tile of column 0 would begin among the values.
  };
  const Row& of(int row) const { return row_[static_cast<std::size_t>(row)]; }
  /// Tiles stand one after the other, each by columns.
  std::size_t place(int row, int column) const {
    const auto r = static_cast<unsigned>(row);
    return static_cast<std::size_t>(row_[r / kTile].origin + Eigen::Index{column} * kTile) +
           r % kTile;
  }

  int size_ = 0;
  std::vector<Row> row_;
  std::vector<double> values_;
};

/// Its Cholesky factors L L^T, in which each row begins where that of the matrix does.
class SkylineFactors {
 public:
  SkylineFactors() = default;
  explicit SkylineFactors(Skyline matrix);

  /// As a share of its diagonal; zero when the matrix is not positive definite.
  double smallest_pivot() const { return smallest_pivot_; }

  /// By columns of x.
  void solve_in_place(Eigen::Ref<Eigen::MatrixXd> x) const;

 private:
  Skyline factors_;  ///< L, but its tiles on the diagonal inverted.
  double smallest_pivot_ = 0;
};

}  // namespace rig::frame
