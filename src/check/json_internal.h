#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

#include "check/printer.h"
#include "check/report.h"
#include "geometry/pose.h"

/// The common shapes of docs/api.md.
namespace rig::check {

using Json = nlohmann::ordered_json;

inline Json json_from_si(double si) { return std::isfinite(si) ? Json(si) : Json(nullptr); }

/// A number that is not known, or not finite, has no `si`.
inline Json json_from(const Number& number) {
  return {{"si", json_from_si(number.si)},
          {"text", std::isfinite(number.si) ? number.text : std::string("unknown")}};
}

inline Json json_from(const std::optional<Number>& number) {
  return number ? json_from(*number) : Json(nullptr);
}

inline Json json_from(const Vec3& p) { return Json::array({p.x(), p.y(), p.z()}); }

inline Json json_from(const Mat3& R) {
  Json rows = Json::array();
  for (Eigen::Index i = 0; i < 3; ++i) rows.push_back(Json::array({R(i, 0), R(i, 1), R(i, 2)}));
  return rows;
}

const char* verdict_name(Verdict verdict);

}  // namespace rig::check
