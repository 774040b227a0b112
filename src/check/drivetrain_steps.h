#pragma once

#include <string>
#include <vector>

#include "check/drivetrain_report.h"

namespace rig::check {

/// One step of mocking up the drivetrain; `hold`: what must be measured and right before going on.
struct MockUpStep {
  std::string label, detail, hold;
};

/// The steps in their order, with the numbers to be met. Empty while no line of cases is solved and
/// no shaft is.
std::vector<MockUpStep> list_mock_up_steps(const DrivetrainReport& drivetrain,
                                           const Printer& print);

}  // namespace rig::check
