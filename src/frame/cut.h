#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "frame/model.h"
#include "frame/stands.h"
#include "units/factors.h"
#include "units/quantity.h"

/// What a stage of the work does to the frame: docs/design/frame-stages.md.
namespace rig::frame {

/// The weights on a model at a stage, own weight included: of a stage on stands they only weigh; of
/// one on its wheels they are all that acts, in balance. Errors stop the stage.
using WeightsOf = std::function<Result<Loads>(const Model& model, std::size_t stage)>;

/// Paths of the masses aboard that the mounts of a model would let tip or drop.
using UnheldOn = std::function<std::vector<std::string>(const Model& model, std::size_t stage)>;

/// How far things may move and how much may be carried before a stage is told to stop.
struct StageLimits {
  double height_m = units::kInch_m / 16;    ///< Of a rail between the stands.
  double diagonals_m = units::kInch_m / 8;  ///< Of their difference.
  double yield_factor = 1.5;                ///< Yield stress over what may be carried.
};

struct StageOptions {
  StageLimits limits;
  /// Stages of which not all that is aboard has a known weight: their verdicts say so.
  std::vector<std::size_t> unknown_weights;
  UnheldOn unheld_on;        ///< Empty: all that is aboard is held.
  units::UnitChoices units;  ///< For words.
};

/// What one end of a part carries, in its own axes: of a crossmember x to the right, y forward,
/// z up.
struct EndForces {
  double axial_N = 0;               ///< Positive in tension.
  double shear_upright_N = 0;       ///< V_z; of a plate along its height.
  double shear_lengthwise_N = 0;    ///< V_y; zero of a plate.
  double moment_upright_Nm = 0;     ///< M_y, bends it up and down; of a plate in its own plane.
  double moment_lengthwise_Nm = 0;  ///< M_z, bends it fore and aft; zero of a plate.
  double torque_Nm = 0;             ///< Zero of a plate.
  std::string words;                ///< "pulled by 120 lbf, sheared by ..."
};

/// How the two rails spring against each other where a part comes out.
struct EndSpring {
  double station_m = 0;
  double apart_m = 0;   ///< The rails' webs: positive when they spread.
  double height_m = 0;  ///< The left one against the right one: positive up.
  double ahead_m = 0;   ///< The left one against the right one: positive forward.
};

/// A crossmember, or a plate on one rail, that a stage takes out.
struct CutPart {
  std::string path;
  std::string words;
  bool plate = false;
  EndForces first;                  ///< Left end of a crossmember, front end of a plate.
  EndForces second;                 ///< Right or rear end.
  double energy_J = 0;              ///< That it holds just before, its joints' springs not counted.
  std::optional<EndSpring> spring;  ///< Of a crossmember.
};

struct HeightChange {
  std::string rail;  ///< Its path.
  int sign = 0;
  double station_m = 0;
  double change_m = 0;  ///< Positive up.
  std::string words;    ///< Where.
};

/// Changes of the diagonals between the rails' webs.
struct DiagonalChange {
  bool at_axles = false;           ///< Between the axle lines; else between the outermost stands.
  double front_m = 0, rear_m = 0;  ///< Stations.
  double left_front_m = 0;         ///< Left front to right rear.
  double right_front_m = 0;        ///< Right front to left rear.

  double difference_m() const { return left_front_m - right_front_m; }
};

struct StressPlace {
  std::string path;  ///< Of the rail or crossmember.
  int sign = 0;
  double along_m = 0;  ///< Station of a rail, offset of a crossmember.
  std::string words;
  double von_mises_Pa = 0;
  double yield_Pa = kNaN;   ///< NaN: not known.
  bool near_joint = false;  ///< As `WorstPlace`.
  bool distorts = false;
};

/// Stresses of a frame at one moment.
struct StageStress {
  StressPlace worst;
  /// Where least is left to the yield stress, of the places whose yield is known.
  std::optional<StressPlace> closest_to_yield;
  bool yields_known = true;  ///< Of all parts.
};

/// What a cut does.
struct StageChange {
  std::vector<StandForce> stands;  ///< After.
  HeightChange height;             ///< Greatest between the outermost stands.
  std::optional<DiagonalChange> diagonals;
  StageStress stress;  ///< After.
};

enum class StageVerdict { good, look, stop };

enum class StageReasonKind {
  near_yield,          ///< stop
  moves,               ///< stop; look with a brace in
  goes_out_of_square,  ///< stop; look with a brace in
  yield_unknown,       ///< look
  bolted_joint,        ///< look: how stiff a bolted end is was assumed
  weights_unknown,     ///< look
  not_held             ///< look: a case whose mounts that are left would let it tip
};

struct StageReason {
  StageReasonKind kind = StageReasonKind::near_yield;
  std::string path;
  double value = kNaN;  ///< Pa or m.
  double limit = kNaN;
};

/// A stage, before and after its cuts.
struct StageCut {
  std::vector<StandPoint> stands;  ///< Of the model before; none: on its wheels.
  std::vector<StandForce> stands_before;
  StageStress stress_before;
  std::vector<CutPart> parts;  ///< All go at once.
  StageChange change;
  std::vector<std::string> braces;  ///< Paths of the temporary parts that are in after the cut.
  std::optional<StageChange> without_brace;  ///< The same cut without them.
  StageVerdict verdict = StageVerdict::good;
  std::vector<StageReason> reasons;

  /// What is left with the brace of what moves without; none without a brace or a movement.
  std::optional<double> height_ratio() const;
  std::optional<double> diagonals_ratio() const;
  std::optional<double> stress_ratio() const;
};

/// What a stage's cuts do to the frame, with all that the stages before it have left in it.
///
/// First the stage puts in, then it takes out, all at once. A part is without stress when it goes
/// in and carries its share of what comes after; what it takes out is let go slowly. Heights are
/// seen from the plane of the stands that carry (on wheels from that of the axle lines), in plan
/// from where the stands are on the mean.
///
/// @param stage   Index into the build's stages.
/// @param weights Called once for every model that is compared.
/// @errors        Those of `make_model`, `Solver::make`, `find_stands`, `solve_stands` (of this
///                stage or an earlier one), at the stage's path; frame.load_not_balanced (on its
///                wheels); those of `weights`.
/// @accuracy      That of the model; the frame stays elastic.
Result<StageCut> solve_cut(const build::Build& build, std::size_t stage, const WeightsOf& weights,
                           const StageOptions& options = {});

/// The frames that stages are compared on: no weight is in them, so they can be made before any is
/// known.
class StageFrames {
 public:
  /// @param stages  How many, from the first.
  StageFrames(const build::Build& build, std::size_t stages, SectionBook& book);
  std::size_t stages() const;

 private:
  friend std::vector<Result<StageCut>> solve_cuts(const build::Build& build,
                                                  const StageFrames& frames,
                                                  const WeightsOf& weights,
                                                  const StageOptions& options);
  struct Impl;
  std::shared_ptr<const Impl> impl_;
};

/// The same of all stages that there are frames of; much faster than each by itself. A stage with a
/// fault stops those after it too: they have its errors.
/// @param weights  Called from several threads at a time.
std::vector<Result<StageCut>> solve_cuts(const build::Build& build, const StageFrames& frames,
                                         const WeightsOf& weights,
                                         const StageOptions& options = {});

}  // namespace rig::frame
