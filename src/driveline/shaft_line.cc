#include "driveline/shaft_line.h"

#include <fmt/format.h>

#include <cmath>
#include <complex>
#include <string>

namespace rig::driveline {
namespace {

using Complex = std::complex<double>;

constexpr double kLeastTube_m = 1e-6;  ///< Below this, two places are one.
/// Cosine from which a joint counts as square: four such joints still leave a line with digits.
constexpr double kSquareCosine = 1e-3;

/// A linear map of directions in the plane across a shaft, written as complex numbers:
/// u -> turned u + mirrored conj(u), but for a scale. Its singular values are |turned| +-
/// |mirrored|.
struct ArmMap {
  Complex turned = 1, mirrored = 0;

  JointMotion motion() const {
    return calc_joint_motion_from_half_tangent(std::abs(mirrored) / std::abs(turned));
  }
};

/// The map u -> turn (u + squeeze conj(u)): one joint and its turn to the next yoke.
struct JointMap {
  Complex squeeze = 0, turn = 1;
};

ArmMap then(const ArmMap& before, const JointMap& joint) {
  return {joint.turn * (before.turned + joint.squeeze * std::conj(before.mirrored)),
          joint.turn * (before.mirrored + joint.squeeze * std::conj(before.turned))};
}

ArmMap then(const JointMap& joint, const ArmMap& after) {
  const Complex turned = after.turned * joint.turn;
  const Complex mirrored = after.mirrored * std::conj(joint.turn);
  return {turned + mirrored * std::conj(joint.squeeze), mirrored + turned * joint.squeeze};
}

/// Two directions across a shaft that are carried through each joint without turning about it.
class CarriedAxes {
 public:
  explicit CarriedAxes(const Vec3& along) : along_(along), y_(along.unitOrthogonal()) {
    z_ = along_.cross(y_);
  }

  /// Goes on to the next shaft; the part of its direction across this one, over 1 + cos b: its
  /// length is tan(b / 2).
  Complex go_on(const Vec3& next) {
    const Vec3 sum = (along_ + next) / (1 + along_.dot(next));
    const Complex lean(y_.dot(sum), z_.dot(sum));
    y_ -= y_.dot(next) * sum;
    z_ -= z_.dot(next) * sum;
    along_ = next;
    return lean;
  }

 private:
  Vec3 along_, y_, z_;
};

std::string number_path(const char* list, std::size_t i) { return fmt::format("/{}/{}", list, i); }

void check_axis(const Vec3& d, const char* path, Diagnostics& faults) {
  if (d.allFinite() && d.norm() > 0) return;
  faults.push_back({.code = "driveline.zero_axis",
                    .path = path,
                    .message = "This shaft has no direction.",
                    .remedy = "Give two points of its centre line that lie apart."});
}

Diagnostics check_fields(const ShaftLine& line) {
  Diagnostics faults;
  if (line.joint_count < 1 || line.joint_count > kMostJoints) {
    faults.push_back({.code = "driveline.joint_count",
                      .path = "/joint_count",
                      .message = fmt::format("A line of {} joints.", line.joint_count),
                      .remedy = fmt::format("Give 1 to {}.", kMostJoints)});
    return faults;
  }
  check_axis(line.d_in_V, "/d_in", faults);
  check_axis(line.d_out_V, "/d_out", faults);
  for (std::size_t i = 0; i < line.joint_count; ++i) {
    const Vec3& p_VP = line.joints[i].p_VP;
    if (!p_VP.allFinite()) {
      faults.push_back({.code = "driveline.joint_place",
                        .path = number_path("joints", i),
                        .message = "The place of this joint is not known.",
                        .remedy = "Give its station, offset and height."});
    } else if (i > 0 && (p_VP - line.joints[i - 1].p_VP).norm() < kLeastTube_m) {
      faults.push_back({.code = "driveline.zero_length",
                        .path = number_path("joints", i),
                        .message = "This joint lies in the one before it.",
                        .remedy = "Give two joints that lie apart."});
    }
    if (i > 0 && !std::isfinite(line.phase_rad[i - 1])) {
      faults.push_back({.code = "driveline.phase_unknown",
                        .path = number_path("phase", i - 1),
                        .message = "The turn between this tube's yokes is not known.",
                        .remedy = "Give 0 for yokes in line."});
    }
  }
  return faults;
}

}  // namespace

Result<ShaftLineMotion> calc_shaft_line(const ShaftLine& line) {
  Diagnostics faults = check_fields(line);
  if (!faults.empty()) return Failure{std::move(faults)};

  ShaftLineMotion motion;
  std::array<JointMap, kMostJoints> maps;
  const std::size_t last = line.joint_count - 1;
  Vec3 along = line.d_in_V.normalized();
  CarriedAxes axes(along);
  for (std::size_t i = 0; i <= last; ++i) {
    Vec3 next = line.d_out_V;
    if (i < last) {
      next = line.joints[i + 1].p_VP - line.joints[i].p_VP;
      motion.tubes[i].length_m = next.norm();
    }
    next.normalize();
    const double cosine = along.dot(next);
    motion.joint_angle_rad[i] = std::atan2(along.cross(next).norm(), cosine);
    if (!(cosine > kSquareCosine)) {
      faults.push_back(
          {.code = "driveline.joint_square",
           .path = number_path("joints", i),
           .message = fmt::format("The shafts meet at {:.3f} rad in this joint.",
                                  motion.joint_angle_rad[i]),
           .remedy = "Look whether both shafts' directions point from the input to the output."});
      along = next;
      axes = CarriedAxes(along);
      continue;
    }
    const Complex lean = axes.go_on(next);
    along = next;
    const double phase = i < last ? line.phase_rad[i] : 0;
    maps[i].turn = std::polar(1.0, phase);
    if (line.joints[i].kind == JointKind::kCardan) {
      // The input arm's picture shrinks along the lean; the other yoke's arm is square to it.
      maps[i].squeeze = -lean * lean;
      maps[i].turn *= Complex(0, 1);
    }
  }
  if (!faults.empty()) return Failure{std::move(faults)};

  ArmMap from_input;
  for (std::size_t i = 0; i < last; ++i) {
    from_input = then(from_input, maps[i]);
    motion.tubes[i].drive = from_input.motion();
  }
  motion.line = then(from_input, maps[last]).motion();
  ArmMap to_output;
  for (std::size_t i = last; i > 0; --i) {
    to_output = then(maps[i], to_output);
    motion.tubes[i - 1].coast = to_output.motion();
  }
  return motion;
}

}  // namespace rig::driveline
