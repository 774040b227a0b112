#include "frame/bolted_joints.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rig::frame {
namespace {

struct Between {
  double low, high;

  bool holds(double value) const { return low <= value && value <= high; }
};

/// Side of the square that has a washer's area.
double square_side_m(double washer_m) { return washer_m * std::sqrt(std::numbers::pi) / 2; }

/// Proportions of a bolted plate; h is the web's depth, t its thickness.
struct PlateRatios {
  double height;               ///< Of the channel over h.
  double length;               ///< Of its flanges over h.
  double rise, reach, washer;  ///< Over h; the washer's square.
  double plate, foot;          ///< Thicknesses over t.
  double wall;                 ///< t/h
  double side;                 ///< b/h
};

/// factor times the ratios to these powers; (plate) also to `near` ln(1 - rise).
struct PlateFit {
  double factor, height, length, rise, strips, reach, washer, plate, foot, wall, side, near;

  double at(const PlateRatios& r) const {
    const double strip = 1 - r.rise;
    return factor * std::pow(r.height, height) * std::pow(r.length, length) *
           std::pow(r.rise, rise) * std::pow(strip, strips) * std::pow(r.reach, reach) *
           std::pow(r.washer, washer) * std::pow(r.plate, plate + near * std::log(strip)) *
           std::pow(r.foot, foot) * std::pow(r.wall, wall) * std::pow(r.side, side);
  }
};

// Printed by tests/shells/bolt_fits.py.
constexpr PlateFit kTilt{25.73, 1.941, 0.270, -1.062, -0.433, 0.056,
                         0.812, 0.955, 0.169, -0.343, -0.045, -0.345};
constexpr PlateFit kSwing{116.2, 1.596, 0.603, -1.146, -0.088, 0.284,
                          1.187, 0.194, 0.146, -0.278, 0.169,  -0.706};
constexpr PlateFit kPush{1318,  1.459, 0.236, -0.276, -0.469, 0.152,
                         1.045, 0.304, 0.187, 0.072,  -0.173, -0.774};
constexpr PlateFit kRoll{0.01191, 2.685,  1.443, 1.743,  1.226,  0.074,
                         -0.634,  -1.393, 0.426, -2.841, -0.778, -1.005};
constexpr PlateFit kWarp{3.394, 2.772, 1.119, -1.790, -0.146, 0.136,
                         0.602, 0.875, 0.131, -0.460, -0.144, -0.448};
/// Of the springs' centre, over the channel's flange.
constexpr double kCentre = 0.57;

bool within_plate_fit(const PlateRatios& r) {
  return Between{0.36, 0.62}.holds(r.height) && Between{0.175, 0.43}.holds(r.length) &&
         Between{0.535, 0.8}.holds(r.rise) && Between{0.19, 0.67}.holds(r.reach) &&
         Between{0.083, 0.185}.holds(r.washer) && Between{0.97, 2.35}.holds(r.plate) &&
         Between{0.6, 1.51}.holds(r.foot) && Between{0.0155, 0.0435}.holds(r.wall) &&
         Between{0.29, 0.49}.holds(r.side);
}

}  // namespace

JointStiffness calc_channel_on_bolted_plate(const JointWall& web, const JointFoot& foot,
                                            const BoltedPlate& plate) {
  const double h = web.depth_m, t = web.thickness_m;
  const PlateRatios r{.height = foot.height_m / h,
                      .length = foot.length_m / h,
                      .rise = std::min(plate.rise_m / h, 0.9),
                      .reach = plate.reach_m / h,
                      .washer = square_side_m(plate.washer_m) / h,
                      .plate = plate.thickness_m / t,
                      .foot = foot.thickness_m / t,
                      .wall = t / h,
                      .side = web.flange_m / h};
  const double unit_Nm = web.E_Pa * std::pow(t, 3);
  return {.about_rail_Nm_per_rad = unit_Nm * kTilt.at(r),
          .about_upright_Nm_per_rad = unit_Nm * kSwing.at(r),
          .across_N_per_m = unit_Nm / (h * h) * kPush.at(r),
          .about_own_axis_Nm_per_rad = unit_Nm * kRoll.at(r),
          .warping_Nm3 = unit_Nm * h * h * kWarp.at(r),
          .rail_rate_Nm3 = unit_Nm * h * h * 4.593 * std::pow(r.rise, 1.520) *
                           std::pow(r.reach, 0.712) * std::pow(r.washer, 1.233) *
                           std::pow(r.plate, 1.311) * std::pow(r.wall, -0.373),
          .centre_m = kCentre * foot.length_m,
          .within_fit = within_plate_fit(r)};
}

JointStiffness bolt_channel_on_web(const JointStiffness& welded) {
  JointStiffness bolted = welded;
  bolted.about_rail_Nm_per_rad *= 1.7;
  bolted.about_upright_Nm_per_rad *= 2.1;
  bolted.across_N_per_m *= 2.8;
  bolted.warping_Nm3 *= 1.8;
  return bolted;
}

FlangeLap calc_flange_lap(const JointWall& rail, double channel_wall_m, double bolts,
                          double washer_m) {
  const double b = rail.flange_m, t = rail.thickness_m;
  const double washer = square_side_m(washer_m) / b, wall = channel_wall_m / t;
  const double thin = t / b, deep = rail.depth_m / b;
  const auto fit = [&](double factor, double n, double w, double tc, double tb, double hb) {
    return factor * std::pow(bolts, n) * std::pow(washer, w) * std::pow(wall, tc) *
           std::pow(thin, tb) * std::pow(deep, hb);
  };
  const double unit_N_per_m = rail.E_Pa * t;
  return {
      .along_N_per_m = unit_N_per_m * fit(0.4041, 0.105, 0.522, 0.459, -0.266, -1.119),
      .across_N_per_m = unit_N_per_m * fit(3.692, 0.993, 1.881, 0.225, -0.009, -1.237),
      .up_N_per_m = unit_N_per_m * thin * thin * fit(3.150, 1.031, 0.724, 1.589, 0.016, -0.304),
      .turn_Nm_per_rad = unit_N_per_m * b * b * fit(0.5934, 1.409, 1.750, 0.490, -0.037, -0.217),
      .rail_rate_Nm3 = unit_N_per_m * t * t * b * b * fit(4.603, 0.338, 0.693, 1.786, 0.199, 0.202),
      .within_fit = Between{1, 4}.holds(bolts) && Between{0.22, 0.37}.holds(washer) &&
                    Between{0.66, 1.51}.holds(wall) && Between{0.051, 0.106}.holds(thin) &&
                    Between{2.68, 3.67}.holds(deep)};
}

double washer_of_bolt_m(double bolt_diameter_m) { return 2 * bolt_diameter_m; }

}  // namespace rig::frame
