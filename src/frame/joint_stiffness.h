#pragma once

#include <Eigen/Core>
#include <limits>

/// How soft the joints of a ladder frame are: springs between a rail and what is joined to it.
///
/// Fitted to our own shell models of single joints (tests/shells: joints.py, junctions.py; fits.py
/// prints the fits): thin walls, sharp corners, fully welded, at mid-depth of the rail. Solids are
/// some 11 % stiffer locally than shells. docs/design/frame-model.md.
namespace rig::frame {

/// The wall that something is welded to, by its midlines: a channel's web, a boxing plate or a
/// tube's side.
struct JointWall {
  double E_Pa = 0;
  double depth_m = 0;      ///< h: between the flanges' middles.
  double flange_m = 0;     ///< b: what it hangs on at its edges, from the wall's middle to its end.
  double thickness_m = 0;  ///< t
};

/// What is welded to the wall, by its midlines: height, length along the rail, its wall.
struct JointFoot {
  double height_m = 0;
  double length_m = 0;
  double thickness_m = 0;
};

/// Springs between the wall's own place and what is welded to it; everything else is rigid.
struct JointStiffness {
  double about_rail_Nm_per_rad = 0;     ///< K_Mx: tilts up and down.
  double about_upright_Nm_per_rad = 0;  ///< K_Mz: swings fore and aft.
  double across_N_per_m = 0;            ///< K_Fy: pushes the wall in, at the springs' centre.
  /// K_My: rolls about the crossmember's own axis.
  double about_own_axis_Nm_per_rad = std::numeric_limits<double>::infinity();
  /// K_w: against the twist rate of a channel's end, bimoment per twist rate, N m3.
  double warping_Nm3 = 0;
  /// On the rail's own twist rate, N m3: what is clamped to its wall keeps that from twisting.
  double rail_rate_Nm3 = 0;
  /// From the middle of a channel's web to the springs' centre, towards its flanges' edges, m.
  double centre_m = 0;
  /// The joint's proportions lie within those of the models that were fitted.
  bool within_fit = true;
};

/// A tube welded round through one wall.
/// @param mean_radius_m, wall_m  Of the tube.
/// @source    Fit over 15 shell models, largest errors 9 % (tilt), 7 % (swing), 7 % (push).
JointStiffness calc_tube_in_wall(const JointWall& wall, double mean_radius_m, double wall_m);

/// A channel open forward or rearward, its end welded all round to the web of an open rail: the
/// foot's height is its depth, its length the flange.
/// @source    Fit over 23 shell models, largest errors 7 % (tilt), 8 % (swing), 6 % (push), 10 %
///            (warping), 25 % (roll, of little weight).
JointStiffness calc_channel_on_web(const JointWall& web, const JointFoot& foot);

/// A channel open up or down on the web of an open rail: the foot's height is its flange, its
/// length the depth.
/// @source    Fit over 16 shell models, largest errors 3 % (tilt), 6 % (swing), 4 % (push), 7 %
///            (warping), 20 % (roll, of little weight).
JointStiffness calc_flat_channel_on_web(const JointWall& web, const JointFoot& foot);

/// A channel open forward or rearward on the plate that boxes a rail. The box's own change of shape
/// is in it.
/// @param plate       With the thickness of the plate.
/// @param rail_wall_m Thickness of the channel that the plate closes.
/// @source    Fit over 16 shell models, largest errors 9 % (tilt), 8 % (swing), 6 % (push), 5 %
///            (warping), 23 % (roll, of little weight).
JointStiffness calc_channel_on_plate(const JointWall& plate, double rail_wall_m,
                                     const JointFoot& foot);

/// A channel between the rail's flanges, as deep as the rail, welded to web and flanges, which it
/// keeps from bending in their planes along its own flange (the rail's twist rate is one there).
/// Its warping is the rail's.
/// @param channel_EI_Nm2  Of the channel about the upright; it swings from the web on.
/// @param inset_m         From the web to where the springs are.
/// @source    Tilt, roll: fit over 12 shell models, largest errors 1 %, 11 %. Swing: the channel's
/// own bending.
JointStiffness calc_channel_between_flanges(const JointWall& web, const JointFoot& foot,
                                            double channel_EI_Nm2, double inset_m);

/// Anything else that is welded with its end to one wall: as a channel of its height and length.
/// @accuracy An estimate: `within_fit` is false.
JointStiffness calc_foot_on_wall(const JointWall& wall, const JointFoot& foot);

/// A tube through both walls of a box: bends between them.
/// @param I_m4   Second moment of the tube.
/// @param gap_m  Between the walls' middles.
JointStiffness calc_tube_through_box(double E_Pa, double I_m4, double gap_m);

/// How the open end of a rail gives where it meets a boxed stretch, against the box's plane
/// section. It has two ways to: twist (about the rail's forward axis, rad) and warp (by its twist
/// rate, rad/m). A shear force and a moment stir them too: what the plate carried comes out at the
/// flanges' edges and beside the shear centre.
struct BoxEnd {
  /// On (twist, twist rate) under (torque, N m; bimoment's work on the twist rate, N m2).
  Eigen::Matrix2d compliance;
  Eigen::Vector2d rise;         ///< Of the web's middle, up, by each of the two: m/rad, m2/rad.
  Eigen::Vector2d bend;         ///< About the axis to the left, by each of the two: rad/rad, m/rad.
  double swing_rad_per_Nm = 0;  ///< About the upright.
  bool within_fit = true;
};
/// @param box_ahead        The box is on the +x side (forward) of the junction.
/// @param opens_to_right   The channel that is boxed does, looked at from behind.
/// @source    Fit over 13 shell models, largest errors of compliance 3 % (twist), 4 % (both), 2 %
///            (twist rate), 6 % (swing); of rise 1 % and 4 %; of bend 3 % and 2 %.
BoxEnd calc_box_end(const JointWall& web, double plate_thickness_m, bool box_ahead,
                    bool opens_to_right);

}  // namespace rig::frame
