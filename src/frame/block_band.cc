#include <Eigen/Cholesky>
#include <algorithm>
#include <utility>

#include "frame/block_band_internal.h"

namespace rig::frame {

namespace {

using Eigen::Index;

/// @param x  A vector or a matrix.
template <typename X>
void solve(const BlockBand& factors, X& x) {
  const Index blocks = factors.blocks();
  const auto rows = [&](Index k) { return x.middleRows(factors.begin(k), factors.width(k)); };
  for (Index k = 0; k < blocks; ++k) {
    const auto panel = factors.panel(k);
    const Index width = panel.cols(), below = panel.rows() - width;
    auto here = rows(k);
    panel.topRows(width).template triangularView<Eigen::Lower>().solveInPlace(here);
    if (below > 0) rows(k + 1).noalias() -= panel.bottomRows(below) * here;
  }
  for (Index k = blocks - 1; k >= 0; --k) {
    const auto panel = factors.panel(k);
    const Index width = panel.cols(), below = panel.rows() - width;
    auto here = rows(k);
    if (below > 0) here.noalias() -= panel.bottomRows(below).transpose() * rows(k + 1);
    panel.topRows(width).transpose().template triangularView<Eigen::Upper>().solveInPlace(here);
  }
}

}  // namespace

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
  if (x.cols() == 1) {
    auto column = x.col(0);
    solve(factors_, column);
  } else {
    solve(factors_, x);
  }
}

}  // namespace rig::frame
