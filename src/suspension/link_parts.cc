#include <fmt/format.h>

#include <array>
#include <numbers>

#include "suspension/arm_internal.h"
#include "suspension/axle_draft_internal.h"

namespace rig::suspension {
namespace {

/// Carbon steel. [Shigley] Table A-5.
constexpr double kSteelModulus_Pa = 207e9;
/// Link ends nearer than this are one point.
constexpr double kShortest_m = 1e-3;

/// Compliance of a bush, m/N, as a tensor in V; the axial rate, when not given, is the radial one.
Mat3 bush_compliance(const build::Bushing& bush) {
  const Vec3 bolt = build::unit_vector(bush.bolt);
  const double radial = 1 / bush.radial.si;
  const double axial = bush.axial.known() ? 1 / bush.axial.si : radial;
  return radial * (Mat3::Identity() - bolt * bolt.transpose()) + axial * bolt * bolt.transpose();
}

}  // namespace

bool AxleDraft::add_bar(std::string name, const std::string& path, const Vec3& p_VP,
                        const Vec3& p_VQ) {
  const double length = (p_VQ - p_VP).norm();
  if (length < kShortest_m) {
    faults.push_back({.code = "suspension.zero_length",
                      .path = path,
                      .message = fmt::format("{}: both ends are at the same place", name),
                      .remedy = "give the frame end and the axle end their own places",
                      .at = {}});
    return false;
  }
  model().bars.push_back({.name = std::move(name),
                          .path = path,
                          .p_VP = p_VP,
                          .p_AQ = p_VQ - model().p_VC,
                          .length_m = length});
  own_compliance.push_back(0);
  return true;
}

Vec3 AxleDraft::direction(std::size_t bar) {
  const Bar& b = model().bars[bar];
  return (model().p_VC + b.p_AQ - b.p_VP).normalized();
}

/// True when the end has a bush whose radial rate is known.
bool AxleDraft::bushed(const build::JointEnd& end, const std::string& path) {
  return end.bushing && have(end.bushing->radial, path + "/bushing/radial",
                             "radial rate of the bush", "its give; it is taken as a ball joint");
}

void AxleDraft::add_bush_moment(const build::JointEnd& end, std::size_t bar, bool on_axle,
                                int mirror) {
  const auto& bush = *end.bushing;
  const double conical = bush.conical.known() ? bush.conical.si : 0;
  const double torsional = bush.torsional.known() ? bush.torsional.si : 0;
  if (conical == 0 && torsional == 0) return;
  Vec3 bolt = build::unit_vector(bush.bolt);
  if (mirror < 0 && bush.bolt == build::Axis::kCrosswise) bolt = -bolt;
  model().bush_moments.push_back({.bar = static_cast<int>(bar),
                                  .on_axle = on_axle,
                                  .bolt = bolt,
                                  .direction = direction(bar),
                                  .conical_Nm_per_rad = conical,
                                  .torsional_Nm_per_rad = torsional});
}

void AxleDraft::add_link(const build::Entry<build::Link>& link) {
  const auto& value = link.value;
  if (!have_point(value.frame.at, link.path + "/frame/at", "frame end of the link",
                  "how the axle moves") ||
      !have_point(value.axle.at, link.path + "/axle/at", "axle end of the link",
                  "how the axle moves") ||
      !placed) {
    linkage_complete = false;
    return;
  }
  const bool frame_bush = bushed(value.frame, link.path + "/frame");
  const bool axle_bush = bushed(value.axle, link.path + "/axle");
  for (const Side& side : sides(value.both_sides)) {
    if (!add_bar(link.id + side.suffix, link.path, side.place(value.frame.at),
                 side.place(value.axle.at))) {
      continue;
    }
    const std::size_t bar = model().bars.size() - 1;
    model().bars[bar].swing_limit_frame_rad = value.frame.swing_limit.si;
    model().bars[bar].swing_limit_axle_rad = value.axle.swing_limit.si;
    const Vec3 u = direction(bar);
    if (frame_bush) {
      own_compliance[bar] += u.dot(bush_compliance(*value.frame.bushing) * u);
      add_bush_moment(value.frame, bar, false, side.sign);
    }
    if (axle_bush) {
      own_compliance[bar] += u.dot(bush_compliance(*value.axle.bushing) * u);
      add_bush_moment(value.axle, bar, true, side.sign);
    }
    if ((frame_bush || axle_bush) && value.tube) add_tube_stretch(*value.tube, bar);
  }
}

void AxleDraft::add_tube_stretch(const build::Tube& tube, std::size_t bar) {
  if (!tube.outside_diameter.known() || !tube.wall.known()) return;
  const double outside = tube.outside_diameter.si, inside = outside - 2 * tube.wall.si;
  const double area = std::numbers::pi / 4 * (outside * outside - inside * inside);
  own_compliance[bar] += model().bars[bar].length_m / (kSteelModulus_Pa * area);
}

void AxleDraft::add_arm(const build::Entry<build::Arm>& arm) {
  const auto& value = arm.value;
  const bool known =
      have_point(value.apex.at, arm.path + "/apex/at", "apex of the arm", "how the axle moves") &&
      have_point(value.first.at, arm.path + "/first/at", "first foot of the arm",
                 "how the axle moves") &&
      have_point(value.second.at, arm.path + "/second/at", "second foot of the arm",
                 "how the axle moves");
  if (!known || !placed) {
    linkage_complete = false;
    return;
  }
  const bool apex_on_axle = value.kind == build::ArmKind::kAArm;
  const bool apex_bush = bushed(value.apex, arm.path + "/apex");
  const std::array<bool, 2> foot_bush{bushed(value.first, arm.path + "/first"),
                                      bushed(value.second, arm.path + "/second")};
  for (const Side& side : sides(value.both_sides)) {
    std::vector<std::size_t> pair;
    for (const bool first : {true, false}) {
      const build::JointEnd& foot = first ? value.first : value.second;
      const Vec3 apex = side.place(value.apex.at), at = side.place(foot.at);
      const auto name = arm.id + side.suffix + (first ? ".first" : ".second");
      if (!add_bar(name, arm.path, apex_on_axle ? at : apex, apex_on_axle ? apex : at)) continue;
      const std::size_t bar = model().bars.size() - 1;
      Bar& b = model().bars[bar];
      const build::JointEnd& on_frame = apex_on_axle ? foot : value.apex;
      const build::JointEnd& on_axle = apex_on_axle ? value.apex : foot;
      b.swing_limit_frame_rad = on_frame.swing_limit.si;
      b.swing_limit_axle_rad = on_axle.swing_limit.si;
      pair.push_back(bar);
    }
    if (pair.size() != 2) continue;
    model().arms.push_back({static_cast<int>(pair[0]), static_cast<int>(pair[1])});
    if (!(apex_bush || foot_bush[0] || foot_bush[1])) continue;
    const ArmJoints joints{
        .p_VApex = side.place(value.apex.at),
        .p_VFeet = {side.place(value.first.at), side.place(value.second.at)},
        .apex_compliance = apex_bush ? bush_compliance(*value.apex.bushing) : Mat3::Zero(),
        .feet_compliance = {foot_bush[0] ? bush_compliance(*value.first.bushing) : Mat3::Zero(),
                            foot_bush[1] ? bush_compliance(*value.second.bushing) : Mat3::Zero()}};
    arms.push_back({pair[0], pair[1], calc_arm_compliance(joints)});
    if (apex_bush) add_bush_moment(value.apex, pair[0], apex_on_axle, side.sign);
  }
}

void AxleDraft::assemble_compliance() {
  const auto bars = static_cast<Eigen::Index>(model().bars.size());
  Eigen::MatrixXd& C = model().compliance_m_per_N;
  C = Eigen::MatrixXd::Zero(bars, bars);
  for (Eigen::Index i = 0; i < bars; ++i) C(i, i) = own_compliance[static_cast<std::size_t>(i)];
  for (const auto& arm : arms) {
    const std::array<std::size_t, 2> bar{arm.first, arm.second};
    for (const std::size_t i : {0U, 1U}) {
      for (const std::size_t j : {0U, 1U}) {
        C(static_cast<Eigen::Index>(bar[i]), static_cast<Eigen::Index>(bar[j])) =
            arm.compliance(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
      }
    }
  }
}

}  // namespace rig::suspension
