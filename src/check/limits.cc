#include "check/limits.h"

#include "units/factors.h"

namespace rig::check {
namespace {

template <typename Quantity>
Limit limit(const Quantity& given, const char* key, double usual_si, const char* basis) {
  const std::string path = std::string("/limits/") + key;
  if (given.known()) return {given.si, "set in the file", path, true};
  return {usual_si, basis, path, false};
}

}  // namespace

Limits resolve_limits(const build::Limits& given) {
  using units::m_from_inch;
  using units::rad_from_deg;
  constexpr const char* kPractice = "common practice";
  return {
      .caster_change = limit(given.caster_change, "caster_change", rad_from_deg(3), kPractice),
      .pinion_change = limit(
          given.pinion_change, "pinion_change", rad_from_deg(3),
          "common practice: 3 deg out of line at 3000 rpm is near 300 rad/s2 at a single joint"),
      .lateral_shift = limit(given.lateral_shift, "lateral_shift", m_from_inch(0.75), kPractice),
      .roll_steer = limit(given.roll_steer, "roll_steer", 0.10, kPractice),
      .anti_squat_min = limit(given.anti_squat_min, "anti_squat_min", 0.30, kPractice),
      .anti_squat_max = limit(given.anti_squat_max, "anti_squat_max", 1.20, kPractice),
      .anti_dive_max = limit(given.anti_dive_max, "anti_dive_max", 0.80, kPractice),
      .height_error = limit(given.height_error, "height_error", m_from_inch(0.5), kPractice),
      .spring_travel_left =
          limit(given.spring_travel_left, "spring_travel_left", m_from_inch(0.5), kPractice),
      .shock_travel_left =
          limit(given.shock_travel_left, "shock_travel_left", m_from_inch(0.5), kPractice),
      .side_slope = limit(given.side_slope, "side_slope", rad_from_deg(30), kPractice),
  };
}

}  // namespace rig::check
