#include "check/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "check/summary.h"
#include "check/truck.h"
#include "check/words.h"

namespace rig::check {
namespace {

constexpr std::size_t kColumns = 100;
constexpr const char* kCaution =
    "An aid to a competent builder: have the work designed, welded and inspected by people "
    "qualified for "
    "it, to the local code. Numbers are no better than the measurements.";

class Text {
 public:
  Text(const build::Build& build, const Report& report) : report_(report), print_(build.units) {}

  std::string write() {
    paragraph("", report_.name.empty() ? "Unnamed build" : report_.name);
    if (!report_.notice.empty()) paragraph("", report_.notice);
    paragraph("", kCaution);
    std::array<int, 3> counts{};
    for (const auto& finding : report_.findings)
      ++counts[static_cast<std::size_t>(finding.verdict)];
    line();
    paragraph("", fmt::format("{} good, {} to look at, {} that {} the work.", counts[0], counts[1],
                              counts[2], counts[2] == 1 ? "stops" : "stop"));
    write_states();
    write_axles();
    write_articulation();
    write_frame();
    write_findings();
    write_left_out();
    return std::move(out_);
  }

 private:
  void line(const std::string& text = {}) { out_ += text + "\n"; }

  void heading(const std::string& text) {
    line();
    line(text);
    line(std::string(text.size(), '-'));
  }

  /// Wrapped, continuation lines indented as far as `lead` is long.
  void paragraph(const std::string& lead, const std::string& text) {
    std::string current = lead;
    bool first = true;
    std::size_t at = 0;
    while (at < text.size()) {
      const std::size_t end = std::min(text.find(' ', at), text.size());
      const std::string word = text.substr(at, end - at);
      at = end + 1;
      if (!first && current.size() + 1 + word.size() > kColumns) {
        line(current);
        current = std::string(lead.size(), ' ');
        first = true;
      }
      if (!first) current += ' ';
      current += word;
      first = false;
    }
    line(current);
  }

  void write_frame() {
    if (!report_.frame || report_.frame->states.empty()) return;
    heading("Frame");
    for (const auto& state : report_.frame->states) {
      if (!state.whole) continue;
      paragraph(
          "  ",
          fmt::format(
              "{}: twist {}, bending {}, out of square {}", state.label,
              print_.text(state.whole->torsion.stiffness_Nm_per_rad,
                          units::Dimension::kAngularStiffness),
              print_.text(state.whole->bending.stiffness_N_per_m, units::Dimension::kStiffness),
              print_.text(state.whole->lozenging.stiffness_N_per_m, units::Dimension::kStiffness)));
    }
    for (const auto& place : report_.frame->worst) {
      const auto& cases = report_.frame->cases;
      const auto of = std::find_if(cases.begin(), cases.end(),
                                   [&](const auto& one) { return one.id == place.case_id; });
      paragraph("  ", fmt::format("{} at the {} ({})",
                                  print_.text(place.von_mises_Pa, units::Dimension::kStress),
                                  place.where, uncapitalised(of->label)));
    }
  }

  void write_states() {
    const bool known =
        std::any_of(report_.states.begin(), report_.states.end(),
                    [](const StateReport& state) { return state.standing() != nullptr; });
    if (!known) return;
    heading("Weight");
    for (const auto& state : report_.states) {
      if (state.standing() == nullptr) continue;
      paragraph("  ", state_words(state, print_));
      const Shares shares = find_shares(state);
      if (std::isnan(shares.front)) continue;
      std::string words = print_.percent(shares.front) + " on the front axle";
      if (!std::isnan(shares.left)) {
        words += fmt::format(", {} on the left wheels", print_.percent(shares.left));
      }
      if (!std::isnan(shares.cross)) {
        words += fmt::format(", {} on left front and right rear", print_.percent(shares.cross));
      }
      paragraph("    ", words + ".");
    }
    for (const auto& state : report_.states) {
      if (!state.settled) continue;
      std::string loads;
      for (std::size_t a = 0; a < state.truck->axles.size(); ++a) {
        const auto& wheel = state.settled->axles[a].wheel_loads_N;
        loads +=
            fmt::format("{}{} {} left, {} right", a > 0 ? "; " : "",
                        state.truck->axles[a].front ? "front" : "rear",
                        print_.scale_reading(wheel[0]).text, print_.scale_reading(wheel[1]).text);
      }
      paragraph("  ", fmt::format("{}, on the tyres: {}.", state.label, loads));
    }
  }

  void write_axles() {
    for (const auto& axle : report_.axles) {
      if (axle.rows.empty()) continue;
      heading(capitalised(axle_words(axle)) + ", as drawn");
      std::size_t longest = 0;
      for (const auto& row : axle.rows) longest = std::max(longest, row.label.size());
      for (const auto& row : axle.rows) {
        line(fmt::format("  {:<{}}  {}", row.label, longest, row.value.text));
      }
      for (const auto& seat : axle.seats) paragraph("  ", seat.sentence);
    }
  }

  void write_articulation() {
    const StateReport* ride = report_.ride();
    if (ride == nullptr || !ride->truck || (!report_.ramp && !report_.cross_axle)) return;
    heading("Articulation");
    if (report_.ramp) {
      paragraph("  ", fmt::format(
                          "Up a 20 deg ramp with the left front wheel: {} along it, {} high, index "
                          "{:.0f}; first to lift: {}.",
                          print_.length(report_.ramp->distance_up_ramp_m),
                          print_.length(report_.ramp->height_m), report_.ramp->ramp_travel_index,
                          lifted_wheel_words(*ride->truck, *report_.ramp)));
    }
    if (report_.cross_axle) {
      paragraph(
          "  ",
          fmt::format("Crossed up, left front and right rear raised: {} each; first to lift: {}.",
                      print_.length(report_.cross_axle->height_m),
                      lifted_wheel_words(*ride->truck, *report_.cross_axle)));
    }
  }

  void write_findings() {
    static constexpr std::array kNames{"good", "LOOK", "STOP"};
    if (report_.findings.empty()) return;
    heading("Findings");
    for (const auto& finding : report_.findings) {
      const char* name = kNames[static_cast<std::size_t>(finding.verdict)];
      paragraph(fmt::format("{}  ", name),
                finding.subject + ": " + uncapitalised(finding.sentence));
      if (finding.verdict == Verdict::kGood) continue;
      if (!finding.assumption.empty()) paragraph("      ", "Assumed: " + finding.assumption);
      paragraph("      -> ", finding.advice);
      if (finding.limit || !finding.basis.empty()) paragraph("      ", limit_words(finding));
    }
  }

  /// "Limit at least 40 %, set in the file."
  static std::string limit_words(const Finding& finding) {
    if (!finding.limit) return "Basis: " + finding.basis + ".";
    return fmt::format("Limit {}{}{}{}.",
                       finding.edge == Edge::kLeast  ? "at least "
                       : finding.edge == Edge::kMost ? "at most "
                                                     : "",
                       finding.limit->text, finding.basis.empty() ? "" : ", ", finding.basis);
  }

  void write_left_out() {
    if (!report_.diagnostics.empty()) heading("What could not be done");
    for (const auto& diagnostic : report_.diagnostics) {
      const std::string& message = diagnostic.message;
      paragraph("  ",
                fmt::format("{}: {}{} {}", diagnostic.path, message,
                            message.ends_with('.') ? "" : ".", capitalised(diagnostic.remedy)));
    }
    if (report_.missing.empty()) return;
    heading("What to tell next, what unlocks most first");
    int number = 0;
    for (const auto& missing : report_.missing) {
      paragraph(fmt::format("{:>3}. ", ++number),
                fmt::format("{} ({}): unlocks {}.", capitalised(missing.what), missing.path,
                            missing.needed));
    }
  }

  const Report& report_;
  Printer print_;
  std::string out_;
};

}  // namespace

std::string report_text(const build::Build& build, const Report& report) {
  return Text(build, report).write();
}

}  // namespace rig::check
