#include "check/summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/drivetrain_report.h"
#include "check/left_out.h"
#include "check/truck.h"
#include "check/words.h"

namespace rig::check {
namespace {

/// What is worst in one work: "Stops the work: shock in droop, front axle, and 1 more."
std::string worst_words(const Report& report, std::string_view work) {
  const Finding* worst = nullptr;
  int alike = 0;
  for (const auto& finding : report.findings) {
    if (finding.work != work || finding.verdict == Verdict::kGood) continue;
    if (worst == nullptr || finding.verdict > worst->verdict) {
      worst = &finding;
      alike = 0;
    }
    if (finding.verdict == worst->verdict) ++alike;
  }
  if (worst == nullptr) return "";
  const char* what = worst->verdict == Verdict::kStop ? "Stops the work" : "To look at";
  const std::string subject = uncapitalised(worst->subject);
  if (alike == 1) return fmt::format("{}: {}.", what, subject);
  return fmt::format("{}: {}, and {} more.", what, subject, alike - 1);
}

/// "Tack the upper seats of the front axle 11 9/16 in (left) and 11 11/16 in (right) from the lower
/// ones."
std::string seats_words(const AxleReport& axle, const Printer& print) {
  std::vector<std::string> lengths;
  for (const auto& seat : axle.seats) {
    lengths.push_back(
        fmt::format("{} ({})", print.length(seat.seat.tack_length_m), side_words(seat.coil.side)));
  }
  return fmt::format("{} {}", axle.front ? "front" : "rear", join_words(lengths));
}

std::string all_seats_words(const Report& report, const Printer& print) {
  std::vector<std::string> axles;
  for (const auto& axle : report.axles) {
    if (!axle.seats.empty()) axles.push_back(seats_words(axle, print));
  }
  if (axles.empty()) return "";
  std::string words = axles.front();
  for (std::size_t i = 1; i < axles.size(); ++i) words += "; " + axles[i];
  return fmt::format("Tack the upper seats from the lower ones: {}.", words);
}

std::string ride_words(const Report& report, const Printer& print) {
  const StateReport* ride = report.ride();
  if (ride == nullptr || !ride->settled) return "";
  double most_m = 0;
  for (std::size_t a = 0; a < ride->truck->axles.size(); ++a) {
    for (const int side : {1, -1}) {
      most_m =
          std::max(most_m, std::abs(calc_height_error_m(*ride->truck, *ride->settled, a, side)));
    }
  }
  return fmt::format("With the seats as drawn every corner sits within {} of its drawn height.",
                     print.length_up(most_m));
}

/// The state that weighs most besides the one it rides in.
std::string heaviest_words(const Report& report, const StateReport* ride, const Printer& print) {
  const StateReport* heaviest = nullptr;
  for (const auto& state : report.states) {
    const auto* standing = state.standing();
    if (&state == ride || standing == nullptr) continue;
    if (heaviest == nullptr || standing->truck.mass_kg > heaviest->standing()->truck.mass_kg) {
      heaviest = &state;
    }
  }
  if (heaviest == nullptr) return "";
  return fmt::format("Heaviest{}, \"{}\": {}{}.", ride != nullptr ? " besides" : "",
                     heaviest->label, is_lower_bound(*heaviest) ? "at least " : "",
                     print.mass(heaviest->standing()->truck.mass_kg));
}

void add(std::vector<std::string>& sentences, std::string sentence) {
  if (!sentence.empty()) sentences.push_back(std::move(sentence));
}

std::string sentence_of(const Report& report, std::string_view finding_id) {
  const Finding* finding = report.finding(finding_id);
  return finding == nullptr ? "" : finding->sentence;
}

/// "Stressed most at the left frame rail, ...: 21 ksi, both axles in a bump."
std::string most_stressed_words(const Report& report, const Printer& print) {
  if (report.frame->worst.empty()) return "";
  const StressPlace& worst = report.frame->worst.front();
  const auto& cases = report.frame->cases;
  const auto of = std::find_if(cases.begin(), cases.end(),
                               [&](const auto& one) { return one.id == worst.case_id; });
  return fmt::format("Stressed most at the {}: {}, {}.", worst.where,
                     print.text(worst.von_mises_Pa, units::Dimension::kStress),
                     uncapitalised(of->label));
}

/// "Crawl ratio 62.6:1; the cases weigh 1053 lb and rock from side to side at 7.2 Hz."
std::string cases_words(const DrivetrainReport& drivetrain, const Printer& print) {
  std::vector<std::string> parts;
  if (!drivetrain.gears.empty()) {
    parts.push_back("crawl ratio " + print.text(drivetrain.gears.front().path.to_wheel(),
                                                units::Dimension::kGearRatio));
  }
  for (const CasesReport& line : drivetrain.lines) {
    if (line.loads.empty()) continue;
    parts.push_back(fmt::format("the {} and what is bolted to it weigh {}",
                                uncapitalised(line.from.line.cases.front().label),
                                print.mass(line.from.line.mass_kg())));
  }
  return parts.empty() ? "" : capitalised(join_words(parts)) + ".";
}

}  // namespace

std::string state_words(const StateReport& state, const Printer& print) {
  const auto* standing = state.standing();
  if (standing == nullptr) return "";
  const Vec3& cg = standing->truck.p_VoBcm_V;
  const std::string mass = print.mass(standing->truck.mass_kg);
  const std::string up = std::isnan(cg.z()) ? ", its height not known yet"
                                            : fmt::format(" and {} up", print.length(cg.z()));
  if (!state.weigh.left_out.empty()) {
    const bool at_least = is_lower_bound(state);
    return fmt::format("{}: {}{}, {} {}; balance point {}{} behind the front axle{}.", state.label,
                       at_least ? "at least " : "", mass,
                       at_least ? "without" : "by the scales, but its height leaves out",
                       left_out_words(state), at_least ? "of the rest " : "", print.length(-cg.x()),
                       up);
  }
  const double half_kg = state.mass_plus_minus_kg();
  return fmt::format("{}: {}{}, balance point {} behind the front axle{}.", state.label, mass,
                     half_kg > 0
                         ? fmt::format(" ± {}", print.plus_minus(half_kg, standing->truck.mass_kg,
                                                                 units::Dimension::kMass))
                         : "",
                     print.length(-cg.x()), up);
}

void add_summaries(const Printer& print, Report& report) {
  add(report.weigh_summary, worst_words(report, "weigh"));
  const StateReport* ride = report.ride();
  if (ride != nullptr) add(report.weigh_summary, state_words(*ride, print));
  add(report.weigh_summary, heaviest_words(report, ride, print));
  add(report.axles_summary, worst_words(report, "axles"));
  add(report.axles_summary, all_seats_words(report, print));
  add(report.axles_summary, ride_words(report, print));
  if (report.frame) {
    add(report.frame_summary, worst_words(report, "frame"));
    add(report.frame_summary, sentence_of(report, "frame.twist"));
    add(report.frame_summary, most_stressed_words(report, print));
  }
  if (report.drivetrain) {
    add(report.drivetrain_summary, worst_words(report, "drivetrain"));
    add(report.drivetrain_summary, cases_words(*report.drivetrain, print));
  }
}

}  // namespace rig::check
