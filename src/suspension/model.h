#pragma once

#include <array>
#include <limits>
#include <string>
#include <vector>

#include "base/nan.h"
#include "geometry/pose.h"

/// One solid axle as a rigid body hung from the frame on elements, in SI.
///
/// Frames: V chassis datum (x forward, y left, z up), A axle; both coincide in direction as drawn.
/// The axle's reference point C is the midpoint of its wheel centres. docs/design/suspension.md.
namespace rig::suspension {

using Vec6 = Eigen::Matrix<double, 6, 1>;
using Mat6 = Eigen::Matrix<double, 6, 6>;

/// Axle coordinates: x, y, z of C in V (m), then roll, pitch, yaw (rad) with
/// R_VA = Rz(yaw) Ry(pitch) Rx(roll).
enum Coordinate { kX, kY, kZ, kRoll, kPitch, kYaw };

/// A two-force bar between a frame point P and an axle point Q. Force is positive in tension.
struct Bar {
  std::string name;  ///< The link's id, with ".left" or ".right" when it was mirrored.
  std::string path;  ///< JSON pointer of the link in the build file.
  Vec3 p_VP = Vec3::Zero();
  Vec3 p_AQ = Vec3::Zero();
  double length_m = 0;
  double swing_limit_frame_rad = kNaN;
  double swing_limit_axle_rad = kNaN;
};

/// Rotational stiffness of a bush at one end of a bar: resists the bar's direction, seen from the
/// body that holds the bush, leaving its drawn direction. Energy 1/2 k_c c^2 + 1/2 k_t t^2 with c
/// the tilt out of the plane square to the bolt and t the turn about the bolt (small-angle
/// components).
struct BushMoment {
  int bar = 0;                     ///< Index into `bars`.
  bool on_axle = false;            ///< Which end.
  Vec3 bolt = Vec3::UnitY();       ///< Unit vector, in the axes of the body that holds the bush.
  Vec3 direction = Vec3::UnitX();  ///< Unit vector frame end to axle end as drawn, same axes.
  double conical_Nm_per_rad = 0;
  double torsional_Nm_per_rad = 0;
};

/// A coil: line spring between two seats, with its length limits.
struct CoilSpring {
  std::string name;
  std::string path;
  Vec3 p_VP = Vec3::Zero();
  Vec3 p_AQ = Vec3::Zero();
  double free_length_m = 0;
  double rate_N_per_m = 0;
  double solid_length_m = 0;  ///< 0: not known, never reached.
  double drawn_length_m = 0;  ///< Seat to seat as drawn.
  int side = 0;               ///< +1 left, -1 right, 0 centre.
};

/// One half of a leaf pack: an upright spring and a sideways one, along the frame's axes, between
/// the eye on the frame and where the eye stood in axle axes as drawn. Upright because a shackle
/// can only pull along itself. The two halves together carry both the pack's rate and its wind-up
/// stiffness. docs/design/suspension.md.
struct LeafHalf {
  std::string name;
  std::string path;
  Vec3 p_VP = Vec3::Zero();    ///< Eye on the frame.
  Vec3 p_AQ = Vec3::Zero();    ///< Where it stood as drawn, fixed to the axle.
  double rise_unloaded_m = 0;  ///< Of P above Q when the half carries nothing.
  double rate_N_per_m = 0;     ///< Of this half as a cantilever.
  double lateral_rate_N_per_m = 0;
  int side = 0;
};

/// A progressive rubber stop. Force at compression c: k0 c + (k1 - k0) c^3 / (3 s^2).
struct Stop {
  std::string name;
  std::string path;
  Vec3 p_VP = Vec3::Zero();
  Vec3 p_AQ = Vec3::Zero();
  double free_height_m = 0;
  double rate_N_per_m = 0;
  double end_rate_N_per_m = 0;
  double end_travel_m = 1;
  int side = 0;
};

/// A damper at rest: gas force, and stiff stops at its closed and open lengths.
struct Shock {
  std::string name;
  std::string path;
  Vec3 p_VP = Vec3::Zero();
  Vec3 p_AQ = Vec3::Zero();
  double closed_length_m = 0;                                      ///< 0: no limit.
  double open_length_m = std::numeric_limits<double>::infinity();  ///< Infinite: no limit.
  double gas_force_N = 0;
  double damping_Ns_per_m = kNaN;
  int side = 0;
};

/// An anti-roll bar as the axle feels it: roll moment = rate * span^2 * sin(roll).
struct RollBar {
  std::string name;
  std::string path;
  double span_m = 0;
  double rate_N_per_m = 0;
};

struct AxleModel {
  std::string id;
  std::string path;
  Vec3 p_VC = Vec3::Zero();  ///< C as drawn.
  double track_m = kNaN;
  double loaded_radius_m = kNaN;  ///< C above the ground as drawn.
  bool front = true;

  std::vector<Bar> bars;
  /// Elongation of every bar per force in every bar, m/N, size bars x bars, symmetric. Zero rows
  /// and columns are ideal bars; off-diagonal terms come from a bush that two bars share.
  Eigen::MatrixXd compliance_m_per_N;
  /// Pairs of bars that are one stiff arm. What its apex carries is their sum; each alone is only
  /// one leg of a truss that stands for the arm, and large where the legs lie nearly in line.
  std::vector<std::array<int, 2>> arms;
  std::vector<BushMoment> bush_moments;
  std::vector<CoilSpring> coils;
  std::vector<LeafHalf> leaf_halves;
  std::vector<Stop> stops;
  std::vector<Shock> shocks;
  std::vector<RollBar> roll_bars;

  /// Coordinates as drawn.
  Vec6 drawn() const { return (Vec6() << p_VC, Vec3::Zero()).finished(); }
};

}  // namespace rig::suspension
