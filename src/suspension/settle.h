#pragma once

#include <array>
#include <optional>
#include <vector>

#include "base/result.h"
#include "suspension/model.h"

namespace rig::suspension {

/// A mass hung on the truck, as settle needs it.
struct PointMass {
  double mass_kg = 0;
  Vec3 p_VoCm_V = Vec3::Zero();  ///< As drawn.
  int axle = -1;                 ///< Index of the axle that carries it, or -1: the frame.
};

struct TyreSpring {
  double free_radius_m = 0;
  double rate_N_per_m = 0;
};

/// A steady push from outside: a brake's force where a tyre meets the ground, inertia, a winch.
struct Push {
  int axle = -1;                ///< Index of the axle it acts on, or -1: the frame.
  Vec3 p_VoP_V = Vec3::Zero();  ///< Where, as drawn; moves with what it acts on.
  Vec3 f_P_W = Vec3::Zero();    ///< Keeps its direction on the floor, N.
};

struct TruckModel {
  std::vector<AxleModel> axles;
  std::vector<TyreSpring> tyres;  ///< One per axle; both its wheels carry the same.
  std::vector<PointMass> masses;
  double tongue_load_N = 0;  ///< Downward at the ball.
  Vec3 p_VoBall_V = Vec3::Zero();
  /// Besides weight. Plan position and heading are held: pushes should balance in these.
  std::vector<Push> pushes;
  double frame_twist_stiffness_Nm_per_rad = std::numeric_limits<double>::infinity();
};

/// Ground heights under the wheels (m), per axle: left, right.
using Ground = std::vector<std::array<double, 2>>;

struct SettleOptions {
  int max_iterations = 200;
  double force_tolerance_N = 1e-8;    ///< Greatest unbalanced force (moments over 1 m) at the end.
  double length_tolerance_m = 1e-11;  ///< Greatest misfit of an ideal bar at the end.
};

struct SettledAxle {
  Vec6 q = Vec6::Zero();  ///< Relative to the frame (of its section, when the frame twists).
  Pose X_WA;              ///< In the world: floor axes W that coincide with V as drawn.
  std::array<double, 2> wheel_loads_N{};           ///< Left, right; 0: off the ground.
  std::array<double, 2> wheel_centre_heights_m{};  ///< In W.
  std::vector<double> bar_forces_N;                ///< Tension +.
  std::vector<double> coil_lengths_m, coil_forces_N;
  std::vector<double> leaf_forces_N;  ///< Per half.
  std::vector<double> shock_lengths_m;
  std::vector<double> stop_compressions_m, stop_forces_N;
};

struct Settled {
  Pose X_WV;  ///< Of the frame (its middle, when it twists).
  double heave_m = 0, roll_rad = 0,
         pitch_rad = 0;        ///< Of the frame at its balance point; pitch + nose down.
  double frame_twist_rad = 0;  ///< Front section against rear, + front left up.
  std::vector<SettledAxle> axles;
  double residual_N = 0;  ///< Greatest unbalanced force at the end.
  int iterations = 0;
};

/// Static equilibrium of the whole truck on its tyres: the minimum of gravity, springs, stops,
/// bushes and tyres over frame (bounce, roll, pitch, twist) and axles (six each), with ideal bars
/// rigid. Tyres press straight up and may leave the ground. Plan position and heading of the frame
/// are held: nothing pushes them.
///
/// @param start  A settled state to start from (a neighbouring ground or load); absent: as drawn.
/// @errors suspension.nothing_sprung, suspension.tips_over, suspension.not_settled (iterations,
///         residual and which freedom).
Result<Settled> settle(const TruckModel& truck, const Ground& ground,
                       const std::optional<Settled>& start = std::nullopt,
                       const SettleOptions& options = {});

/// One front (or rear) wheel driven up a ramp until another wheel leaves the ground.
struct Articulation {
  double height_m = 0;            ///< Of the ground under the raised wheel when another one lifts.
  double distance_up_ramp_m = 0;  ///< Along the slope.
  double ramp_travel_index = 0;   ///< distance / wheelbase * 1000.
  std::size_t first_lifted_axle = 0;
  int first_lifted_side = 0;  ///< +1 left, -1 right.
  bool limited = false;       ///< Every wheel was still down at the greatest height tried.
  bool tips_over = false;  ///< Past this height there is no resting place, no wheel having lifted.
  bool tip_is_taken = false;  ///< None was found, though none shows that the truck tips.
  Settled at_lift;
};

struct RampOptions {
  double slope_rad =
      0.3490658503988659;  ///< 20 degrees, as ramps are usually built (common practice).
  std::size_t axle = 0;
  int side = 1;
};

/// Tried up to where the wheel behind it meets the ramp too (index 1000 / cos of the slope).
/// @errors suspension.lifts_on_flat (a wheel is up before the ramp).
Result<Articulation> find_ramp_articulation(const TruckModel& truck, double wheelbase_m,
                                            const Settled& flat, const RampOptions& options = {});

/// Two diagonal wheels (left front, right rear) raised by the same height until another wheel
/// lifts: cross-axle articulation. `distance_up_ramp_m` is then that height itself.
Result<Articulation> find_cross_articulation(const TruckModel& truck, double wheelbase_m,
                                             const Settled& flat, double max_height_m = 1.0);

}  // namespace rig::suspension
