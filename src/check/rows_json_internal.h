#pragma once

#include <vector>

#include "check/json_internal.h"
#include "check/report.h"

/// Rows, curves and workings of docs/api.md.
namespace rig::check {

Json working_json(const std::vector<WorkingStep>& steps);
/// With the verdict of the row's finding.
Json row_json(const Row& row, const Report& report);
Json curve_json(const Curve& curve);

}  // namespace rig::check
