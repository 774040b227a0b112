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
/// Softer than this an axle is not held but hung in rubber; numbers of ours. 50 kN/m lets a side
/// force of 2 kN, a tenth of a truck's weight, move it 40 mm; leaf packs and links reach ten times
/// that.
constexpr double kSoftest_N_per_m = 50e3;
/// The same at half a track of 0.8 m.
constexpr double kSoftestSwing_Nm_per_rad = 30e3;
constexpr double kSingular = 1e-14;
/// An axle restrained less than this share of its best restrained way is loose.
constexpr double kLoose = 1e-6;

std::string bar_names(const AxleModel& axle, const std::vector<Eigen::Index>& which) {
  std::string names;
  for (const auto i : which) {
    names += (names.empty() ? "" : ", ") + axle.bars[static_cast<std::size_t>(i)].name;
  }
  return names;
}

/// The way in which nothing to speak of restrains the axle, or nothing: the least stiffness of all
/// restraints together, with heave and roll held.
std::optional<const char*> find_loose_way(const LinkageSystem& system, Eigen::Index bars) {
  struct Way {
    const char* words;
    double softest;  ///< N/m, then N m/rad; 0: soft wind-up is told by the sweep, not refused.
  };
  static constexpr Way kWays[] = {{"move fore and aft", kSoftest_N_per_m},
                                  {"move sideways", kSoftest_N_per_m},
                                  {"turn over", 0},
                                  {"swing round", kSoftestSwing_Nm_per_rad}};
  const Eigen::MatrixXd matrix = system.matrix;
  Eigen::FullPivLU<Eigen::MatrixXd> lu(matrix);
  lu.setThreshold(kSingular);
  if (!lu.isInvertible()) {
    // The direction that none of the bars and energies answers.
    Eigen::MatrixXd all = Eigen::MatrixXd::Zero(4 + bars, 4);
    const Eigen::Matrix4d energy = system.matrix.topLeftCorner<4, 4>();
    all.topRows<4>() = energy / std::max(1.0, energy.cwiseAbs().maxCoeff());
    all.bottomRows(bars) = system.matrix.block(4, 0, bars, 4);
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(all, Eigen::ComputeFullV);
    if (svd.singularValues()[3] > kLoose * svd.singularValues()[0]) return std::nullopt;
    Eigen::Index loosest = 0;
    svd.matrixV().col(3).cwiseAbs().maxCoeff(&loosest);
    return kWays[loosest].words;
  }
  const Eigen::MatrixXd give = lu.inverse();
  for (Eigen::Index i = 0; i < 4; ++i) {
    if (give(i, i) * kWays[i].softest > 1) return kWays[i].words;
  }
  return std::nullopt;
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
          fmt::format("nothing but rubber, if that, keeps the {} axle from being free to {}",
                      axle.id, *way),
          "an axle needs four restraints besides its springs: such as three links and a track bar, "
          "or two leaf springs");
  }
  out.has_linkage = faults.empty();
}

}  // namespace rig::suspension
