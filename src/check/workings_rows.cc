#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

#include "check/workings.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;

/// What is usual, by the row's id; a trade habit where no source is named. {0} and {1} are the two
/// values, SI, in the build's units.
struct Usual {
  std::string_view id, text;
  Dimension dimension = Dimension::kLength;
  double low = 0, high = 0;
};
constexpr std::array kUsual{
    Usual{"roll_centre",
          "Between the axle's own height and the frame rails on most trucks. Higher leans less and "
          "jerks sideways more."},
    Usual{"roll_axis", "Within a few degrees of level; at the rear, falling towards the front."},
    Usual{"roll_steer", "A little understeer is the safe side."},
    Usual{"anti_drive", "Much more hops; much less squats."},
    Usual{"anti_brake", "Near 100 % the axle hops in hard braking."},
    Usual{
        "instant_centre",
        "{0} to {1} from the axle, towards the middle of the truck. Nearer turns the housing more "
        "over the travel.",
        Dimension::kLength, 0.9144, 3.048},
    Usual{"instant_centre_height", "Near the height of the rails or a little above."},
    Usual{"nose_rate", "Little: half of what the shaft joints allow, over the whole travel."},
    Usual{"nose_change", "A shaft with single joints forgives least."},
    Usual{"wheel_rate", "{0} to {1} on light trucks.", Dimension::kStiffness, 17513, 52538},
    Usual{"roll_rate", "The stiffer end takes more of the weight that a corner shifts."},
    Usual{"ride_frequency", "The rear a little quicker than the front."},
    Usual{"damping", "More is harsh, less floats."},
    Usual{"sprung_mass", "What the axle weighs on the scale, less axle, wheels and tyres, halved."},
    Usual{"lateral_shift", "A longer, flatter track bar shifts less."},
    Usual{"coil_ratio", "80 to 100 % when the coil stands on the axle."},
    Usual{"shock_ratio", "70 to 100 %; a shock that leans gives less."},
};

/// The limits that the row is judged by, as the start of what is usual.
std::string limits_words(const Row& row) {
  if (row.low && row.high) return fmt::format("{} to {}. ", row.low->text, row.high->text);
  if (row.high) return fmt::format("Up to {}. ", row.high->text);
  return row.low ? fmt::format("At least {}. ", row.low->text) : "";
}

class RowWorking {
 public:
  RowWorking(const Printer& print, const AxleReport& axle) : print_(print), axle_(axle) {}

  /// Empty when the row's finding has the working.
  std::vector<WorkingStep> steps(std::string_view row) const {
    const auto& n = axle_.drawn->numbers;
    if (row == "roll_centre") return roll_centre();
    if (row == "roll_axis") {
      return {{"slope = turn about the upright / turn about the length, as the axle rolls",
               fmt::format("{:.4g} = tan({})", n.roll_axis_slope,
                           print_.angle(std::atan(n.roll_axis_slope))),
               "exact slope of the solved linkage (implicit function theorem)", links()}};
    }
    if (row == "anti_drive" || row == "anti_brake") return anti(row == "anti_drive");
    if (row == "instant_centre" && n.instant_centre_ahead_m) {
      return {
          {"distance = 1 / turn of the housing per bump",
           fmt::format("1 / ({}) = {}", print_.angle_per_length(n.pitch_per_heave_rad_per_m).text,
                       print_.length(*n.instant_centre_ahead_m)),
           "kinematics of a rigid body: it turns about its instant centre", links()}};
    }
    if (row == "instant_centre_height" && n.instant_centre_height_m) {
      return {{"height = loaded radius - forward travel of the axle per bump / turn per bump",
               fmt::format("{} above the ground", print_.length(*n.instant_centre_height_m)),
               "kinematics of a rigid body: it turns about its instant centre", links()}};
    }
    if (row == "nose_rate") return nose_rate();
    if (row == "wheel_rate") return wheel_rate();
    if (row == "roll_rate") return roll_rate();
    if (row == "sprung_mass") return sprung_mass();
    if (row == "coil_ratio") return ratio("coil", axle_.path + "/coils");
    if (row == "shock_ratio") return ratio("shock", axle_.path + "/dampers");
    return {};
  }

 private:
  std::vector<std::string> links() const { return {axle_.path + "/links", axle_.path + "/arms"}; }
  std::vector<std::string> springs() const {
    return {axle_.path + "/coils", axle_.path + "/leaf_packs", axle_.path + "/anti_roll_bars"};
  }

  std::vector<WorkingStep> roll_centre() const {
    const auto& n = axle_.drawn->numbers;
    const double radius_m = axle_.model.loaded_radius_m;
    const double rise_m = n.roll_centre_height_m - radius_m;
    auto inputs = links();
    inputs.push_back(axle_.path + "/height");
    return {{"height = loaded radius + sideways travel of the axle per roll",
             fmt::format("{} + {} = {}", print_.length(radius_m), print_.length(rise_m),
                         print_.length(n.roll_centre_height_m)),
             "where nothing moves sideways as the axle rolls; on a track bar its crossing of the "
             "centreline, carried along the roll axis (SAE J670 roll centre)",
             std::move(inputs)}};
  }

  std::vector<WorkingStep> anti(bool driving) const {
    const auto& n = axle_.drawn->numbers;
    const double share = driving ? axle_.truck.drive_share : axle_.truck.brake_share;
    const char* sign = axle_.front ? "" : "-";
    return {
        {fmt::format("share carried = {}slope x wheelbase / height x share of {}", sign,
                     driving ? "driving" : "braking"),
         fmt::format("{}({:.4g}) x {} / {} x {} = {}", sign, n.contact_slope,
                     print_.length(axle_.truck.wheelbase_m), print_.length(axle_.truck.cg_height_m),
                     print_.percent(share), print_.percent(driving ? n.anti_drive : n.anti_brake)),
         "slope: forward travel of the tyre's contact per bump; Gillespie ch. 7, from memory",
         links()}};
  }

  std::vector<WorkingStep> wheel_rate() const {
    const auto& n = axle_.drawn->numbers;
    std::vector<WorkingStep> steps;
    if (!axle_.model.coils.empty()) {
      const double rate = axle_.model.coils.front().rate_N_per_m;
      const double ratio = axle_.drawn->coil_motion_ratios.front();
      steps.push_back({"near enough = coil rate x motion ratio^2",
                       fmt::format("{} x {}^2 = {}", print_.text(rate, Dimension::kStiffness),
                                   print_.percent(ratio),
                                   print_.text(rate * ratio * ratio, Dimension::kStiffness)),
                       "principle of virtual work",
                       {axle_.path + "/coils"}});
    }
    steps.push_back(
        {"exactly: d(force on one wheel) / d(bump), with the change of motion ratio and the load",
         print_.text(n.wheel_rate_N_per_m, Dimension::kStiffness),
         "second derivative of the springs' energy on the solved linkage", springs()});
    return steps;
  }

  std::vector<WorkingStep> sprung_mass() const {
    return {{"half of what the axle stands on as it settles, less half of what is unsprung",
             print_.mass(axle_.sprung_per_wheel_kg),
             "equilibrium of the whole truck on its springs",
             {"/masses", axle_.path + "/height"}}};
  }

  std::vector<WorkingStep> nose_rate() const {
    const auto& n = axle_.drawn->numbers;
    std::vector<WorkingStep> steps;
    if (n.instant_centre_ahead_m) {
      steps.push_back({"rate = 1 / distance from the axle forward to the instant centre",
                       fmt::format("1 / {} = {}", print_.length(*n.instant_centre_ahead_m),
                                   print_.angle_per_length(-n.pitch_per_heave_rad_per_m).text),
                       "kinematics of a rigid body: it turns about its instant centre", links()});
    }
    steps.push_back({"exactly: - turn of the housing about the crosswise axis per bump, at ride",
                     print_.angle_per_length(-n.pitch_per_heave_rad_per_m).text,
                     "exact slope of the solved linkage (implicit function theorem)", links()});
    return steps;
  }

  std::vector<WorkingStep> roll_rate() const {
    const auto& n = axle_.drawn->numbers;
    const auto& coils = axle_.model.coils;
    const auto rate = [&](double K) { return print_.text(K, Dimension::kAngularStiffness); };
    std::vector<WorkingStep> steps;
    if (coils.size() == 2) {
      const double apart_m = std::abs(coils[0].p_AQ.y() - coils[1].p_AQ.y());
      const double ratio = axle_.drawn->coil_motion_ratios.front();
      const double k = coils.front().rate_N_per_m * ratio * ratio;
      steps.push_back({"coils, near enough = rate x motion ratio^2 x distance apart^2 / 2",
                       fmt::format("{} x {}^2 x {}^2 / 2 = {}",
                                   print_.text(coils.front().rate_N_per_m, Dimension::kStiffness),
                                   print_.percent(ratio), print_.length(apart_m),
                                   rate(k * apart_m * apart_m / 2)),
                       "two springs side by side",
                       {axle_.path + "/coils"}});
    }
    for (const auto& bar : axle_.model.roll_bars) {
      steps.push_back(
          {"anti-roll bar = rate x distance between its links^2",
           fmt::format("{} x {}^2 = {}", print_.text(bar.rate_N_per_m, Dimension::kStiffness),
                       print_.length(bar.span_m), rate(bar.rate_N_per_m * bar.span_m * bar.span_m)),
           "statics",
           {bar.path}});
    }
    steps.push_back(
        {"exactly: d(moment) / d(roll) of coils, leaves, bars and bushes, with the load",
         rate(n.roll_rate_Nm_per_rad),
         "second derivative of the springs' energy on the solved linkage", springs()});
    return steps;
  }

  /// Near enough by how it leans, then exactly.
  std::vector<WorkingStep> ratio(std::string_view what, const std::string& path) const {
    const bool coil = what == "coil";
    const auto& model = axle_.model;
    const double value =
        coil ? axle_.drawn->coil_motion_ratios.front() : axle_.drawn->shock_motion_ratios.front();
    const Vec3 upper = coil ? model.coils.front().p_VP : model.shocks.front().p_VP;
    const Vec3 lower = model.p_VC + (coil ? model.coils.front().p_AQ : model.shocks.front().p_AQ);
    const Vec3 along = upper - lower;
    const double lean_rad = std::atan2(along.head<2>().norm(), along.z());
    const double unit_m = print_.length_step_m() > 0.001 ? units::kInch_m : 0.01;
    return {
        {"near enough = cos(lean), when it stands on the axle above the wheel's own movement",
         fmt::format("cos({}) = {}", print_.angle(lean_rad), print_.percent(std::cos(lean_rad))),
         "geometry",
         {path}},
        {fmt::format("exactly: shortening of the {} / bump of the wheels", what),
         fmt::format("{} / {} = {}", print_.length(value * unit_m), print_.length(unit_m),
                     print_.percent(value)),
         "exact slope of the solved linkage (implicit function theorem)",
         {path}}};
  }

  const Printer& print_;
  const AxleReport& axle_;
};

}  // namespace

void explain_rows(const Printer& print, AxleReport& axle) {
  if (!axle.drawn) return;
  const RowWorking working(print, axle);
  for (Row& row : axle.rows) {
    row.working = working.steps(row.id);
    for (const Usual& usual : kUsual) {
      if (usual.id != row.id) continue;
      row.usual = limits_words(row) + fmt::format(fmt::runtime(usual.text),
                                                  print.text(usual.low, usual.dimension),
                                                  print.text(usual.high, usual.dimension));
    }
  }
}

}  // namespace rig::check
