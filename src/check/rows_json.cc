#include "check/rows_json_internal.h"
#include "units/dimension_keys.h"

namespace rig::check {

Json working_json(const std::vector<WorkingStep>& steps) {
  Json working = Json::array();
  for (const auto& step : steps) {
    working.push_back({{"formula", step.formula},
                       {"with_values", step.with_values},
                       {"source", step.source},
                       {"input_paths", step.input_paths}});
  }
  return working;
}

Json row_json(const Row& row, const Report& report) {
  const Finding* finding = report.finding(row.finding);
  return {{"id", row.id},
          {"label", row.label},
          {"value", json_from(row.value)},
          {"verdict", finding == nullptr ? Json(nullptr) : Json(verdict_name(finding->verdict))},
          {"low", json_from(row.low)},
          {"high", json_from(row.high)},
          {"finding", finding == nullptr ? Json(nullptr) : Json(row.finding)},
          {"explain", row.explain},
          {"usual", row.usual},
          {"working", working_json(row.working)}};
}

Json curve_json(const Curve& curve) {
  Json x = Json::array(), y = Json::array();
  for (const double value : curve.x) x.push_back(json_from_si(value));
  for (const double value : curve.y) y.push_back(json_from_si(value));
  return {{"id", curve.id},
          {"label", curve.label},
          {"x_label", curve.x_label},
          {"x", std::move(x)},
          {"y", std::move(y)},
          {"x_dimension", units::dimension_key(curve.x_dimension)},
          {"y_dimension", units::dimension_key(curve.y_dimension)},
          {"low", json_from_si(curve.low)},
          {"high", json_from_si(curve.high)}};
}

}  // namespace rig::check
