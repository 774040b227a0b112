#pragma once

#include "frame/joint_stiffness.h"

/// How soft the bolted joints of a ladder frame are.
///
/// Fitted to our own shell models of single joints (tests/shells: joints.py; bolt_fits.py prints
/// the fits). A tightened bolt clamps a square of its washer's area, inside which both plates are
/// one; holes, slip and plates that bear on each other beside the bolts are left out.
/// docs/design/frame-model.md.
namespace rig::frame {

/// A plate welded to a crossmember's end, four bolts at its corners through the rail's web.
struct BoltedPlate {
  double thickness_m = 0;
  double rise_m = 0;    ///< From the lower to the upper bolts, between middles.
  double reach_m = 0;   ///< From the front to the rear bolts.
  double washer_m = 0;  ///< Outside diameter of their washers.
};

/// A channel open forward or rearward welded all round to a plate that is bolted to the web of an
/// open rail above and below it: the plate bends between the channel and the bolts, the web between
/// the bolts and its flanges. The springs are at the plate's middle.
/// @source    Fit over 58 shell models, largest errors 15 % (tilt), 19 % (swing), 20 % (push), 36 %
///            (warping), 79 % (roll, of little weight); over 46 of them 29 % (rail's twist rate).
JointStiffness calc_channel_on_bolted_plate(const JointWall& web, const JointFoot& foot,
                                            const BoltedPlate& plate);

/// The same where plate and bolts are not known, for plates as thick as the channel's wall or
/// thicker.
/// @param welded  `calc_channel_on_web`.
/// @source    The least of 14 shell models, the largest of which are 2.2 to 2.7 times as stiff
///            again.
JointStiffness bolt_channel_on_web(const JointStiffness& welded);

/// Springs between a rail's flange and a crossmember's that is bolted to it, at the bolts' middle.
struct FlangeLap {
  double along_N_per_m = 0;  ///< Along the rail.
  double across_N_per_m = 0;
  double up_N_per_m = 0;
  double turn_Nm_per_rad = 0;  ///< In the flanges' plane.
  double rail_rate_Nm3 = 0;    ///< As `JointStiffness`; of both flanges together.
  bool within_fit = true;
};

/// @param rail       Of the open rail: its web's depth, flange and wall.
/// @param channel_wall_m  Thickness of the crossmember's flange.
/// @param bolts      In each flange.
/// @param washer_m   Outside diameter.
/// @source    Fit over 14 shell models, largest errors 11 % (along), 24 % (across), 36 % (up), 16 %
///            (turn). The crossmember's roll about its own axis comes out up to twice as stiff as
///            in the shells.
FlangeLap calc_flange_lap(const JointWall& rail, double channel_wall_m, double bolts,
                          double washer_m);

/// Outside diameter of a plain washer for a bolt, m.
/// @source    ISO 7089: twice the bolt's from M8 to M12, 5 % less or more beyond.
double washer_of_bolt_m(double bolt_diameter_m);

}  // namespace rig::frame
