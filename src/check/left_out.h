#pragma once

#include <string>

#include "check/report.h"

/// What no number counts yet, and what hangs on it. docs/findings.md.
namespace rig::check {

/// "the diesel engine and the cab": what is aboard in a state but counts for nothing, as its mass
/// or place is not known; empty when all counts.
std::string left_out_words(const StateReport& state);

/// Whether the state's weight comes from its items alone while some are left out: then it is only a
/// lower bound.
bool is_lower_bound(const StateReport& state);

/// Lets no finding be good that rests on masses while items, or whole load states, are left out.
void doubt_what_is_left_out(const Report& report, std::vector<Finding>& findings);

/// Everything left out in any of the states.
std::vector<weigh::LeftOut> collect_left_out(const Report& report);

}  // namespace rig::check
