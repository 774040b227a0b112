#include "weigh/cg_height.h"

#include <cmath>
#include <string>

#include "geometry/matrix.h"

namespace rig::weigh {
namespace {

/// The part of a lift that follows from its geometry.
struct Turn {
  double angle_rad = 0;  ///< By which the truck turns.
  double level_factor =
      0;  ///< c: what is left of the level reading's arm, 1 for equal wheel heights.
  double height_factor =
      0;  ///< x: reading per metre of height above the scale axle's wheel centres, kg/m.
};

/// Values only, so that each may be moved by its half-width.
struct Lift {
  double lift_m = 0;
  double level_kg = 0;
  double lifted_kg = 0;
};
struct Lifted {
  double mass_kg = 0;
  double wheelbase_m = 0;
  double scale_height_m = 0;
  double lifted_height_m = 0;
  std::vector<Lift> lifts;
};

/// Sine of the lifted wheel-centre line; not below 1 when the lift is too high.
double sine_of_lifted_line(const Lifted& truck, const Lift& lift) {
  const double rise_m = truck.lifted_height_m - truck.scale_height_m;
  return (rise_m + lift.lift_m) / std::hypot(truck.wheelbase_m, rise_m);
}

Turn calc_turn(const Lifted& truck, const Lift& lift) {
  const double rise_m = truck.lifted_height_m - truck.scale_height_m;
  const double D = std::hypot(truck.wheelbase_m, rise_m);
  const double lifted_rad = std::asin(sine_of_lifted_line(truck, lift));
  const double turned_rad = lifted_rad - std::atan2(rise_m, truck.wheelbase_m);
  const double span_m = D * std::cos(lifted_rad);  // between the wheel centres, on the level
  return {.angle_rad = turned_rad,
          .level_factor = truck.wheelbase_m * std::cos(turned_rad) / span_m,
          .height_factor = truck.mass_kg * std::sin(turned_rad) / span_m};
}

struct Fit {
  double height_m = 0;  ///< Above the scale axle's wheel centres.
  double sum_of_squares_kg2 = 0;
};

/// Moments about the lifted axle's contact, truck turned: W2 = M - c (M - W1) + x k, with W1 the
/// level reading and k the height wanted; least squares over every level and lifted reading.
Fit fit_height(const Lifted& truck) {
  const auto n = static_cast<Eigen::Index>(truck.lifts.size());
  Eigen::MatrixX2d A(2 * n, 2);
  Eigen::VectorXd b(2 * n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Lift& lift = truck.lifts[static_cast<std::size_t>(i)];
    const Turn turn = calc_turn(truck, lift);
    A.row(2 * i) << 1, 0;
    b[2 * i] = lift.level_kg;
    A.row(2 * i + 1) << turn.level_factor, turn.height_factor;
    b[2 * i + 1] = lift.lifted_kg - truck.mass_kg * (1 - turn.level_factor);
  }
  const Eigen::Vector2d solution = solve_least_squares(A, b);
  return {.height_m = solution[1], .sum_of_squares_kg2 = (A * solution - b).squaredNorm()};
}

/// Root sum square of what the height changes by when each input moves by its half-width.
double spread_of_height(const Lifted& values, const LiftedTruck& truck,
                        std::span<const AxleLift> lifts) {
  const double height_m = values.scale_height_m + fit_height(values).height_m;
  double sum = 0;
  const auto add = [&](auto move) {
    Lifted moved = values;
    move(moved);
    for (const Lift& lift : moved.lifts) {
      if (!(sine_of_lifted_line(moved, lift) < 1)) return;
    }
    const double change_m = moved.scale_height_m + fit_height(moved).height_m - height_m;
    sum += change_m * change_m;
  };
  add([&](Lifted& t) { t.mass_kg += truck.mass_kg.plus_minus; });
  add([&](Lifted& t) { t.wheelbase_m += truck.wheelbase_m.plus_minus; });
  add([&](Lifted& t) { t.scale_height_m += truck.scale_axle_height_m.plus_minus; });
  add([&](Lifted& t) { t.lifted_height_m += truck.lifted_axle_height_m.plus_minus; });
  for (std::size_t i = 0; i < lifts.size(); ++i) {
    add([&](Lifted& t) { t.lifts[i].lift_m += lifts[i].lift_m.plus_minus; });
    add([&](Lifted& t) { t.lifts[i].level_kg += lifts[i].level_reading_kg.plus_minus; });
    add([&](Lifted& t) { t.lifts[i].lifted_kg += lifts[i].lifted_reading_kg.plus_minus; });
  }
  return std::sqrt(sum);
}

Diagnostics check_lifts(const Lifted& truck) {
  Diagnostics faults;
  const auto add = [&](const char* code, std::string path, std::string message,
                       std::string remedy) {
    faults.push_back({.code = code,
                      .path = std::move(path),
                      .message = std::move(message),
                      .remedy = std::move(remedy),
                      .at = {}});
  };
  if (truck.lifts.empty()) {
    add("weigh.no_lifts", "", "There is no lifted weighing.",
        "Weigh one axle with the other lifted.");
  }
  if (!(truck.mass_kg > 0)) {
    add("weigh.reading_not_positive", "", "The truck's mass is not positive.",
        "Weigh the whole truck on the level first.");
  }
  if (!(truck.wheelbase_m > 0)) {
    add("weigh.wheelbase_not_positive", "", "The rear axle line is not behind the front one.",
        "Stations count from the front axle, + aft: the rear axle's must be the greater.");
  }
  if (!faults.empty()) return faults;
  for (std::size_t i = 0; i < truck.lifts.size(); ++i) {
    const Lift& lift = truck.lifts[i];
    std::string path(1, '/');
    path += std::to_string(i);
    if (!(lift.lift_m > 0)) {
      add("weigh.lift_not_positive", path, "The axle was not lifted.",
          "Give how far its wheel centres rose.");
    } else if (!(sine_of_lifted_line(truck, lift) < 1)) {
      add("weigh.lift_too_high", path, "The lift is as long as the wheelbase.",
          "Give the rise of the wheel centres, and check its unit.");
    }
    if (!(lift.level_kg > 0) || !(lift.lifted_kg > 0)) {
      add("weigh.reading_not_positive", path, "A reading is not positive.",
          "Give what the scale showed under that axle.");
    } else if (lift.level_kg >= truck.mass_kg || lift.lifted_kg >= truck.mass_kg) {
      add("weigh.reading_above_total", path, "One axle reads as much as the whole truck weighs.",
          "Check the reading's unit, and that total and reading are of the same load state.");
    }
  }
  return faults;
}

}  // namespace

Result<CgHeight> solve_cg_height(const LiftedTruck& truck, std::span<const AxleLift> lifts) {
  Lifted values{.mass_kg = truck.mass_kg.value,
                .wheelbase_m = truck.wheelbase_m.value,
                .scale_height_m = truck.scale_axle_height_m.value,
                .lifted_height_m = truck.lifted_axle_height_m.value,
                .lifts = {}};
  for (const AxleLift& lift : lifts) {
    values.lifts.push_back(
        {lift.lift_m.value, lift.level_reading_kg.value, lift.lifted_reading_kg.value});
  }
  Diagnostics faults = check_lifts(values);
  if (!faults.empty()) return Failure{std::move(faults)};

  const Fit fit = fit_height(values);
  CgHeight result{.cg_height_m = values.scale_height_m + fit.height_m,
                  .plus_minus_m = spread_of_height(values, truck, lifts),
                  .residual_kg = 0,
                  .lifts = {}};
  if (lifts.size() > 1) {
    const double freedoms = 2 * static_cast<double>(lifts.size()) - 2;
    result.residual_kg = std::sqrt(fit.sum_of_squares_kg2 / freedoms);
  }
  for (const Lift& lift : values.lifts) {
    Lifted alone = values;
    alone.lifts = {lift};
    const Turn turn = calc_turn(values, lift);
    result.lifts.push_back({.angle_rad = turn.angle_rad,
                            .cg_height_m = values.scale_height_m + fit_height(alone).height_m,
                            .sensitivity_m_per_kg = 1 / turn.height_factor});
  }
  return result;
}

}  // namespace rig::weigh
