#include <Eigen/Cholesky>
#include <algorithm>
#include <utility>

#include "frame/block_band_internal.h"

namespace rig::frame {

using Eigen::Index;

BlockBand::BlockBand(const std::vector<int>& last) {
  const auto size = static_cast<Index>(last.size());
  block_of_.reserve(last.size());
  Index place = 0, end = size > 0 ? 1 : 0;
  for (Index begin = 0; begin < size;) {
    // The next block: as far as the columns of this one reach.
    Index reach = std::min(size, end + 1);
    for (Index i = begin; i < end; ++i) {
      reach = std::max<Index>(reach, last[static_cast<std::size_t>(i)] + 1);
    }
    block_of_.resize(static_cast<std::size_t>(end), block_.size());
    block_.push_back(
        {.begin = begin, .width = end - begin, .height = reach - begin, .place = place});
    place += (reach - begin) * (end - begin);
    begin = end;
    end = reach;
  }
  values_.assign(static_cast<std::size_t>(place), 0);
}

Eigen::VectorXd BlockBand::diagonal() const {
  Eigen::VectorXd out(size());
  for (Index k = 0; k < blocks(); ++k) out.segment(begin(k), width(k)) = panel(k).diagonal();
  return out;
}

BlockBandFactors::BlockBandFactors(BlockBand matrix) : factors_(std::move(matrix)) {
  const Eigen::VectorXd diagonal = factors_.diagonal();
  for (Index k = 0; k < factors_.blocks(); ++k) {
    auto panel = factors_.panel(k);
    const Index width = panel.cols(), below = panel.rows() - width;
    Eigen::Ref<Eigen::MatrixXd> block = panel.topRows(width);
    const Eigen::LLT<Eigen::Ref<Eigen::MatrixXd>> llt(block);
    if (llt.info() != Eigen::Success) return;
    if (below == 0) continue;
    auto tie = panel.bottomRows(below);
    block.triangularView<Eigen::Lower>().transpose().solveInPlace<Eigen::OnTheRight>(tie);
    factors_.panel(k + 1).topRows(below).selfadjointView<Eigen::Lower>().rankUpdate(tie, -1);
  }
  smallest_pivot_ = factors_.diagonal().cwiseAbs2().cwiseQuotient(diagonal).minCoeff();
}

void BlockBandFactors::solve_in_place(Eigen::Ref<Eigen::MatrixXd> x) const {
  // One by one, so that an answer does not depend on what is asked with it.
  for (Index column = 0; column < x.cols(); ++column) {
    auto b = x.col(column);
    for (Index k = 0; k < factors_.blocks(); ++k) {
      const auto panel = factors_.panel(k);
      for (Index j = 0; j < panel.cols(); ++j) {
        const Index i = factors_.begin(k) + j, below = panel.rows() - j - 1;
        if (b[i] == 0) continue;  // Nothing pushes so far.
        b[i] /= panel(j, j);
        b.segment(i + 1, below) -= b[i] * panel.col(j).tail(below);
      }
    }
    for (Index k = factors_.blocks() - 1; k >= 0; --k) {
      const auto panel = factors_.panel(k);
      for (Index j = panel.cols() - 1; j >= 0; --j) {
        const Index i = factors_.begin(k) + j, below = panel.rows() - j - 1;
        b[i] = (b[i] - panel.col(j).tail(below).dot(b.segment(i + 1, below))) / panel(j, j);
      }
    }
  }
}

}  // namespace rig::frame
