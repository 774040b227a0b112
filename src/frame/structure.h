#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "base/nan.h"
#include "base/result.h"
#include "base/shared.h"
#include "geometry/pose.h"
#include "section/properties.h"
#include "section/section.h"
#include "section/stress.h"

/// Frames as structures: thin-walled beams with warping, joined by joints that are rigid, soft or
/// tied to each other's warping. Small displacements, linear elastic steel.
///
/// What a joint's motion means where beams warp. A section at the end of a beam moves as
///   u(y, z) = u_O + z r_y - y r_z - w(y, z) t,   v_O - z r_x across,   w_O + y r_x up,
/// in the beam's axes from O, with t the twist rate and w the sectorial coordinate about the shear
/// centre, whose mean and whose products with y and z over the section are zero. The joint's
/// displacement and rotations are u_O ... r_z: those of the mean plane of the warped section, not
/// of any wall. A wall turns and moves by w besides: `make_wall_mode` (frame/wall_mode.h) says how,
/// and what is welded to the wall hangs on a joint that follows with that mode.
namespace rig::frame {

/// A single freedom apart from those of a joint: the warping of a beam's end (its twist rate,
/// rad/m, about the beam's own axis), or a movement inside a joint (rad or m).
struct Scalar {
  int of = -1;        ///< >= 0: not a freedom of its own but `ratio` times that earlier scalar.
  double ratio = 0;   ///< Used with `of`.
  bool held = false;  ///< Kept at zero.
  std::string place;  ///< In the shop's words, for what goes wrong: "left rail, warping at 40 in".
};

/// How a joint moves for one unit of a scalar, besides following.
struct Mode {
  int scalar = -1;
  Vec3 displacement_V = Vec3::Zero();  ///< m per unit.
  Vec3 rotation_V = Vec3::Zero();      ///< rad per unit.
};

/// A place where members meet: a small rigid body with three displacements and three rotations,
/// or one that follows an earlier joint rigidly but for its modes. (What is welded to a rail's web
/// follows the rail, and turns with the web where the rail warps.)
struct Joint {
  Vec3 p_VoJ_V = Vec3::Constant(kNaN);
  int follows = -1;         ///< Index of an earlier joint, or -1.
  std::vector<Mode> modes;  ///< Only of one that follows.
  std::string place;        ///< In the shop's words: "left rail at 40 in".
};

/// Most that each action of size one makes anywhere in a section: axial stress and shear, Pa.
struct StressBound {
  double axial = 0, moment_y = 0, moment_z = 0, bimoment = 0;
  double shear_y = 0, shear_z = 0, torque_warping = 0, torque_St_Venant = 0;

  /// No von Mises stress in the section is above this.
  double von_mises_Pa(const section::SectionForces& forces) const;
};

/// What beams are made of. Several beams share one.
struct BeamSection {
  section::Section section;
  section::SectionProperties properties;  ///< `solve_section(section)`.
  double E_Pa = kNaN;
  double G_Pa = kNaN;
  double density_kg_per_m3 = kNaN;
  /// Integral over the walls of the shear flows of V_y = 1 N and V_z = 1 N over thickness, 1/m2:
  /// ties shear one way to give the other way. Zero when y or z is an axis of symmetry.
  double shear_cross_per_m2 = 0;
  StressBound stress_bound;

  /// A section with a cell carries torque by Bredt and does not warp as far as beams know; its
  /// ends' scalars are not used.
  bool warps() const {
    constexpr double kRounding = 1e-9;
    return !(properties.cells_torsion_constant_m4 > kRounding * properties.torsion_constant_m4);
  }
};

/// A beam's section with all that depends on it alone.
/// @errors  Those of `solve_section`.
Result<BeamSection> make_beam_section(const section::Section& section, double E_Pa, double G_Pa,
                                      double density_kg_per_m3);

/// A straight prismatic beam. Its reference line runs through O of the section from one end to the
/// other; centroid and shear centre lie beside it. The section's x runs from `from` to `to`, its y
/// along `y_V` made square to x, z = x cross y.
struct Beam {
  int from = -1;  ///< Joint.
  int to = -1;
  Vec3 p_VoF_V = Vec3::Zero();  ///< Ends of the reference line, rigidly on their joints.
  Vec3 p_VoT_V = Vec3::Zero();
  Vec3 y_V = Vec3::UnitY();
  int section = -1;
  /// Scalars that are the twist rate (rad/m about the beam's x, at its ends). -1: the end is free
  /// to warp. A beam that doesn't warp has -1 at both.
  int warp_from = -1;
  int warp_to = -1;
  int member = -1;  ///< Index into `Structure::members`.
};

/// What several beams are parts of, in the shop's words: "left rail", "tank crossmember".
struct Member {
  std::string id;
  std::string words;
};

/// A linear spring on scalars: generalised force = stiffness times their values.
struct ScalarSpring {
  std::vector<int> scalars;
  Eigen::MatrixXd stiffness;  ///< Symmetric, positive semi-definite; N, N m, N m2 by scalar.
  std::string place;
  int member = -1;  ///< Whose joint it is in; -1: that does not matter.
};

/// A spring between two joints at one point: force on `to` at P = -stiffness (displacement of `to`
/// - that of `from`) in axes S, and the same for rotations.
struct JointSpring {
  int from = -1;  ///< -1: the ground.
  int to = -1;
  Vec3 p_VoP_V = Vec3::Zero();
  Mat3 R_VS = Mat3::Identity();
  Vec3 stiffness_N_per_m = Vec3::Zero();
  Vec3 stiffness_Nm_per_rad = Vec3::Zero();
  std::string place;
};

struct Structure {
  std::vector<Joint> joints;
  std::vector<Scalar> scalars;
  std::vector<Shared<BeamSection>> sections;
  std::vector<Member> members;
  std::vector<Beam> beams;
  std::vector<ScalarSpring> scalar_springs;
  std::vector<JointSpring> joint_springs;
};

/// Forces on joints and beams.
struct PointLoad {
  int joint = -1;
  Vec3 p_VoP_V = Vec3::Zero();  ///< Where; rigidly on the joint.
  Vec3 f_P_V = Vec3::Zero();
  Vec3 t_V = Vec3::Zero();
};

/// Even force along the whole of a beam, at (y, z) from O in the section. Across the beam it turns
/// it about the shear centre; along the beam it bends it about the centroid and makes no bimoment.
struct LineLoad {
  int beam = -1;
  Vec3 f_per_m_V = Vec3::Zero();
  Vec2 p_OP = Vec2::Zero();
};

/// Generalised force on a scalar: what does work on it. On a twist rate the negative of the
/// bimoment that a face ahead (+x) of it would carry, N m2; N m or N on a movement inside a joint.
struct ScalarLoad {
  int scalar = -1;
  double force = 0;
};

struct Loads {
  std::vector<PointLoad> points;
  std::vector<LineLoad> lines;
  std::vector<ScalarLoad> scalars;
};

/// Own weight and inertia of all beams under an acceleration field a (force = -mass times a; for
/// gravity a is +9.81 along z).
void add_body_forces(const Structure& structure, const Vec3& a_V, Loads& loads);

/// Force and moment about Vo of all loads: what self-equilibrated loads leave at zero.
struct Resultant {
  Vec3 f_V = Vec3::Zero();
  Vec3 t_Vo_V = Vec3::Zero();
};
Resultant calc_resultant(const Structure& structure, const Loads& loads);

/// What makes a structure impossible; empty when nothing does. Paths: `/beams/3/section`.
/// @errors frame.unknown_joint, frame.unknown_scalar, frame.unknown_section, frame.unknown_member,
///         frame.not_finite, frame.follows_later, frame.modes_without_follow,
///         frame.beam_without_length, frame.y_along_beam, frame.material_not_positive,
///         frame.section_not_positive, frame.axes_not_square, frame.spring_not_symmetric,
///         frame.spring_negative, frame.spring_wrong_size, frame.no_joints,
///         frame.disconnected (joints that no beam or spring ties to the rest; names them).
Diagnostics check_structure(const Structure& structure);

}  // namespace rig::frame
