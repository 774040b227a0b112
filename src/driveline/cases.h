#pragma once

#include <Eigen/Core>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "base/nan.h"
#include "base/result.h"
#include "geometry/pose.h"

/// The line of cases, from the engine back, on its mounts: what each mount carries, and what each
/// flange between two cases passes on. docs/design/powertrain.md.
namespace rig::driveline {

inline constexpr double kStiff = std::numeric_limits<double>::infinity();

/// One case.
struct Case {
  std::string id;
  std::string label;
  Vec3 p_VoF_V = Vec3::Constant(kNaN);  ///< Middle of its front face.
  Vec3 p_VoR_V = Vec3::Constant(kNaN);  ///< Middle of its rear face.
  double mass_kg = 0;
  Vec3 p_VoCm_V = Vec3::Zero();
  Mat3 I_Cm_V = Mat3::Zero();   ///< About its own mass centre.
  double bending_Nm2 = kStiff;  ///< E I; infinite: it does not bend.
};

/// A rubber between a case and the frame.
struct CaseMount {
  std::string path;  ///< JSON pointer of the mount.
  int sign = 0;      ///< +1 the left, -1 the right of a pair; 0 a single one.
  std::string label;
  std::size_t on = 0;  ///< Which case.
  Vec3 p_VoM_V = Vec3::Constant(kNaN);
  Mat3 K_V = Mat3::Zero();      ///< N/m
  Vec3 axis_V = Vec3::UnitZ();  ///< Its own axis, of compression.
  double snub_gap_m = kStiff;   ///< Travel along the axis from where it rests to its stop.
  double snub_rate_N_per_m = 0;
};

/// Cases bolted to each other, the first in front.
struct CaseLine {
  std::vector<Case> cases;
  std::vector<CaseMount> mounts;
  /// How the frame gives where the mounts stand on it, three ways for each, m/N, as of
  /// `frame::calc_mount_compliance`; empty: it stands still.
  Eigen::MatrixXd frame_m_per_N;

  double mass_kg() const;
  Vec3 p_VoCm_V() const;
  /// About the mass centre of all.
  Mat3 I_Cm_V() const;
};

/// What acts on the cases.
struct CaseLoads {
  Vec3 felt_V = Vec3::Zero();  ///< Gravity less the truck's own acceleration, m/s2.
  std::vector<Vec3> t_V;       ///< Torque on each case; none: no torque.
};

/// What one side of a cut passes on to the other.
struct CutLoad {
  Vec3 f_V = Vec3::Zero();  ///< Of the front part on the rear part.
  Vec3 t_V = Vec3::Zero();  ///< The same, about the middle of the face.
  double bending_Nm = 0;    ///< Across the line.
  double torsion_Nm = 0;    ///< Along the line, + right-handed about the way forward.
  double shear_N = 0;
};

struct MountLoad {
  Vec3 f_V = Vec3::Zero();        ///< Of the mount on the case.
  Vec3 travel_V = Vec3::Zero();   ///< Of the case there.
  Vec3 squeeze_V = Vec3::Zero();  ///< The same less what the frame gives: of the rubber.
  double along_N = 0;             ///< Along its axis, + pushing the case up.
  bool snubbed = false;
};

struct CasesAtRest {
  std::vector<MountLoad> mounts;
  std::vector<CutLoad> flanges;                     ///< At the rear face of each case but the last.
  std::vector<Vec3> front_travel_V, rear_travel_V;  ///< Of the faces' middles, by case.
  std::vector<Vec3> front_turn_V, rear_turn_V;      ///< Of the faces, rad.
};

/// Cases in balance on their mounts: each a stiff body, or a beam where it has a bending stiffness,
/// small motions. The frame stands still but for what gives at the mounts.
///
/// A case that bends is as stiff in twist and along itself as a round shell of 150 mm radius with
/// the same E I.
/// @param rest  Where it rests, from which stops are counted; null: stops do not touch.
/// @errors driveline.no_mounts, driveline.not_held (names the way it can move).
Result<CasesAtRest> solve_cases(const CaseLine& line, const CaseLoads& loads,
                                const CasesAtRest* rest = nullptr);

/// The same under several loads. The first is that in which it rests.
Result<std::vector<CasesAtRest>> solve_loads(const CaseLine& line,
                                             std::span<const CaseLoads> loads);

/// A small motion of a place fixed to a case.
struct CaseMotion {
  Vec3 travel_V = Vec3::Zero();
  Vec3 turn_V = Vec3::Zero();
};

/// How a place fixed to a case moves: with its front face or its rear face, between them with a
/// share of both.
CaseMotion calc_case_motion(const CaseLine& line, const CasesAtRest& at_rest, std::size_t on,
                            const Vec3& p_VoP_V);

/// Load that passes a cut of one case at a share of its length, 0 at its front face: of all that
/// acts on what lies before the cut.
CutLoad calc_cut_load(const CaseLine& line, const CaseLoads& loads, const CasesAtRest& at_rest,
                      std::size_t on, double share);

}  // namespace rig::driveline
