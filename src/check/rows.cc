#include "check/rows.h"

#include <cmath>

#include "base/nan.h"
#include "check/lengths.h"
#include "check/limits.h"
#include "check/ride_bands.h"
#include "check/words.h"

namespace rig::check {
namespace {

using suspension::PoseNumbers;
using suspension::Sweep;
using suspension::SweptPose;
using units::Dimension;

class Builder {
 public:
  Builder(const build::Build& build, const Printer& print, AxleReport& axle)
      : print_(print), limits_(resolve_limits(build.limits)), axle_(axle) {}

  void add_rows() {
    const bool front = axle_.front;
    const PoseNumbers& n = axle_.drawn->numbers;
    const std::string id = axle_.id;
    row("roll_centre", "Roll centre height", length(n.roll_centre_height_m), {}, {},
        "roll_centre." + id,
        "Height above the ground about which the axle rolls, at its own line.");
    row("roll_axis", "Roll axis slope",
        print_.number(std::atan(n.roll_axis_slope), Dimension::kAngle), {}, {}, "",
        "Rise of the roll axis towards the front; it steers the axle as the body rolls.");
    row("roll_steer", "Roll steer", ratio(n.roll_steer), ratio(-limits_.roll_steer.si),
        ratio(limits_.roll_steer.si), "roll_steer." + id,
        "Steer of the axle per roll; + points left as its left wheel rises.");
    row("anti_drive", front ? "Anti-lift, driving" : "Anti-squat", ratio(n.anti_drive),
        only_if(!front, ratio(limits_.anti_squat_min.si)),
        only_if(!front, ratio(limits_.anti_squat_max.si)),
        (front ? "anti_lift." : "anti_squat.") + id,
        "Share of the load that driving shifts which the links carry instead of the springs.");
    row("anti_brake", front ? "Anti-dive, braking" : "Anti-lift, braking", ratio(n.anti_brake), {},
        only_if(front, ratio(limits_.anti_dive_max.si)), (front ? "anti_dive." : "anti_lift.") + id,
        "Share of the load that braking shifts which the links carry instead of the springs.");
    if (n.instant_centre_ahead_m) {
      const double ahead_m = *n.instant_centre_ahead_m;
      Number place = length(ahead_m);
      place.text = print_.length(std::abs(ahead_m)) + (ahead_m < 0 ? " behind" : " ahead");
      row("instant_centre", "Side-view centre from the axle", std::move(place), {}, {}, "",
          "Where the links' side-view lines meet; left out when they run parallel.");
      row("instant_centre_height", "Side-view centre height",
          length(n.instant_centre_height_m.value_or(kNaN)), {}, {}, "",
          "Height above the ground at which the links' side-view lines meet.");
    }
    row("nose_rate", front ? "Caster per bump" : "Pinion per bump",
        print_.angle_per_length(-n.pitch_per_heave_rad_per_m), {}, {}, "",
        "Turning of the housing per bump, at ride; + nose up.");
    range_row(
        "nose_change", front ? "Caster change over the travel" : "Pinion change over the travel",
        axle_.bump, [](const SweptPose& p) { return p.numbers.nose_up_rad; }, Dimension::kAngle,
        front ? limits_.caster_change.si : limits_.pinion_change.si,
        (front ? "caster." : "pinion.") + id,
        "Furthest the housing turns over the wanted travel; + nose up.");
    row("wheel_rate", "Wheel rate", print_.number(n.wheel_rate_N_per_m, Dimension::kStiffness), {},
        {}, "", "Force per travel at one wheel with both moving.");
    row("roll_rate", "Roll stiffness",
        print_.number(n.roll_rate_Nm_per_rad, Dimension::kAngularStiffness), {}, {}, "",
        "Moment per roll that this axle's springs, bushes and bars make.");
    // A coil loose as drawn has no rate there.
    if (!is_loose_as_drawn(axle_)) add_ride_rows();
    row("sprung_mass", "Sprung mass per wheel",
        print_.number(axle_.sprung_per_wheel_kg, Dimension::kMass), {}, {}, "",
        "What one wheel's spring carries in the ride state.");
    range_row(
        "lateral_shift", "Sideways shift over the travel", axle_.bump,
        [](const SweptPose& p) { return p.numbers.lateral_shift_m; }, Dimension::kLength,
        limits_.lateral_shift.si, "lateral_shift." + id,
        "Furthest the axle goes sideways over the wanted travel.");
    if (!axle_.model.coils.empty()) {
      row("coil_ratio", "Coil motion ratio", ratio(axle_.drawn->coil_motion_ratios.front()), {}, {},
          "", "Coil travel per wheel travel.");
    }
    if (!axle_.model.shocks.empty()) {
      row("shock_ratio", "Shock motion ratio", ratio(axle_.drawn->shock_motion_ratios.front()), {},
          {}, "", "Shock travel per wheel travel.");
    }
  }

  void add_ride_rows() {
    const std::string id = axle_.id;
    row("ride_frequency", "Ride frequency", print_.frequency(axle_.ride_frequency_Hz),
        print_.frequency(kFrequency_Hz.low), print_.frequency(kFrequency_Hz.high),
        "frequency." + id, "How fast this end bounces on its springs and tyres.");
    row("damping", "Damping", ratio(axle_.damping_ratio), ratio(kDamping.low), ratio(kDamping.high),
        "damping." + id, "Of critical damping, mean of bump and rebound.");
  }

  void add_curves() {
    const bool front = axle_.front;
    const auto& limits = limits_;
    const auto nose = [](const SweptPose& p) { return p.numbers.nose_up_rad; };
    const double nose_limit = front ? limits.caster_change.si : limits.pinion_change.si;
    over_bump("nose_up", front ? "Caster change" : "Pinion change", nose, Dimension::kAngle,
              -nose_limit, nose_limit);
    over_bump(
        "lateral_shift", "Sideways shift",
        [](const SweptPose& p) { return p.numbers.lateral_shift_m; }, Dimension::kLength,
        -limits.lateral_shift.si, limits.lateral_shift.si);
    over_bump(
        "forward_shift", "Forward shift",
        [](const SweptPose& p) { return p.numbers.forward_shift_m; }, Dimension::kLength);
    over_bump(
        "heading", "Bump steer of the axle",
        [](const SweptPose& p) { return p.numbers.heading_rad; }, Dimension::kAngle);
    over_bump(
        "roll_centre", "Roll centre height",
        [](const SweptPose& p) { return p.numbers.roll_centre_height_m; }, Dimension::kLength);
    over_bump(
        "anti_drive", front ? "Anti-lift, driving" : "Anti-squat",
        [](const SweptPose& p) { return p.numbers.anti_drive; }, Dimension::kRatio,
        front ? kNaN : limits.anti_squat_min.si, front ? kNaN : limits.anti_squat_max.si);
    over_bump(
        "anti_brake", front ? "Anti-dive, braking" : "Anti-lift, braking",
        [](const SweptPose& p) { return p.numbers.anti_brake; }, Dimension::kRatio, kNaN,
        front ? limits.anti_dive_max.si : kNaN);
    over_bump(
        "spring_load", "Spring load per wheel",
        [](const SweptPose& p) { return p.numbers.wheel_load_N; }, Dimension::kForce);
    over_bump(
        "wheel_rate", "Wheel rate", [](const SweptPose& p) { return p.numbers.wheel_rate_N_per_m; },
        Dimension::kStiffness);
    over_roll(
        "roll_heading", "Roll steer of the axle",
        [](const SweptPose& p) { return p.numbers.heading_rad; }, Dimension::kAngle);
    over_roll(
        "roll_lateral", "Sideways shift in roll",
        [](const SweptPose& p) { return p.numbers.lateral_shift_m; }, Dimension::kLength);
    over_roll(
        "bind", "Bind in the links", [](const SweptPose& p) { return p.numbers.bind_N; },
        Dimension::kForce);
  }

 private:
  Number length(double si) const { return print_.number(si, Dimension::kLength); }
  Number ratio(double si) const { return print_.number(si, Dimension::kRatio); }
  static std::optional<Number> only_if(bool wanted, Number number) {
    return wanted ? std::optional(std::move(number)) : std::nullopt;
  }

  void row(std::string id, std::string label, Number value, std::optional<Number> low,
           std::optional<Number> high, std::string finding, std::string explain) {
    if (std::isnan(value.si)) return;
    axle_.rows.push_back({std::move(id), std::move(label), std::move(value), std::move(low),
                          std::move(high), std::move(finding), std::move(explain)});
  }

  /// The value furthest from zero over a sweep.
  template <typename Get>
  void range_row(std::string id, std::string label, const Sweep& sweep, Get get,
                 Dimension dimension, double limit, std::string finding, std::string explain) {
    double furthest = sweep.poses.empty() ? kNaN : 0;
    for (const auto& pose : sweep.poses) {
      if (std::abs(get(pose)) > std::abs(furthest)) furthest = get(pose);
    }
    row(std::move(id), std::move(label), print_.number(furthest, dimension),
        print_.number(-limit, dimension), print_.number(limit, dimension), std::move(finding),
        std::move(explain));
  }

  template <typename Get>
  void over_bump(const char* id, const char* label, Get get, Dimension dimension, double low = kNaN,
                 double high = kNaN) {
    curve(
        id, label, "bump", axle_.bump, [](const SweptPose& p) { return p.numbers.heave_m; }, get,
        Dimension::kLength, dimension, low, high);
  }
  template <typename Get>
  void over_roll(const char* id, const char* label, Get get, Dimension dimension) {
    curve(
        id, label, "roll", axle_.roll, [](const SweptPose& p) { return p.numbers.roll_rad; }, get,
        Dimension::kAngle, dimension, kNaN, kNaN);
  }

  template <typename GetX, typename GetY>
  void curve(const char* id, const char* label, const char* x_label, const Sweep& sweep, GetX x,
             GetY y, Dimension x_dimension, Dimension y_dimension, double low, double high) {
    Curve made{.id = id,
               .label = label,
               .x_label = x_label,
               .x = {},
               .y = {},
               .x_dimension = x_dimension,
               .y_dimension = y_dimension,
               .low = low,
               .high = high};
    bool any = false;
    for (const auto& pose : sweep.poses) {
      made.x.push_back(x(pose));
      made.y.push_back(y(pose));
      any = any || std::isfinite(made.y.back());
    }
    if (any) axle_.curves.push_back(std::move(made));
  }

  const Printer& print_;
  const Limits limits_;
  AxleReport& axle_;
};

}  // namespace

void add_rows_and_curves(const build::Build& build, const Printer& print, AxleReport& axle) {
  Builder builder(build, print, axle);
  if (axle.drawn) builder.add_rows();
  builder.add_curves();
}

}  // namespace rig::check
