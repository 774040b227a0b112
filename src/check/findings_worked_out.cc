#include <fmt/format.h>

#include <algorithm>

#include "check/findings.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

/// Calipers read finer than a tape: lengths in decimals, not fractions.
std::string input_words(const suspension::WorkedOutInput& input, const Printer& print) {
  if (input.dimension != units::Dimension::kLength) {
    return fmt::format("{} = {:g}", input.symbol, input.si);
  }
  if (print.choices().metric) return fmt::format("{} = {:.2f} mm", input.symbol, 1000 * input.si);
  return fmt::format("{} = {:.3f} in", input.symbol, units::inch_from_m(input.si));
}

void add_worked_out(const Subject& subject, const AxleReport& axle,
                    const suspension::WorkedOut& out) {
  const Printer& print = subject.print;
  const Number value = print.number(out.si, out.dimension);
  std::vector<std::string> inputs, paths;
  for (const auto& input : out.inputs) {
    inputs.push_back(input_words(input, print));
    paths.push_back(input.path);
  }
  Finding finding;
  finding.id = fmt::format("worked_out.{}{}", axle.id, out.path.substr(axle.path.size()));
  std::replace(finding.id.begin(), finding.id.end(), '/', '.');
  finding.verdict = out.cautions.empty() ? Verdict::kGood : Verdict::kLook;
  finding.work = "axles";
  finding.subject = fmt::format("{}, {}", capitalised(out.what), axle_words(axle));
  finding.path = out.path;
  finding.value = value;
  finding.basis = out.source;
  finding.sentence = fmt::format("It is not given; its {} make it {}.", out.from_what, value.text);
  finding.advice = out.cautions.empty() ? "Nothing to do." : "";
  for (const auto& caution : out.cautions) {
    finding.advice += (finding.advice.empty() ? "" : " ") + caution;
  }
  if (!out.cautions.empty()) {
    finding.advice +=
        fmt::format(" Weigh it down on a scale and give the {} as measured.", out.what);
  }
  finding.working.push_back({.formula = out.formula,
                             .with_values = fmt::format("{}: {}", join_words(inputs), value.text),
                             .source = out.source,
                             .input_paths = paths});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_worked_out_findings(const Subject& subject) {
  for (const auto& axle : subject.report.axles) {
    for (const auto& out : axle.worked_out) add_worked_out(subject, axle, out);
  }
}

}  // namespace rig::check
