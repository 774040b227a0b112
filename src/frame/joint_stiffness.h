#pragma once

#include <Eigen/Core>

/// How soft the joints of a ladder frame are: springs between a rail and what is joined to it.
///
/// All are fitted to shell models with fully welded, sharp-cornered thin walls (rails 6 to 8 in
/// deep, 0.17 to 0.25 in thick) or derived from such fits as said. docs/design/frame-model.md.
namespace rig::frame {

/// The wall that something is welded to, by its midlines: that of a channel's web, a boxing plate
/// or a tube's side.
struct JointWall {
  double E_Pa = 0;
  double depth_m = 0;      ///< h: between the flanges' middles.
  double flange_m = 0;     ///< b: what it hangs on at its edges, from the wall's middle to its end.
  double thickness_m = 0;  ///< t
};

/// What is welded to the wall: how high, how long along the rail, how thick.
struct JointFoot {
  double height_m = 0;
  double length_m = 0;
  double thickness_m = 0;
};

/// Springs between the wall's own place and what is welded to it; everything else is rigid.
struct JointStiffness {
  double about_rail_Nm_per_rad = 0;     ///< K_Mx: tilts up and down.
  double about_upright_Nm_per_rad = 0;  ///< K_Mz: swings fore and aft.
  double across_N_per_m = 0;            ///< K_Fy: pushes the wall in.
};

/// A tube welded round through one wall.
/// @param mean_radius_m, wall_m  Of the tube.
/// @accuracy 9 to 12 % over 17 shell models; solid joints are some 11 % stiffer than shells.
JointStiffness calc_tube_in_wall(const JointWall& wall, double mean_radius_m, double wall_m);

/// Anything else welded with its end to one wall: a tube of the foot's height for the tilt, of its
/// length for the swing, of their geometric mean for the push.
/// @accuracy An estimate.
JointStiffness calc_foot_on_wall(const JointWall& wall, const JointFoot& foot);

/// Against a channel's end warping on that wall, N m2: its two flanges swing the wall to opposite
/// sides, each with half of the foot's swing stiffness, at half of its height.
/// @accuracy An estimate.
double calc_warping_on_wall(const JointStiffness& stiffness, const JointFoot& foot);

/// A tube through both walls of a box: bends between them.
/// @param I_m4   Second moment of the tube.
/// @param gap_m  Between the walls' middles.
JointStiffness calc_tube_through_box(double E_Pa, double I_m4, double gap_m);

/// Where an open stretch meets a boxed one: compliance on (twist of the open end against the box,
/// rad; twist rate of the open end, rad/m) under (torque, N m; bimoment's work on it, N m2).
/// @param box_ahead  The box is on the +x side (forward) of the junction.
/// @accuracy 20 % of each entry.
Eigen::Matrix2d calc_box_end_compliance(const JointWall& web, double plate_thickness_m,
                                        bool box_ahead);

/// Of a welded joint's stiffness, what is counted on when it is bolted: slip and bending of what
/// the bolts clamp. An assumption on the soft side until measured.
inline constexpr double kBoltedShare = 0.5;

}  // namespace rig::frame
