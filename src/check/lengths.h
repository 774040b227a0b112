#pragma once

#include <functional>
#include <string>
#include <vector>

#include "check/report.h"

/// Lengths between a frame point and an axle point over an axle's sweeps.
namespace rig::check {

/// Distance between a frame point and an axle point at axle coordinates q, m.
double calc_length_m(const suspension::Vec6& q, const Vec3& p_VP, const Vec3& p_AQ);

struct Extreme {
  double length_m = 0;
  double heave_m = 0;  ///< Of the axle's middle there.
  double roll_rad = 0;
};

/// Shortest and longest over bump, droop and both crossed-up corners.
struct Extent {
  Extreme least, most;
};

/// Requires poses in the bump sweep.
Extent calc_extent(const AxleReport& axle, const Vec3& p_VP, const Vec3& p_AQ);

/// The heave at which a length is reached going into bump; beyond the wanted bump by a straight
/// line from its last poses. Infinite when it never gets nearer.
double find_heave_m(const AxleReport& axle, const Vec3& p_VP, const Vec3& p_AQ, double length_m);

/// How far the axle goes from drawn without roll while every pose `holds`: "3 in of bump and 4 in
/// of droop".
std::string reach_words(const AxleReport& axle, const Printer& print,
                        const std::function<bool(const suspension::SweptPose&)>& holds);

/// A coil is longer than free between its seats as drawn: it carries nothing there.
bool is_loose_as_drawn(const AxleReport& axle);

/// "at 4 in of bump", "crossed up, left wheel high".
std::string place_words(const AxleReport& axle, const Printer& print, const Extreme& extreme);

/// The last part of a JSON pointer.
std::string last_key(const std::string& path);

}  // namespace rig::check
