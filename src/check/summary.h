#pragma once

#include "check/report.h"

/// The few sentences that stand on top.
namespace rig::check {

/// "Road: 5960 lb ± 20 lb, balance point 62 in behind the front axle and 32 in up."; empty when
/// the state's weight is not known.
std::string state_words(const StateReport& state, const Printer& print);

/// At most three short sentences for each work, worst first.
void add_summaries(const Printer& print, Report& report);

}  // namespace rig::check
