#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/side_by_side.h"
#include "check/findings.h"
#include "check/geometry.h"
#include "check/words.h"

namespace rig::check {
namespace {

using suspension::PoseNumbers;
using suspension::SweptPose;
using units::Dimension;

constexpr const char* kMeasure = "Measure the link points again before tacking.";
/// A turn that prints as none, rad.
constexpr double kNoTurn_rad = 1e-5;

/// One number of the linkage and how it is told.
struct Told {
  GeometryNumber number;
  std::string id;
  std::string subject;
  Dimension dimension;
  double value = 0;
  double limit = 0;
  std::string basis;
  Edge edge = Edge::kMost;
  std::string sentence;
  WorkingStep step;
};

class AxleFindings {
 public:
  AxleFindings(const Subject& subject, const AxleReport& axle)
      : subject_(subject),
        print_(subject.print),
        axle_(axle),
        entry_(*build::find(subject.build.axles, axle.id)),
        bands_(geometry_bands(subject.limits, axle.front)),
        evaluate_(make_geometry(axle)),
        doubt_(calc_place_doubt(entry_, evaluate_)) {
    const StateReport* ride = subject.report.ride();
    if (ride != nullptr && axle.truck.cg_height_m > 0) {
      height_share_ = ride->weigh.height_plus_minus_m() / axle.truck.cg_height_m;
    }
  }

  void add() {
    if (!axle_.bump.poses.empty() && axle_.bump.locks.empty()) {
      add_nose_change();
      add_lateral_shift();
    }
    add_roll_steer();
    add_anti();
  }

 private:
  const char* nose() const { return axle_.front ? "caster" : "pinion"; }

  void add_nose_change() {
    const auto& limit = axle_.front ? subject_.limits.caster_change : subject_.limits.pinion_change;
    const auto [least, most] = extremes(&PoseNumbers::nose_up_rad);
    const bool down = std::abs(least.numbers.nose_up_rad) > std::abs(most.numbers.nose_up_rad);
    const auto& worst = (down ? least : most).numbers;
    const bool up = worst.nose_up_rad > 0;
    const std::string place = fmt::format("{} of {}", print_.length(std::abs(worst.heave_m)),
                                          worst.heave_m > 0 ? "bump" : "droop");
    tell({.number = kNoseChange,
          .id = fmt::format("{}.{}", nose(), axle_.id),
          .subject =
              fmt::format("{} change, {}", axle_.front ? "Caster" : "Pinion", axle_words(axle_)),
          .dimension = Dimension::kAngle,
          .value = std::abs(worst.nose_up_rad),
          .limit = limit.si,
          .basis = limit.basis,
          .sentence = std::abs(worst.nose_up_rad) < kNoTurn_rad
                          ? std::string("Keeps its angle over the wanted travel.")
                      : axle_.front ? fmt::format("{} {} of caster by {}.", up ? "Gains" : "Loses",
                                                  print_.angle(std::abs(worst.nose_up_rad)), place)
                                    : fmt::format("Turns {} {} by {}.", up ? "up" : "down",
                                                  print_.angle(std::abs(worst.nose_up_rad)), place),
          .step = {.formula = "change = - turn of the housing about the crosswise axis",
                   .with_values = fmt::format(
                       "{} at {}; {} at {}", print_.angle(least.numbers.nose_up_rad),
                       print_.length(least.numbers.heave_m), print_.angle(most.numbers.nose_up_rad),
                       print_.length(most.numbers.heave_m)),
                   .source = "solved poses over the wanted travel, no roll",
                   .input_paths = travel_paths()}});
  }

  void add_lateral_shift() {
    const auto& limit = subject_.limits.lateral_shift;
    const auto [least, most] = extremes(&PoseNumbers::lateral_shift_m);
    const bool right =
        std::abs(least.numbers.lateral_shift_m) > std::abs(most.numbers.lateral_shift_m);
    const auto& worst = (right ? least : most).numbers;
    const double shift_m = std::abs(worst.lateral_shift_m);
    tell({.number = kLateralShift,
          .id = "lateral_shift." + axle_.id,
          .subject = fmt::format("Sideways shift, {}", axle_words(axle_)),
          .dimension = Dimension::kLength,
          .value = shift_m,
          .limit = limit.si,
          .basis = limit.basis,
          .sentence =
              shift_m < kNoise
                  ? std::string("Stays in line over the wanted travel.")
                  : fmt::format("Moves {} to the {} by {} of {}.", print_.length(shift_m),
                                right ? "right" : "left", print_.length(std::abs(worst.heave_m)),
                                worst.heave_m > 0 ? "bump" : "droop"),
          .step = {.formula = "shift = y of the axle's middle",
                   .with_values = fmt::format("{} at {}; {} at {}",
                                              print_.length(least.numbers.lateral_shift_m),
                                              print_.length(least.numbers.heave_m),
                                              print_.length(most.numbers.lateral_shift_m),
                                              print_.length(most.numbers.heave_m)),
                   .source = "solved poses over the wanted travel, no roll",
                   .input_paths = travel_paths()}});
  }

  void add_roll_steer() {
    const auto& limit = subject_.limits.roll_steer;
    const auto& n = axle_.drawn->numbers;
    tell({.number = kRollSteer,
          .id = "roll_steer." + axle_.id,
          .subject = fmt::format("Roll steer, {}", axle_words(axle_)),
          .dimension = Dimension::kRatio,
          .value = std::abs(n.roll_steer),
          .limit = limit.si,
          .basis = limit.basis,
          .sentence =
              std::abs(n.roll_steer) < 1e-6
                  ? std::string("The axle does not steer as the body rolls.")
                  : fmt::format("Steers {} of the roll angle, {}.",
                                print_.percent(std::abs(n.roll_steer)), steer_words(n.roll_steer)),
          .step = {.formula = "roll steer = d(heading of the wheel line) / d(its tilt)",
                   .with_values = print_.percent(n.roll_steer),
                   .source = "derivative along the solved poses, as drawn (docs/definitions.md)",
                   .input_paths = {axle_.path}}});
  }

  void add_anti() {
    const auto& n = axle_.drawn->numbers;
    const auto& limits = subject_.limits;
    const double value = axle_.front ? n.anti_brake : n.anti_drive;
    if (std::isnan(value)) return;
    const Limit& low = limits.anti_squat_min;
    const Limit& high = axle_.front ? limits.anti_dive_max : limits.anti_squat_max;
    const bool nearer_low = !axle_.front && value - low.si < high.si - value;
    const Limit& limit = nearer_low ? low : high;
    const double share = axle_.front ? axle_.truck.brake_share : axle_.truck.drive_share;
    tell({.number = axle_.front ? kAntiBrake : kAntiDrive,
          .id = (axle_.front ? "anti_dive." : "anti_squat.") + axle_.id,
          .subject = axle_.front ? "Anti-dive, front axle" : "Anti-squat, rear axle",
          .dimension = Dimension::kRatio,
          .value = value,
          .limit = limit.si,
          .basis = limit.basis,
          .edge = nearer_low ? Edge::kLeast : Edge::kMost,
          .sentence = axle_.front
                          ? fmt::format("The links carry {} of what braking shifts to the front.",
                                        print_.percent(value))
                          : fmt::format("The links carry {} of what driving shifts to the rear.",
                                        print_.percent(value)),
          .step = {.formula = axle_.front ? "anti-dive = slope x (L / h) x brake share"
                                          : "anti-squat = (-slope) x (L / h) x drive share",
                   .with_values = fmt::format("{:.4f} x ({} / {}) x {} = {}",
                                              axle_.front ? n.contact_slope : -n.contact_slope,
                                              print_.length(axle_.truck.wheelbase_m),
                                              print_.length(axle_.truck.cg_height_m),
                                              print_.percent(share), print_.percent(value)),
                   .source = "slope of the contact point's path along the solved poses "
                             "(docs/definitions.md); Gillespie ch. 7",
                   .input_paths = {axle_.path, "/masses",
                                   axle_.path + (axle_.front ? "/brake_share" : "/drive_share")}}});
  }

  std::pair<const SweptPose&, const SweptPose&> extremes(double PoseNumbers::*member) const {
    const auto& poses = axle_.bump.poses;
    const auto [least, most] = std::minmax_element(poses.begin(), poses.end(),
                                                   [=](const SweptPose& a, const SweptPose& b) {
                                                     return a.numbers.*member < b.numbers.*member;
                                                   });
    return {*least, *most};
  }

  std::vector<std::string> travel_paths() const {
    return {axle_.path + "/links", axle_.path + "/bump_travel", axle_.path + "/droop_travel"};
  }

  void tell(Told told) {
    const Band& band = bands_[told.number];
    const double by_points = doubt_.half_widths.empty() ? 0 : doubt_.half_widths[told.number];
    // Anti-features go as one over the height.
    const bool by_height_too = told.number == kAntiDrive || told.number == kAntiBrake;
    const double by_height = by_height_too ? std::abs(told.value) * height_share_ : 0;
    const double half = std::hypot(by_points, by_height);
    const Judgement judgement = judge(told.value, band, half);
    Finding finding;
    finding.id = std::move(told.id);
    finding.work = "axles";
    finding.verdict = judgement.verdict;
    finding.subject = std::move(told.subject);
    finding.sentence = capitalised(std::move(told.sentence));
    finding.value = print_.number(told.value, told.dimension);
    finding.limit = print_.number(told.limit, told.dimension);
    finding.edge = told.edge;
    finding.basis = std::move(told.basis);
    finding.path = axle_.path;
    if (judgement.in_doubt) {
      assume(finding,
             by_height > by_points
                 ? fmt::format("The balance point's height, known to {}, leaves it at {} to {}; "
                               "lift an axle on the scales, higher than before.",
                               print_.length(height_share_ * axle_.truck.cg_height_m),
                               print_.text(told.value - half, told.dimension),
                               print_.text(told.value + half, told.dimension))
                 : fmt::format("The link points are known well enough to say it to {}; measure "
                               "first: {}.",
                               print_.text(half, told.dimension),
                               coordinate_words(doubt_.paths.front())));
    }
    finding.working.push_back(std::move(told.step));
    advise(told, finding);
    subject_.findings.push_back(std::move(finding));
  }

  void advise(const Told& told, Finding& finding) {
    const GeometryNumber number = told.number;
    if (finding.verdict == Verdict::kGood) {
      finding.advice = "Nothing to do.";
      return;
    }
    if (told.value >= bands_[number].low && told.value <= bands_[number].high) {
      finding.advice = finding.assumption.empty() ? kInside : kMeasure;
      return;
    }
    if (!subject_.advise) return;
    // Towards good, not just to the edge.
    auto bands = bands_;
    Band& band = bands[number];
    band.high -= band.close;
    band.low += band.close;
    if (!sensitivities_) {
      sensitivities_ = calc_sensitivities(entry_, evaluate_, list_moves(entry_.value));
    }
    const auto found = find_advice(entry_, evaluate_, *sensitivities_, number, bands, print_);
    if (!found) {
      finding.advice = fmt::format("No single bracket moved up to {} helps: change the layout.",
                                   print_.length(kFurthestMove_m));
      return;
    }
    finding.path = coordinate_path(entry_, found->move);
    const std::string then = number_text(number, found->value);
    if (found->cures) {
      finding.advice = fmt::format("{}: that makes it {}", found->words, then);
    } else {
      finding.advice =
          fmt::format("{}: that only brings it to {}, so it needs more than one bracket moved",
                      found->words, then);
    }
    if (found->harmed) {
      finding.advice += fmt::format("; but {} is then {}", number_words(*found->harmed),
                                    number_text(*found->harmed, found->harmed_value));
    }
    finding.advice += ".";
    if (entry_.value.steered && is_track_bar(found->move)) {
      finding.advice += " Keep it parallel to the drag link.";
    }
    finding.working.push_back(
        {.formula = "move = (limit - value) / (d value / d move), solved again",
         .with_values = fmt::format("{} gives {}", found->words, then),
         .source = "sensitivity of the solved poses, tried out",
         .input_paths = {finding.path}});
  }

  /// "lower link, frame end, height" for a coordinate's place in the file.
  std::string coordinate_words(const std::string& path) const {
    for (const PartLabel& part : axle_.labels) {
      if (!path.starts_with(part.path + "/")) continue;
      std::string words = uncapitalised(part.label);
      std::size_t from = part.path.size() + 1;
      while (from < path.size()) {
        const std::size_t to = std::min(path.find('/', from), path.size());
        const std::string step = path.substr(from, to - from);
        if (step == "frame" || step == "axle") {
          words += fmt::format(", {} end", step);
        } else if (step != "at") {
          words += ", " + step;
        }
        from = to + 1;
      }
      return words;
    }
    return "the link points";
  }

  bool is_track_bar(const Move& move) const {
    if (move.point != PointKind::kLinkFrame && move.point != PointKind::kLinkAxle) return false;
    return entry_.value.links[move.index].value.role == build::LinkRole::kTrackBar;
  }

  std::string steer_words(double roll_steer) const {
    return (roll_steer > 0) != axle_.front ? "towards oversteer" : "towards understeer";
  }

  /// As the sentence tells it: roll steer by its size and sense.
  std::string number_text(std::size_t number, double value) const {
    if (number != kRollSteer) return print_.text(value, number_dimension(number));
    return fmt::format("{} {}", print_.percent(std::abs(value)), steer_words(value));
  }

  std::string number_words(std::size_t number) const {
    switch (number) {
      case kNoseChange:
        return std::string(nose()) + " change";
      case kLateralShift:
        return "sideways shift";
      case kRollSteer:
        return "roll steer";
      case kAntiDrive:
        return axle_.front ? "anti-lift" : "anti-squat";
      default:
        return axle_.front ? "anti-dive" : "anti-lift";
    }
  }

  static Dimension number_dimension(std::size_t number) {
    if (number == kNoseChange) return Dimension::kAngle;
    return number == kLateralShift ? Dimension::kLength : Dimension::kRatio;
  }

  const Subject& subject_;
  const Printer& print_;
  const AxleReport& axle_;
  const build::Entry<build::Axle>& entry_;
  std::vector<Band> bands_;
  Evaluate evaluate_;
  PlaceDoubt doubt_;
  double height_share_ = 0;  ///< Half-width of the balance point's height, of itself.
  std::optional<Sensitivities> sensitivities_;
};

}  // namespace

void add_geometry_findings(const Subject& subject) {
  const auto& axles = subject.report.axles;
  auto found = make_side_by_side(axles.size(), [&](std::size_t a) {
    std::vector<Finding> findings;
    const Subject one{.build = subject.build,
                      .print = subject.print,
                      .limits = subject.limits,
                      .report = subject.report,
                      .known_frame = subject.known_frame,
                      .findings = findings,
                      .advise = subject.advise};
    if (axles[a].drawn) AxleFindings(one, axles[a]).add();
    return findings;
  });
  for (auto& of_axle : found) {
    std::move(of_axle.begin(), of_axle.end(), std::back_inserter(subject.findings));
  }
}

}  // namespace rig::check
