#include "suspension/from_build.h"

#include <fmt/format.h>

#include <Eigen/LU>
#include <Eigen/SVD>
#include <cmath>
#include <numbers>

#include "suspension/elements.h"
#include "suspension/leaf_internal.h"
#include "suspension/pose.h"
#include "suspension/spring_parts_internal.h"

namespace rig::suspension {
namespace {

/// Carbon steel. [Shigley] Table A-5.
constexpr double kSteelModulus_Pa = 207e9;
/// Link ends nearer than this are one point.
constexpr double kShortest_m = 1e-3;
/// A restraint weaker than this share of the strongest is no restraint.
constexpr double kRankTolerance = 1e-9;

/// One side of a thing that may be given for both.
struct Side {
  int sign = 0;        ///< +1 left, -1 right, 0 as given.
  std::string suffix;  ///< ".left", ".right" or nothing.

  Vec3 place(const build::Point& point) const {
    Vec3 p = point.p_VP();
    if (sign < 0) p.y() = -p.y();
    return p;
  }
};

std::vector<Side> sides(bool both_sides) {
  if (both_sides) return {{+1, ".left"}, {-1, ".right"}};
  return {{0, ""}};
}

/// +1 left, -1 right, 0 on the centreline.
int side_of(const Vec3& p_V) { return p_V.y() > 0.02 ? 1 : p_V.y() < -0.02 ? -1 : 0; }

Vec3 unit(build::Axis axis) {
  switch (axis) {
    case build::Axis::kLengthwise:
      return Vec3::UnitX();
    case build::Axis::kCrosswise:
      return Vec3::UnitY();
    case build::Axis::kUpright:
      return Vec3::UnitZ();
  }
  return Vec3::UnitY();
}

/// Compliance of a bush, m/N, as a tensor in V; the axial rate, when not given, is the radial one.
Mat3 bush_compliance(const build::Bushing& bush) {
  const Vec3 bolt = unit(bush.bolt);
  const double radial = 1 / bush.radial.si;
  const double axial = bush.axial.known() ? 1 / bush.axial.si : radial;
  return radial * (Mat3::Identity() - bolt * bolt.transpose()) + axial * bolt * bolt.transpose();
}

class Builder {
 public:
  explicit Builder(const build::Entry<build::Axle>& axle) : axle_(axle) {}

  Result<AxleFromBuild> run() {
    place_axle();
    for (const auto& link : axle_.value.links) add_link(link);
    for (const auto& arm : axle_.value.arms) add_arm(arm);
    for (const auto& leaf : axle_.value.leaf_packs) add_leaf(leaf);
    for (const auto& coil : axle_.value.coils) add_coil(coil);
    for (const auto& stop : axle_.value.bump_stops) add_stop(stop);
    for (const auto& shock : axle_.value.dampers) add_shock(shock);
    for (const auto& bar : axle_.value.anti_roll_bars) add_roll_bar(bar);
    assemble_compliance();
    if (!faults_.empty()) return Failure{faults_};
    judge_restraint();
    if (!faults_.empty()) return Failure{faults_};
    out_.has_springs =
        springs_complete_ && (!model().coils.empty() || !model().leaf_halves.empty());
    out_.ready_to_settle = out_.has_linkage && out_.has_springs && !std::isnan(model().track_m) &&
                           !std::isnan(model().loaded_radius_m);
    return std::move(out_);
  }

 private:
  AxleModel& model() { return out_.model; }
  Notes notes() { return {out_.missing, out_.worked_out, faults_}; }

  void lack(const std::string& path, std::string what, std::string needed) {
    out_.missing.push_back({path, std::move(what), std::move(needed)});
  }

  /// True when the quantity is known; else it is listed.
  template <typename Quantity>
  bool have(const Quantity& quantity, const std::string& path, const char* what,
            const char* needed) {
    if (quantity.known()) return true;
    lack(path, what, needed);
    return false;
  }

  bool have_point(const build::Point& point, const std::string& path, const char* what,
                  const char* needed) {
    if (point.known()) return true;
    lack(path, what, needed);
    return false;
  }

  void place_axle() {
    const auto& axle = axle_.value;
    AxleModel& m = model();
    m.id = axle_.id;
    m.path = axle_.path;
    m.front = axle.end == build::End::kFront;
    const bool station = have(axle.station, axle_.path + "/station", "station of the wheel line",
                              "everything about this axle's movement");
    const bool height = have(axle.height, axle_.path + "/height", "height of the wheel centres",
                             "everything about this axle's movement");
    placed_ = station && height;
    if (placed_) m.p_VC = Vec3(-axle.station.si, 0, axle.height.si);
    if (height) m.loaded_radius_m = axle.height.si;
    if (have(axle.track, axle_.path + "/track", "track", "wheel loads and roll")) {
      m.track_m = axle.track.si;
    }
  }

  bool add_bar(std::string name, const std::string& path, const Vec3& p_VP, const Vec3& p_VQ) {
    const double length = (p_VQ - p_VP).norm();
    if (length < kShortest_m) {
      faults_.push_back({.code = "suspension.zero_length",
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
    own_compliance_.push_back(0);
    return true;
  }

  Vec3 direction(std::size_t bar) {
    const Bar& b = model().bars[bar];
    return (model().p_VC + b.p_AQ - b.p_VP).normalized();
  }

  /// True when the end has a bush whose radial rate is known.
  bool bushed(const build::JointEnd& end, const std::string& path) {
    return end.bushing && have(end.bushing->radial, path + "/bushing/radial",
                               "radial rate of the bush", "its give; it is taken as a ball joint");
  }

  void add_bush_moment(const build::JointEnd& end, std::size_t bar, bool on_axle, int mirror) {
    const auto& bush = *end.bushing;
    const double conical = bush.conical.known() ? bush.conical.si : 0;
    const double torsional = bush.torsional.known() ? bush.torsional.si : 0;
    if (conical == 0 && torsional == 0) return;
    Vec3 bolt = unit(bush.bolt);
    if (mirror < 0 && bush.bolt == build::Axis::kCrosswise) bolt = -bolt;
    model().bush_moments.push_back({.bar = static_cast<int>(bar),
                                    .on_axle = on_axle,
                                    .bolt = bolt,
                                    .direction = direction(bar),
                                    .conical_Nm_per_rad = conical,
                                    .torsional_Nm_per_rad = torsional});
  }

  void add_link(const build::Entry<build::Link>& link) {
    const auto& value = link.value;
    if (!have_point(value.frame.at, link.path + "/frame/at", "frame end of the link",
                    "how the axle moves") ||
        !have_point(value.axle.at, link.path + "/axle/at", "axle end of the link",
                    "how the axle moves") ||
        !placed_) {
      linkage_complete_ = false;
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
        own_compliance_[bar] += u.dot(bush_compliance(*value.frame.bushing) * u);
        add_bush_moment(value.frame, bar, false, side.sign);
      }
      if (axle_bush) {
        own_compliance_[bar] += u.dot(bush_compliance(*value.axle.bushing) * u);
        add_bush_moment(value.axle, bar, true, side.sign);
      }
      if ((frame_bush || axle_bush) && value.tube) add_tube_stretch(*value.tube, bar);
    }
  }

  void add_tube_stretch(const build::Tube& tube, std::size_t bar) {
    if (!tube.outside_diameter.known() || !tube.wall.known()) return;
    const double outside = tube.outside_diameter.si, inside = outside - 2 * tube.wall.si;
    const double area = std::numbers::pi / 4 * (outside * outside - inside * inside);
    own_compliance_[bar] += model().bars[bar].length_m / (kSteelModulus_Pa * area);
  }

  void add_arm(const build::Entry<build::Arm>& arm) {
    const auto& value = arm.value;
    const bool known =
        have_point(value.apex.at, arm.path + "/apex/at", "apex of the arm", "how the axle moves") &&
        have_point(value.first.at, arm.path + "/first/at", "first foot of the arm",
                   "how the axle moves") &&
        have_point(value.second.at, arm.path + "/second/at", "second foot of the arm",
                   "how the axle moves");
    if (!known || !placed_) {
      linkage_complete_ = false;
      return;
    }
    const bool apex_on_axle = value.kind == build::ArmKind::kAArm;
    const bool apex_bush = bushed(value.apex, arm.path + "/apex");
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
        if (bushed(foot, arm.path + (first ? "/first" : "/second"))) {
          const Vec3 u = direction(bar);
          own_compliance_[bar] += u.dot(bush_compliance(*foot.bushing) * u);
        }
      }
      if (apex_bush && pair.size() == 2) {
        shared_.push_back({pair[0], pair[1], bush_compliance(*value.apex.bushing)});
        add_bush_moment(value.apex, pair[0], apex_on_axle, side.sign);
      }
    }
  }

  void add_leaf(const build::Entry<build::LeafPack>& leaf) {
    const auto& value = leaf.value;
    const auto lacks = [&](bool known, const char* key, const char* what) {
      if (!known) lack(leaf.path + "/" + key, what, "how the leaf springs carry and move");
      return !known;
    };
    bool missing = lacks(value.front_eye.known(), "front_eye", "front eye");
    missing |= lacks(value.rear_eye.known(), "rear_eye", "rear eye");
    missing |= lacks(value.seat.known(), "seat", "seat on the axle");
    missing |= lacks(value.lateral_rate.known(), "lateral_rate", "sideways rate of the leaf pack");
    missing |= lacks(value.free_arch.known(), "free_arch", "arch without load");
    const auto rate_N_per_m = find_leaf_rate_N_per_m(leaf, notes());
    missing |= !rate_N_per_m;
    if (missing || !placed_) {
      linkage_complete_ = springs_complete_ = false;
      return;
    }
    for (const Side& side : sides(value.both_sides)) {
      const LeafPlaces places{.front_eye = side.place(value.front_eye),
                              .rear_eye = side.place(value.rear_eye),
                              .seat = side.place(value.seat),
                              .p_VC = model().p_VC,
                              .free_arch_m = value.free_arch.si,
                              .rate_N_per_m = *rate_N_per_m,
                              .lateral_rate_N_per_m = value.lateral_rate.si,
                              .shackle_in_front = value.shackle_in_front};
      const LeafElements elements = calc_leaf_elements(places);
      if (!add_bar(leaf.id + side.suffix, leaf.path, elements.p_VEye, elements.p_VPivot)) continue;
      if (value.eye_radial_rate.known()) own_compliance_.back() = 1 / value.eye_radial_rate.si;
      for (LeafHalf half : elements.halves) {
        half.name = leaf.id + side.suffix + half.name;
        half.path = leaf.path;
        half.side = side_of(places.seat);
        model().leaf_halves.push_back(std::move(half));
      }
    }
  }

  void add_coil(const build::Entry<build::Coil>& coil) {
    const auto& value = coil.value;
    const bool points =
        have_point(value.upper, coil.path + "/upper", "upper seat of the coil", "how it sits") &&
        have_point(value.lower, coil.path + "/lower", "lower seat of the coil", "how it sits");
    const bool free =
        have(value.free_length, coil.path + "/free_length", "free length", "how it sits");
    const CoilNumbers numbers = find_coil_numbers(coil, notes());
    if (!points || !numbers.rate_N_per_m || !free || !placed_) {
      springs_complete_ = false;
      return;
    }
    for (const Side& side : sides(value.both_sides)) {
      const Vec3 upper = side.place(value.upper), lower = side.place(value.lower);
      model().coils.push_back({.name = coil.id + side.suffix,
                               .path = coil.path,
                               .p_VP = upper,
                               .p_AQ = lower - model().p_VC,
                               .free_length_m = value.free_length.si,
                               .rate_N_per_m = *numbers.rate_N_per_m,
                               .solid_length_m = numbers.solid_length_m.value_or(0),
                               .drawn_length_m = (upper - lower).norm(),
                               .side = side_of(upper)});
    }
  }

  void add_stop(const build::Entry<build::BumpStop>& stop) {
    const auto& value = stop.value;
    if (!value.frame.known() || !value.axle.known() || !value.free_height.known() ||
        !value.rate.known() || !placed_) {
      lack(stop.path, "place, height or rate of the bump stop", "what stops the axle in bump");
      return;
    }
    for (const Side& side : sides(value.both_sides)) {
      const bool grows = value.end_rate.known() && value.end_travel.known();
      model().stops.push_back({.name = stop.id + side.suffix,
                               .path = stop.path,
                               .p_VP = side.place(value.frame),
                               .p_AQ = side.place(value.axle) - model().p_VC,
                               .free_height_m = value.free_height.si,
                               .rate_N_per_m = value.rate.si,
                               .end_rate_N_per_m = grows ? value.end_rate.si : value.rate.si,
                               .end_travel_m = grows ? value.end_travel.si : 1.0,
                               .side = side_of(side.place(value.frame))});
    }
  }

  void add_shock(const build::Entry<build::Damper>& shock) {
    const auto& value = shock.value;
    if (!value.frame.known() || !value.axle.known() || !placed_) {
      lack(shock.path, "both eyes of the shock", "shock travel");
      return;
    }
    have(value.closed_length, shock.path + "/closed_length", "closed length", "shock travel");
    have(value.open_length, shock.path + "/open_length", "open length", "shock travel");
    for (const Side& side : sides(value.both_sides)) {
      Shock s{.name = shock.id + side.suffix,
              .path = shock.path,
              .p_VP = side.place(value.frame),
              .p_AQ = side.place(value.axle) - model().p_VC,
              .side = side_of(side.place(value.frame))};
      if (value.closed_length.known()) s.closed_length_m = value.closed_length.si;
      if (value.open_length.known()) s.open_length_m = value.open_length.si;
      if (value.gas_force.known()) s.gas_force_N = value.gas_force.si;
      s.damping_Ns_per_m = value.damping.si;
      model().shocks.push_back(std::move(s));
    }
  }

  void add_roll_bar(const build::Entry<build::AntiRollBar>& bar) {
    if (!bar.value.span.known() || !bar.value.rate.known()) {
      lack(bar.path, "span or rate of the anti-roll bar", "roll stiffness");
      return;
    }
    model().roll_bars.push_back({.name = bar.id,
                                 .path = bar.path,
                                 .span_m = bar.value.span.si,
                                 .rate_N_per_m = bar.value.rate.si});
  }

  void assemble_compliance() {
    const auto bars = static_cast<Eigen::Index>(model().bars.size());
    Eigen::MatrixXd& C = model().compliance_m_per_N;
    C = Eigen::MatrixXd::Zero(bars, bars);
    for (Eigen::Index i = 0; i < bars; ++i) C(i, i) = own_compliance_[static_cast<std::size_t>(i)];
    for (const auto& shared : shared_) {
      for (const std::size_t i : {shared.a, shared.b}) {
        for (const std::size_t j : {shared.a, shared.b}) {
          C(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) +=
              direction(i).dot(shared.compliance * direction(j));
        }
      }
    }
  }

  std::string bar_names(const std::vector<Eigen::Index>& which) {
    std::string names;
    for (const auto i : which) {
      names += (names.empty() ? "" : ", ") + model().bars[static_cast<std::size_t>(i)].name;
    }
    return names;
  }

  /// Are there enough restraints, and not more ideal ones than can move?
  void judge_restraint() {
    const auto bars = static_cast<Eigen::Index>(model().bars.size());
    if (!placed_ || !linkage_complete_ || bars == 0) return;
    if (bars > kMaxBars) {
      faults_.push_back({.code = "suspension.too_many_links",
                         .path = axle_.path,
                         .message = fmt::format("{} links on one axle", bars),
                         .remedy = fmt::format("at most {}", kMaxBars),
                         .at = {}});
      return;
    }
    const LinkageSystem system =
        calc_linkage_system(model(), model().drawn(), BarForces::Zero(bars));
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
      faults_.push_back(
          {.code = "suspension.redundant_ideal",
           .path = axle_.path,
           .message =
               fmt::format("{} links with rigid joints hold the {} axle more than once ({}): "
                           "it could not move up and roll without something giving",
                           ideal.size(), axle_.id, bar_names(ideal)),
           .remedy =
               "give the links their bush rates (bushing, radial): the program then works out "
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
      out_.has_linkage = true;
      return;
    }
    static constexpr const char* kLoose[] = {"move fore and aft", "move sideways", "turn over",
                                             "swing round"};
    Eigen::Index loosest = 0;
    svd.matrixV().col(3).cwiseAbs().maxCoeff(&loosest);
    faults_.push_back({.code = "suspension.linkage_incomplete",
                       .path = axle_.path,
                       .message = fmt::format("nothing keeps the {} axle from being free to {}",
                                              axle_.id, kLoose[loosest]),
                       .remedy = "an axle needs four restraints besides its springs: such as three "
                                 "links and a track bar, or two leaf springs",
                       .at = {}});
  }

  struct SharedBush {
    std::size_t a = 0;
    std::size_t b = 0;
    Mat3 compliance;
  };

  const build::Entry<build::Axle>& axle_;
  AxleFromBuild out_;
  Diagnostics faults_;
  std::vector<double> own_compliance_;
  std::vector<SharedBush> shared_;
  bool placed_ = false;
  bool linkage_complete_ = true;
  bool springs_complete_ = true;
};

}  // namespace

Result<AxleFromBuild> axle_from_build(const build::Entry<build::Axle>& axle) {
  return Builder(axle).run();
}

}  // namespace rig::suspension
