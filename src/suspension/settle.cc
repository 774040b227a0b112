#include "suspension/settle.h"

#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <cmath>

#include "geometry/matrix.h"
#include "suspension/elements.h"
#include "suspension/truck_internal.h"
#include "units/factors.h"

namespace rig::suspension {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// A step may move nothing further than this in one go: the elements bend too much beyond it.
constexpr double kLongestStep = 0.08;  // m, rad
constexpr double kTippedOver_rad = 1.2;

/// How far from solved: unbalanced forces against the truck's weight, misfits against a millimetre.
double merit(const TruckSystem& system, Index coordinates, double weight_N) {
  const double force = system.residual.head(coordinates).norm() / weight_N;
  const double misfit = system.residual.tail(system.residual.size() - coordinates).norm() / 1e-3;
  return force + misfit;
}

VectorXd newton_step(const TruckSystem& system, Index coordinates, double damping) {
  MatrixXd matrix = system.matrix;
  matrix.diagonal().head(coordinates).array() += damping;
  return matrix.partialPivLu().solve(-system.residual);
}

/// What may be taken of a step in one go.
double share_of(const VectorXd& step, Index coordinates) {
  const double longest = step.head(coordinates).cwiseAbs().maxCoeff();
  return longest > kLongestStep ? kLongestStep / longest : 1;
}

/// Whether the energy rises in every direction with the bars a little softer than they are. They
/// hold less then: what is stable so is stable.
bool is_stable_on_softer_bars(const MatrixXd& matrix, Index bars) {
  constexpr double kSofter_m_per_N = 1e-9;
  const Index n = matrix.rows() - bars;
  MatrixXd give = -matrix.bottomRightCorner(bars, bars);
  give.diagonal().array() += kSofter_m_per_N;
  const Eigen::LLT<MatrixXd> factor(give);
  if (factor.info() != Eigen::Success) return false;
  const MatrixXd held = factor.matrixL().solve(matrix.bottomLeftCorner(bars, n));
  MatrixXd stiffness = matrix.topLeftCorner(n, n);
  stiffness.noalias() += held.transpose() * held;
  return stiffness.llt().info() == Eigen::Success;
}

/// Whether the energy falls in no direction that the bars leave. By Haynsworth: the whole system
/// has one negative eigenvalue per bar.
bool is_stable(const MatrixXd& matrix, Index bars) {
  return is_stable_on_softer_bars(matrix, bars) ||
         (find_axis_values(matrix).array() < 0).count() <= bars;
}

/// True when the wheels of one end, or of one side, are both off the ground: nothing rests on a
/// line.
bool stands_on_a_line(const Settled& at) {
  const auto& [front, rear] =
      std::tie(at.axles.front().wheel_loads_N, at.axles.back().wheel_loads_N);
  const auto lifted = [](double a, double b) { return a <= 0 && b <= 0; };
  return lifted(front[0], front[1]) || lifted(rear[0], rear[1]) || lifted(front[0], rear[0]) ||
         lifted(front[1], rear[1]);
}

/// True when the balance point of all that the tyres carry stands outside them, as drawn.
bool balances_outside(const TruckModel& truck) {
  double weight_N = truck.tongue_load_N;
  Vec3 moment = truck.tongue_load_N * truck.p_VoBall_V;
  for (const auto& mass : truck.masses) {
    const double load_N = units::kStandardGravity_m_per_s2 * mass.mass_kg;
    weight_N += load_N;
    moment += load_N * mass.p_VoCm_V;
  }
  const Vec3 at = moment / weight_N;
  const auto& [a, b] = std::tie(truck.axles.front(), truck.axles.back());
  const auto [rear_x, front_x] = std::minmax(a.p_VC.x(), b.p_VC.x());
  return at.x() < rear_x || at.x() > front_x ||
         std::abs(at.y()) > std::max(a.track_m, b.track_m) / 2;
}

double calc_sprung_mass_kg(const TruckModel& truck) {
  double sprung_kg = 0;
  for (const auto& mass : truck.masses) {
    if (mass.axle < 0) sprung_kg += mass.mass_kg;
  }
  return sprung_kg;
}

Failure nothing_sprung() {
  return fail("suspension.nothing_sprung", "",
              "the axles' own masses leave nothing of the truck's weight for the springs to carry",
              "look for an axle's mass that is too great, or a reading of the scales too small");
}

Failure tips_over() {
  return fail("suspension.tips_over", "",
              "the truck has no stable resting place here: it tips over",
              "look for a mass or a spring in a wrong place, or one that is missing");
}

Failure not_settled(const TruckModel& truck, const TruckUnknowns& unknowns,
                    const TruckSystem& system, const Settled& at, int iterations) {
  if (stands_on_a_line(at) || balances_outside(truck)) return tips_over();
  Index worst = 0;
  const double residual = system.residual.head(unknowns.coordinates()).cwiseAbs().maxCoeff(&worst);
  return fail(
      "suspension.not_settled", "",
      fmt::format("the truck finds no resting place: after {} steps {:.2g} % of its weight is "
                  "still unbalanced in {}",
                  iterations, 100 * residual / unknowns.weight_N(), unknowns.name(worst)),
      "look for a spring, tyre or bump stop with a wrong rate or place");
}

Settled report(const TruckModel& truck, const TruckUnknowns& unknowns, const VectorXd& u,
               const Ground& ground) {
  Settled settled;
  settled.heave_m = u[TruckUnknowns::kBounce];
  settled.roll_rad = u[TruckUnknowns::kFrameRoll];
  settled.pitch_rad = u[TruckUnknowns::kFramePitch];
  settled.frame_twist_rad = unknowns.twists() ? u[TruckUnknowns::kTwist] : 0;
  settled.X_WV = unknowns.frame_pose(u, 0);
  for (std::size_t a = 0; a < truck.axles.size(); ++a) {
    const AxleModel& model = truck.axles[a];
    SettledAxle axle;
    axle.q = u.segment<6>(unknowns.axle_start(a));
    const AxleAxes axes = axes_from_coordinates(axle.q);
    axle.X_WA = unknowns.frame_pose(u, unknowns.twist_share(a)) * Pose{axes.R_VA, axes.p_VC};
    for (std::size_t side = 0; side < 2; ++side) {
      const double half = side == 0 ? model.track_m / 2 : -model.track_m / 2;
      const double z = (axle.X_WA * Vec3(0, half, 0)).z();
      axle.wheel_centre_heights_m[side] = z;
      const double squash = truck.tyres[a].free_radius_m - (z - ground[a][side]);
      axle.wheel_loads_N[side] = std::max(0.0, truck.tyres[a].rate_N_per_m * squash);
    }
    const auto forces = u.segment(unknowns.bar_start(a), static_cast<Index>(model.bars.size()));
    axle.bar_forces_N.assign(forces.data(), forces.data() + forces.size());
    for (const auto& coil : model.coils) {
      const double length = calc_distance(axes, coil.p_VP, coil.p_AQ);
      axle.coil_lengths_m.push_back(length);
      axle.coil_forces_N.push_back(calc_coil_force(coil, length));
    }
    for (const auto& half : model.leaf_halves) {
      const double rise = calc_leaf_rise(half, axes).value;
      axle.leaf_forces_N.push_back(half.rate_N_per_m * (half.rise_unloaded_m - rise));
    }
    for (const auto& shock : model.shocks) {
      axle.shock_lengths_m.push_back(calc_distance(axes, shock.p_VP, shock.p_AQ));
    }
    for (const auto& stop : model.stops) {
      const double length = calc_distance(axes, stop.p_VP, stop.p_AQ);
      const double squash = std::max(0.0, stop.free_height_m - length);
      axle.stop_compressions_m.push_back(squash);
      axle.stop_forces_N.push_back(calc_stop_force(stop, squash).force_N);
    }
    settled.axles.push_back(std::move(axle));
  }
  return settled;
}

}  // namespace

Result<Settled> settle(const TruckModel& truck, const Ground& ground,
                       const std::optional<Settled>& start, const SettleOptions& options) {
  if (!(calc_sprung_mass_kg(truck) > 0)) return nothing_sprung();
  const TruckUnknowns unknowns(truck);
  const Index n = unknowns.coordinates();
  const Index bars = unknowns.size() - n;
  const double weight_N = unknowns.weight_N();
  VectorXd u = start ? unknowns.from_settled(*start) : unknowns.as_drawn();

  TruckSystem system = calc_truck_system(truck, unknowns, ground, u);
  double damping = 0;
  for (int iteration = 1; iteration <= options.max_iterations; ++iteration) {
    const double before = merit(system, n, weight_N);
    const VectorXd step = newton_step(system, n, damping);
    if (!step.allFinite())
      return not_settled(truck, unknowns, system, report(truck, unknowns, u, ground), iteration);
    const double longest = step.head(n).cwiseAbs().maxCoeff();
    double share = share_of(step, n);
    // Newton's direction, shortened until it helps; with damping when it does not.
    bool better = false;
    const auto try_out = [&](const VectorXd& trial, TruckSystem& at) {
      at = calc_truck_system(truck, unknowns, ground, trial);
      better = merit(at, n, weight_N) < before || longest < 1e-9;
      return better;
    };
    for (int halving = 0; halving < 8 && !better; ++halving, share /= 2) {
      VectorXd trial = u + share * step;
      TruckSystem at;
      // Bars turn, and a long step along their tangents leaves them too long: one more sets that
      // right before the first is judged.
      if (!try_out(trial, at) && halving == 0) {
        const VectorXd correction = newton_step(at, n, damping);
        trial += share_of(correction, n) * correction;
        try_out(trial, at);
      }
      if (!better) continue;
      u = std::move(trial);
      system = std::move(at);
    }
    if (better) {
      damping = damping > 1 ? damping / 10 : 0;
    } else {
      damping = damping == 0 ? 1e-3 * weight_N : 10 * damping;
      if (damping > 1e6 * weight_N)
        return not_settled(truck, unknowns, system, report(truck, unknowns, u, ground), iteration);
    }
    if (std::abs(u[TruckUnknowns::kFrameRoll]) > kTippedOver_rad ||
        std::abs(u[TruckUnknowns::kFramePitch]) > kTippedOver_rad) {
      return tips_over();
    }
    const double force = system.residual.head(n).cwiseAbs().maxCoeff();
    const double misfit = bars > 0 ? system.residual.tail(bars).cwiseAbs().maxCoeff() : 0;
    if (force < options.force_tolerance_N && misfit < options.length_tolerance_m) {
      if (!is_stable(system.matrix, bars)) return tips_over();
      Settled settled = report(truck, unknowns, u, ground);
      settled.residual_N = force;
      settled.iterations = iteration;
      return settled;
    }
  }
  return not_settled(truck, unknowns, system, report(truck, unknowns, u, ground),
                     options.max_iterations);
}

}  // namespace rig::suspension
