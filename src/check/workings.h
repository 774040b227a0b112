#pragma once

#include <string>
#include <vector>

#include "check/link_loads.h"
#include "check/report.h"

/// How the numbers came about that no finding judges. docs/findings.md, "Workings".
namespace rig::check {

/// Fills in `working` and `usual` of an axle's rows.
void explain_rows(const Printer& print, AxleReport& axle);

/// Fills in `working` of an axle's spring seats.
void explain_seats(const Printer& print, AxleReport& axle);

/// How every link's load and swing come about, each with its own.
std::vector<WorkingStep> explain_links(const Printer& print, const AxleReport& axle,
                                       const std::vector<LinkLoad>& loads);

/// Fills in `explained` of a load state: its weight, balance point, loads and limits of standing.
void explain_state(const Printer& print, StateReport& state);

}  // namespace rig::check
