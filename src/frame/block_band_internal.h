#pragma once

#include <Eigen/Core>
#include <vector>

namespace rig::frame {

/// A sparse symmetric matrix in blocks along its diagonal, each tied to the next alone: freedoms in
/// the order of a long frame's stations. What stands on and below the diagonal is kept, by block
/// with what lies below it.
class BlockBand {
 public:
  using Panel = Eigen::Map<Eigen::MatrixXd>;
  using ConstPanel = Eigen::Map<const Eigen::MatrixXd>;

  BlockBand() = default;

  /// All zero.
  /// @param last  By column: the last row with an entry, on or below the diagonal.
  explicit BlockBand(const std::vector<int>& last);

  int size() const { return static_cast<int>(block_of_.size()); }
  Eigen::Index blocks() const { return static_cast<Eigen::Index>(block_.size()); }
  Eigen::Index begin(Eigen::Index block) const { return of(block).begin; }
  Eigen::Index width(Eigen::Index block) const { return of(block).width; }

  /// A block and, below it, what ties the next one to it.
  Panel panel(Eigen::Index block) {
    const Block& b = of(block);
    return {values_.data() + b.place, b.height, b.width};
  }
  ConstPanel panel(Eigen::Index block) const {
    const Block& b = of(block);
    return {values_.data() + b.place, b.height, b.width};
  }

  /// A column's entries by their row: at least the column itself, at most its last.
  class Column {
   public:
    Column(double* first, int begin) : first_(first), begin_(begin) {}
    double& operator[](int row) const { return first_[row - begin_]; }

   private:
    double* first_;
    int begin_;  ///< Row of the first.
  };
  Column column(int column) {
    const Block& b = block_[block_of_[static_cast<std::size_t>(column)]];
    return {values_.data() + b.place + (column - b.begin) * b.height, static_cast<int>(b.begin)};
  }
  double& entry(int row, int column) { return this->column(column)[row]; }

  Eigen::VectorXd diagonal() const;

 private:
  struct Block {
    Eigen::Index begin = 0;  ///< First column.
    Eigen::Index width = 0;
    Eigen::Index height = 0;  ///< Of its panel.
    Eigen::Index place = 0;   ///< Of its panel among the values.
  };
  const Block& of(Eigen::Index block) const { return block_[static_cast<std::size_t>(block)]; }

  std::vector<Block> block_;
  std::vector<std::size_t> block_of_;  ///< By column.
  std::vector<double> values_;
};

/// Its Cholesky factors L L^T: Eigen's of each block, less what those before have taken from it.
class BlockBandFactors {
 public:
  BlockBandFactors() = default;
  explicit BlockBandFactors(BlockBand matrix);

  /// As a share of its diagonal; zero when the matrix is not positive definite.
  double smallest_pivot() const { return smallest_pivot_; }

  /// By columns of x.
  void solve_in_place(Eigen::Ref<Eigen::MatrixXd> x) const;

 private:
  BlockBand factors_;
  double smallest_pivot_ = 0;
};

}  // namespace rig::frame
