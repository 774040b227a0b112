#pragma once

#include <string>
#include <utility>

#include "check/drivetrain_report.h"
#include "check/finding.h"
#include "check/limits_drivetrain.h"
#include "check/words.h"

namespace rig::check {

/// What all findings of one propeller shaft begin and end with.
class ShaftFindingMaker {
 public:
  ShaftFindingMaker(const Subject& subject, const ShaftReport& shaft)
      : subject_(subject), print_(subject.print), shaft_(shaft) {}

 protected:
  Finding make(const char* what) const {
    Finding finding;
    finding.id = shaft_finding_id(what, shaft_.from.path);
    finding.subject = capitalised(shaft_.from.label);
    finding.path = shaft_.from.path;
    finding.work = "drivetrain";
    return finding;
  }
  void give(Finding finding) const {
    if (finding.advice.empty()) finding.advice = "Nothing to do.";
    subject_.findings.push_back(std::move(finding));
  }

  std::string angle(double si) const { return print_.angle(si); }
  std::string length(double si) const { return print_.length(si); }
  Number acceleration(double rad_per_s2) const { return angular_acceleration(print_, rad_per_s2); }

  const Subject& subject_;
  const Printer& print_;
  const ShaftReport& shaft_;
};

/// Whirling speed and torque.
void add_shaft_strength_findings(const Subject& subject, const ShaftReport& shaft);

}  // namespace rig::check
