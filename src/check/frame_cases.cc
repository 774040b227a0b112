#include "check/frame_cases.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/side_by_side.h"
#include "check/articulation.h"
#include "check/severity.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using suspension::Ground;
using suspension::Push;
using suspension::Settled;
using suspension::TruckModel;
using units::kStandardGravity_m_per_s2;

/// What a trailer pulls at the ball when both brake, over its weight.
constexpr double kTowing = 0.5;

double total_mass_kg(const TruckModel& truck) {
  double sum = 0;
  for (const auto& mass : truck.masses) sum += mass.mass_kg;
  return sum;
}

double calc_ground_load_N(const Settled& settled) {
  double sum = 0;
  for (const auto& axle : settled.axles) sum += axle.wheel_loads_N[0] + axle.wheel_loads_N[1];
  return sum;
}

/// A force along the ground on each wheel of an axle, half of it on either side.
void push_at_ground(TruckModel& truck, std::size_t axle, const Vec3& f_W) {
  const auto& model = truck.axles[axle];
  for (const double side : {0.5, -0.5}) {
    truck.pushes.push_back({.axle = static_cast<int>(axle),
                            .p_VoP_V = model.p_VC + Vec3(0, side * model.track_m, -model.p_VC.z()),
                            .f_P_W = f_W / 2});
  }
}

/// Inertia of everything under an acceleration along the ground.
void push_masses(TruckModel& truck, const Vec3& a_W) {
  for (const auto& mass : truck.masses) {
    truck.pushes.push_back(
        {.axle = mass.axle, .p_VoP_V = mass.p_VoCm_V, .f_P_W = -mass.mass_kg * a_W});
  }
}

/// Settled under its pushes and masses, which grow from those of `base` in steps where all at once
/// is too much.
/// @param start  On the same ground or near to it.
Result<Settled> settle_in_steps(const TruckModel& base, const TruckModel& truck,
                                const Ground& ground, const Settled& start) {
  constexpr double kLeastStep = 1.0 / 16;
  // From near by some ten steps do; what takes many more ends nowhere.
  constexpr suspension::SettleOptions kSoon{.max_iterations = 60};
  Settled near = start;
  TruckModel part = truck;
  double done = 0, step = 1;
  while (true) {
    const double share = std::min(1.0, done + step);
    for (std::size_t i = 0; i < part.pushes.size(); ++i) {
      part.pushes[i].f_P_W = share * truck.pushes[i].f_P_W;
    }
    for (std::size_t i = 0; i < part.masses.size(); ++i) {
      part.masses[i].mass_kg = std::lerp(base.masses[i].mass_kg, truck.masses[i].mass_kg, share);
    }
    part.tongue_load_N = std::lerp(base.tongue_load_N, truck.tongue_load_N, share);
    auto settled = suspension::settle(part, ground, near, kSoon);
    if (!settled) {
      step /= 2;
      if (step < kLeastStep) return settled;
      continue;
    }
    if (share == 1) return settled;
    near = *std::move(settled);
    done = share;
  }
}

class CaseMaker {
 public:
  CaseMaker(const build::Build& build, const Report& report) : build_(build), report_(report) {}

  FrameCases make() {
    for (const auto& state : report_.states) {
      if (!state.settled) continue;
      const std::string id = state.id.empty() ? "standing" : "standing." + state.id;
      add(state, id, fmt::format("Standing, {}", state.label), "weight as listed", *state.truck,
          kFlat, Vec3::Zero());
      const bool heavier = heaviest_ == nullptr || calc_ground_load_N(*state.settled) >
                                                       calc_ground_load_N(*heaviest_->settled);
      if (heavier) heaviest_ = &state;
    }
    if (heaviest_ != nullptr) add_of_heaviest();
    return settle();
  }

 private:
  static inline const Ground kFlat{{0, 0}, {0, 0}};

  /// A case that is still to settle.
  struct Wanted {
    const StateReport* state;
    FrameCase made;
    Ground ground;
    Settled near;  ///< To start from.
  };

  FrameCases settle() {
    const auto settled = make_side_by_side(wanted_.size(), [&](std::size_t i) {
      const Wanted& of = wanted_[i];
      return settle_in_steps(*of.state->truck, of.made.truck, of.ground, of.near);
    });
    FrameCases out;
    for (std::size_t i = 0; i < wanted_.size(); ++i) {
      FrameCase& made = wanted_[i].made;
      if (!settled[i]) {
        out.left_out.push_back({std::move(made.label), settled[i].error().front().message});
        continue;
      }
      made.settled = *settled[i];
      out.cases.push_back(std::move(made));
    }
    return out;
  }

  void add_of_heaviest() {
    add_bump();
    add_uneven();
    add_braking();
    for (const int side : {1, -1}) add_cornering(side);
    add_towing();
    for (const auto& pull : build_.frame.pulls) add_pull(pull);
    for (const auto& torque : build_.frame.drive_torques) add_drive_torque(torque);
  }

  /// @param near  A settled state to start from; none: that of the load state on the flat.
  void add(const StateReport& state, std::string id, std::string label, std::string basis,
           TruckModel truck, const Ground& ground, const Vec3& a_along_W, double weights = 1,
           std::vector<FramePull> pulls = {}, const Settled* near = nullptr) {
    for (const auto& pull : pulls) {
      truck.pushes.push_back({.axle = -1, .p_VoP_V = pull.p_VoP_V, .f_P_W = pull.f_P_W});
    }
    if (truck.tongue_load_N != 0) {
      pulls.push_back({.p_VoP_V = truck.p_VoBall_V, .f_P_W = {0, 0, -truck.tongue_load_N}});
    }
    FrameCase made{.id = std::move(id),
                   .label = std::move(label),
                   .basis = std::move(basis),
                   .state = state.id,
                   .truck = std::move(truck),
                   .settled = {},
                   .burdens = list_burdens(state),
                   .pulls = std::move(pulls),
                   .a_W = a_along_W + Vec3(0, 0, weights * kStandardGravity_m_per_s2)};
    wanted_.push_back({&state, std::move(made), ground, near == nullptr ? *state.settled : *near});
  }
  void add(const char* id, std::string label, std::string basis, TruckModel truck,
           const Vec3& a_along_W) {
    add(*heaviest_, id, std::move(label), std::move(basis), std::move(truck), kFlat, a_along_W);
  }

  /// What the frame carries, as `make_truck` hung it on the truck: its items first, then what
  /// scales added to them, which lies along the wheelbase.
  std::vector<frame::Burden> list_burdens(const StateReport& state) const {
    std::vector<frame::Burden> burdens;
    const auto& masses = state.truck->masses;
    const auto& items = state.weigh.items;
    const double wheelbase_m =
        (state.truck->axles.front().p_VC - state.truck->axles.back().p_VC).norm();
    for (std::size_t i = 0; i < masses.size(); ++i) {
      if (masses[i].axle >= 0) continue;
      frame::Burden burden{.id = i < items.size() ? items[i].id : "",
                           .mass_kg = masses[i].mass_kg,
                           .p_VoCm_V = masses[i].p_VoCm_V,
                           .length_m = wheelbase_m};
      if (i < items.size()) burden.length_m = length_of(items[i].id);
      burdens.push_back(std::move(burden));
    }
    return burdens;
  }

  double length_of(const std::string& mass_id) const {
    const auto* mass = build::find(build_.masses, mass_id);
    if (mass == nullptr || !mass->value.size || !mass->value.size->length.known()) return 0;
    return mass->value.size->length.si;
  }

  void add_bump() {
    TruckModel truck = *heaviest_->truck;
    for (auto& mass : truck.masses) mass.mass_kg *= kBump;
    truck.tongue_load_N *= kBump;
    add(*heaviest_, "bump", "Both axles in a bump", "3 times the weight: common practice",
        std::move(truck), kFlat, Vec3::Zero(), kBump);
  }

  void add_uneven() {
    const bool ride = heaviest_ == report_.ride();
    if (ride) {
      add_uneven("one_wheel_up", kOneUp, report_.ramp);
      add_uneven("crossed_up", kCrossedUp, report_.cross_axle);
      return;
    }
    if (!heaviest_->weigh.footing) return;
    const auto [ramp, cross] = find_articulation(*heaviest_);
    add_uneven("one_wheel_up", kOneUp, ramp);
    add_uneven("crossed_up", kCrossedUp, cross);
  }

  static constexpr const char* kOneUp = "Left front wheel up a ramp";
  static constexpr const char* kCrossedUp = "Left front and right rear wheels up";

  template <class Found>
  void add_uneven(const char* id, const char* label, const Found& found) {
    if (!found) return;
    const double up_m = found->height_m;
    const double rear_m = label == kCrossedUp ? up_m : 0;
    add(*heaviest_, id, label, "as high as lifts the first wheel", *heaviest_->truck,
        Ground{{up_m, 0}, {0, rear_m}}, Vec3::Zero(), 1, {}, &found->at_lift);
  }

  void add_braking() {
    TruckModel truck = *heaviest_->truck;
    const Vec3 a_W(-kBraking * kStandardGravity_m_per_s2, 0, 0);
    push_masses(truck, a_W);
    const auto shares = brake_shares();
    for (std::size_t a = 0; a < truck.axles.size(); ++a) {
      push_at_ground(truck, a, shares[a] * total_mass_kg(truck) * a_W);
    }
    add("braking", fmt::format("Braking at {} g", kBraking), "common practice", std::move(truck),
        a_W);
  }

  /// By the file where both are told, else as the weight stands on the axles.
  std::array<double, 2> brake_shares() const {
    std::array<double, 2> shares{};
    for (std::size_t a = 0; a < 2; ++a) {
      const auto* axle = build::find(build_.axles, heaviest_->truck->axles[a].id);
      shares[a] = axle == nullptr ? kNaN : axle->value.brake_share.si;
    }
    if (std::abs(shares[0] + shares[1] - 1) < 1e-6) return shares;
    for (std::size_t a = 0; a < 2; ++a) {
      const auto& loads_N = heaviest_->settled->axles[a].wheel_loads_N;
      shares[a] = (loads_N[0] + loads_N[1]) / calc_ground_load_N(*heaviest_->settled);
    }
    return shares;
  }

  /// @param side  +1: turning left, weight goes to the right.
  void add_cornering(int side) {
    TruckModel truck = *heaviest_->truck;
    const Vec3 a_W(0, side * kCornering * kStandardGravity_m_per_s2, 0);
    double moment = 0;
    for (const auto& mass : truck.masses) moment += mass.mass_kg * mass.p_VoCm_V.x();
    const double x_cm = moment / total_mass_kg(truck);
    push_masses(truck, a_W);
    for (std::size_t a = 0; a < 2; ++a) {
      const double x = truck.axles[a].p_VC.x(), other_x = truck.axles[1 - a].p_VC.x();
      push_at_ground(truck, a, (x_cm - other_x) / (x - other_x) * total_mass_kg(truck) * a_W);
    }
    add(side > 0 ? "cornering.left" : "cornering.right",
        fmt::format("Turning {} at {} g", side > 0 ? "left" : "right", kCornering),
        "common practice", std::move(truck), a_W);
  }

  void add_towing() {
    const auto& hitch = heaviest_->weigh.hitch;
    if (!hitch || !(hitch->trailer_mass_kg > 0)) return;
    const double pull_N = kTowing * hitch->trailer_mass_kg * kStandardGravity_m_per_s2;
    add_pull("towing", fmt::format("Trailer pulls back with {} of its weight", kTowing),
             "common practice", {.p_VoP_V = hitch->p_VoBall_V, .f_P_W = {-pull_N, 0, 0}});
  }

  void add_pull(const build::Entry<build::Pull>& pull) {
    const build::Pull& value = pull.value;
    if (!value.pull.known() || !value.at.known()) return;
    static constexpr std::array<std::array<double, 3>, 6> kAlong{
        {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}}};
    const auto& along = kAlong[static_cast<std::size_t>(value.direction)];
    add_pull(
        "pull." + pull.id,
        fmt::format("Pull on {}", value.label.empty() ? pull.id : uncapitalised(value.label)),
        "pull as told, the wheels held",
        {.p_VoP_V = value.at.p_VP(), .f_P_W = value.pull.si * Vec3(along[0], along[1], along[2])});
  }

  void add_pull(std::string id, std::string label, std::string basis, FramePull pull) {
    TruckModel truck = *heaviest_->truck;
    hold_against(truck, pull.f_P_W, pull.p_VoP_V);
    add(*heaviest_, std::move(id), std::move(label), std::move(basis), std::move(truck), kFlat,
        Vec3::Zero(), 1, {std::move(pull)});
  }

  /// What the wheels are held with along the ground against a pull: by the axles so that the truck
  /// does not turn.
  static void hold_against(TruckModel& truck, const Vec3& f_W, const Vec3& p_V) {
    const Vec3 back_W(-f_W.x(), -f_W.y(), 0);
    if (back_W.norm() == 0) return;
    const double x[2] = {truck.axles[0].p_VC.x(), truck.axles[1].p_VC.x()};
    // Sideways by the lever along the truck; fore and aft half each.
    const double front_share = (p_V.x() - x[1]) / (x[0] - x[1]);
    for (std::size_t a = 0; a < 2; ++a) {
      const double across = a == 0 ? front_share : 1 - front_share;
      push_at_ground(truck, a, {back_W.x() / 2, across * back_W.y(), 0});
    }
    // A pull along the truck beside its middle: a couple of the wheels on either side.
    const double turn = p_V.y() * f_W.x();
    for (std::size_t a = 0; a < 2; ++a) {
      const auto& model = truck.axles[a];
      for (const double side : {0.5, -0.5}) {
        truck.pushes.push_back(
            {.axle = static_cast<int>(a),
             .p_VoP_V = model.p_VC + Vec3(0, side * model.track_m, -model.p_VC.z()),
             .f_P_W = {-side * turn / model.track_m, 0, 0}});
      }
    }
  }

  /// What the shafts turn the axles with, the mounts of what they come out of hold against.
  void add_drive_torque(const build::Entry<build::DriveTorque>& entry) {
    const build::DriveTorque& value = entry.value;
    const auto* mass = build::find(build_.masses, value.on.id);
    if (!value.torque.known() || mass == nullptr || !mass->value.at.known()) return;
    TruckModel truck = *heaviest_->truck;
    // Shafts that turn clockwise seen from the front turn about -x, and so their axles.
    const Vec3 t_W(value.torque.si, 0, 0);
    push_couple(truck, -1, mass->value.at.p_VP(), t_W.x());
    const auto shares = drive_shares();
    for (std::size_t a = 0; a < truck.axles.size(); ++a) {
      push_couple(truck, static_cast<int>(a), truck.axles[a].p_VC, -shares[a] * t_W.x());
    }
    add(*heaviest_, "torque." + entry.id,
        fmt::format("Shafts at full torque, {}", value.label.empty() ? entry.id : value.label),
        "torque as told; what the wheels push besides is not in it", std::move(truck), kFlat,
        Vec3::Zero());
    wanted_.back().made.couples.push_back({value.on.id, t_W});
  }

  /// A couple about the truck's length, as two upright forces a metre apart.
  static void push_couple(TruckModel& truck, int axle, const Vec3& p_VoP_V, double t_x_Nm) {
    for (const double side : {0.5, -0.5}) {
      truck.pushes.push_back({.axle = axle,
                              .p_VoP_V = p_VoP_V + Vec3(0, side, 0),
                              .f_P_W = {0, 0, 2 * side * t_x_Nm}});
    }
  }

  /// By the file where both are told, else half each.
  std::array<double, 2> drive_shares() const {
    std::array<double, 2> shares{};
    for (std::size_t a = 0; a < 2; ++a) {
      const auto* axle = build::find(build_.axles, heaviest_->truck->axles[a].id);
      shares[a] = axle == nullptr ? kNaN : axle->value.drive_share.si;
    }
    return std::abs(shares[0] + shares[1] - 1) < 1e-6 ? shares : std::array{0.5, 0.5};
  }

  const build::Build& build_;
  const Report& report_;
  const StateReport* heaviest_ = nullptr;
  std::vector<Wanted> wanted_;
};

}  // namespace

FrameCases make_frame_cases(const build::Build& build, const Report& report) {
  return CaseMaker(build, report).make();
}

}  // namespace rig::check
