#include <fmt/format.h>

#include <Eigen/LU>
#include <Eigen/SVD>

#include "suspension/axle_draft_internal.h"
#include "suspension/pose.h"

namespace rig::suspension {
namespace {

/// A restraint weaker than this share of the strongest is no restraint.
constexpr double kRankTolerance = 1e-9;

std::string bar_names(const AxleModel& axle, const std::vector<Eigen::Index>& which) {
  std::string names;
  for (const auto i : which) {
    names += (names.empty() ? "" : ", ") + axle.bars[static_cast<std::size_t>(i)].name;
  }
  return names;
}

}  // namespace

/// Are there enough restraints, and not more ideal ones than can move?
void AxleDraft::judge_restraint() {
  const auto bars = static_cast<Eigen::Index>(model().bars.size());
  if (!placed || !linkage_complete || bars == 0) return;
  if (bars > kMaxBars) {
    faults.push_back({.code = "suspension.too_many_links",
                      .path = axle.path,
                      .message = fmt::format("{} links on one axle", bars),
                      .remedy = fmt::format("at most {}", kMaxBars),
                      .at = {}});
    return;
  }
  const LinkageSystem system = calc_linkage_system(model(), model().drawn(), BarForces::Zero(bars));
  std::vector<Eigen::Index> ideal;
  for (Eigen::Index i = 0; i < bars; ++i) {
    if (model().compliance_m_per_N(i, i) == 0) ideal.push_back(i);
  }
  Eigen::MatrixXd J(static_cast<Eigen::Index>(ideal.size()), 4);
  for (std::size_t i = 0; i < ideal.size(); ++i) {
    J.row(static_cast<Eigen::Index>(i)) = system.matrix.row(4 + ideal[i]).head<4>();
  }
  Eigen::Index rank = 0;
  if (!ideal.empty()) {
    Eigen::FullPivLU<Eigen::MatrixXd> lu(J);
    lu.setThreshold(kRankTolerance);
    rank = lu.rank();
  }
  if (rank < static_cast<Eigen::Index>(ideal.size())) {
    faults.push_back(
        {.code = "suspension.redundant_ideal",
         .path = axle.path,
         .message = fmt::format("{} links with rigid joints hold the {} axle more than once ({}): "
                                "it could not move up and roll without something giving",
                                ideal.size(), axle.id, bar_names(model(), ideal)),
         .remedy = "give the links their bush rates (bushing, radial): the program then works out "
                   "how much they fight each other",
         .at = {}});
    return;
  }
  // All restraints together: bars in the free coordinates, bushes and leaves by their energy.
  Eigen::MatrixXd all = Eigen::MatrixXd::Zero(4 + bars, 4);
  const Eigen::Matrix4d energy = system.matrix.topLeftCorner<4, 4>();
  const double scale = std::max(1.0, energy.cwiseAbs().maxCoeff());
  all.topRows<4>() = energy / scale;
  all.bottomRows(bars) = system.matrix.block(4, 0, bars, 4);
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(all, Eigen::ComputeFullV);
  if (svd.singularValues()[3] > 1e-6 * svd.singularValues()[0]) {
    out.has_linkage = true;
    return;
  }
  static constexpr const char* kLoose[] = {"move fore and aft", "move sideways", "turn over",
                                           "swing round"};
  Eigen::Index loosest = 0;
  svd.matrixV().col(3).cwiseAbs().maxCoeff(&loosest);
  faults.push_back({.code = "suspension.linkage_incomplete",
                    .path = axle.path,
                    .message = fmt::format("nothing keeps the {} axle from being free to {}",
                                           axle.id, kLoose[loosest]),
                    .remedy = "an axle needs four restraints besides its springs: such as three "
                              "links and a track bar, or two leaf springs",
                    .at = {}});
}

}  // namespace rig::suspension
