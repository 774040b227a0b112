#include <fmt/format.h>

#include <Eigen/LU>
#include <Eigen/SVD>
#include <optional>

#include "suspension/axle_draft_internal.h"
#include "suspension/pose.h"

namespace rig::suspension {
namespace {

/// Rigid bars whose gradients are alike to this share hold the same way twice.
constexpr double kRankTolerance = 1e-9;
/// An axle restrained less than this share of its best restrained way is loose.
constexpr double kLoose = 1e-6;

std::string bar_names(const AxleModel& axle, const std::vector<Eigen::Index>& which) {
  std::string names;
  for (const auto i : which) {
    names += (names.empty() ? "" : ", ") + axle.bars[static_cast<std::size_t>(i)].name;
  }
  return names;
}

/// The direction in which nothing restrains the axle, or nothing: all restraints together, bars in
/// the free coordinates, bushes and leaves by their energy.
std::optional<const char*> find_loose_way(const LinkageSystem& system, Eigen::Index bars) {
  static constexpr const char* kWays[] = {"move fore and aft", "move sideways", "turn over",
                                          "swing round"};
  Eigen::MatrixXd all = Eigen::MatrixXd::Zero(4 + bars, 4);
  const Eigen::Matrix4d energy = system.matrix.topLeftCorner<4, 4>();
  all.topRows<4>() = energy / std::max(1.0, energy.cwiseAbs().maxCoeff());
  all.bottomRows(bars) = system.matrix.block(4, 0, bars, 4);
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(all, Eigen::ComputeFullV);
  if (svd.singularValues()[3] > kLoose * svd.singularValues()[0]) return std::nullopt;
  Eigen::Index loosest = 0;
  svd.matrixV().col(3).cwiseAbs().maxCoeff(&loosest);
  return kWays[loosest];
}

/// True when rigid bars hold the axle more than once.
bool is_redundant(const LinkageSystem& system, const std::vector<Eigen::Index>& rigid) {
  if (rigid.empty()) return false;
  Eigen::MatrixXd J(static_cast<Eigen::Index>(rigid.size()), 4);
  for (std::size_t i = 0; i < rigid.size(); ++i) {
    J.row(static_cast<Eigen::Index>(i)) = system.matrix.row(4 + rigid[i]).head<4>();
  }
  Eigen::FullPivLU<Eigen::MatrixXd> lu(J);
  lu.setThreshold(kRankTolerance);
  return lu.rank() < J.rows();
}

}  // namespace

void AxleDraft::judge_restraint() {
  const auto bars = static_cast<Eigen::Index>(model().bars.size());
  if (!placed || !linkage_complete || bars == 0) return;
  const auto blame = [&](const char* code, std::string message, std::string remedy) {
    faults.push_back({.code = code,
                      .path = axle.path,
                      .message = std::move(message),
                      .remedy = std::move(remedy),
                      .at = {}});
  };
  if (bars > kMaxBars) {
    blame("suspension.too_many_links", fmt::format("{} links on one axle", bars),
          fmt::format("at most {}", kMaxBars));
    return;
  }
  const LinkageSystem system = calc_linkage_system(model(), model().drawn(), BarForces::Zero(bars));
  std::vector<Eigen::Index> rigid;
  for (Eigen::Index i = 0; i < bars; ++i) {
    if (model().compliance_m_per_N(i, i) == 0) rigid.push_back(i);
  }
  if (is_redundant(system, rigid)) {
    blame(
        "suspension.redundant_ideal",
        fmt::format("{} links with rigid joints hold the {} axle more than once ({}): it could not "
                    "move up and roll without something giving",
                    rigid.size(), axle.id, bar_names(model(), rigid)),
        "give the links their bush rates (bushing, radial): the program then works out how much "
        "they fight each other");
  }
  if (const auto way = find_loose_way(system, bars)) {
    blame("suspension.linkage_incomplete",
          fmt::format("nothing keeps the {} axle from being free to {}", axle.id, *way),
          "an axle needs four restraints besides its springs: such as three links and a track bar, "
          "or two leaf springs");
  }
  out.has_linkage = faults.empty();
}

}  // namespace rig::suspension
