#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "frame/model.h"
#include "frame/solve.h"
#include "units/quantity.h"

/// A frame on the stands of a stage.
namespace rig::frame {

/// A stand as the frame meets it.
struct StandPoint {
  std::string path;   ///< In the build file.
  std::string words;  ///< "left rear stand"
  int joint = -1;
  Vec3 p_VoP_V = Vec3::Zero();
};

/// The stands of a stage, in the order of the file, left before right.
/// @errors  frame.no_stands, frame.unknown_station, frame.no_rail_above; at the file's places.
Result<std::vector<StandPoint>> find_stands(const build::Build& build, std::size_t stage,
                                            const Model& model);

struct StandForce {
  double force_N = 0;  ///< Upward, on the frame.
  bool lifted = false;
  double gap_m = 0;  ///< Under the frame; zero where it rests.
};

struct Standing {
  std::vector<StandForce> stands;  ///< By stand.
  Loads loads;                     ///< Those given and the stands' forces, in balance.
  /// Of the frame, seen from the plane of the stands' tops: points that rest have no height; in
  /// plan the stands have not moved on the mean.
  Response response;
};

/// What stands carry and how the frame lies on them.
///
/// Stands push upwards only, without friction and without give; their tops lie where the unloaded
/// frame touches all of them. Of all upward forces that balance the loads those are it under which
/// the frame stores least energy: a strictly convex problem with one answer, found by going from
/// one set of stands that carry to the next. Stands at one place share alike.
///
/// @param solver  Of a frame that nothing ties to the ground.
/// @param loads   Weights, and whatever is in balance by itself. Their resultant is a force
///                downwards.
/// @param units   For what is told of lengths.
/// @errors        frame.no_weight, frame.load_not_vertical (a force fore-and-aft or sideways, or a
///                moment about the vertical, is left over), frame.too_few_stands (three, not in
///                line), frame.tips (over which stands, and by how much to move them); path
///                `/stands`. Those of `Solver::solve_held`.
/// @accuracy      Rounding: equilibrium 1e-9 of the weight.
/// @source        [Nocedal] algorithm 16.3 (from memory).
Result<Standing> solve_stands(const Solver& solver, const Loads& loads,
                              std::span<const StandPoint> stands,
                              const units::UnitChoices& units = {});

/// a + share b, joint by joint and scalar by scalar.
void add_response(Response& to, const Response& more, double share);

/// Adds a small rigid motion: displacement of the point Q and a rotation about it.
void add_rigid_motion(const Structure& structure, const Vec3& p_VoQ_V, const Vec3& displacement_V,
                      const Vec3& rotation_V, Response& response);

}  // namespace rig::frame
