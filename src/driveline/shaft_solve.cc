#include "driveline/shaft_solve.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "driveline/shaft_tube.h"

namespace rig::driveline {
namespace {

/// Parts of the range that are looked at. In a line that is nearly straight the parallel and the
/// crossed way lie close together, and a part that holds both shows one.
constexpr int kParts = 512;
/// Golden-section steps: from two parts of half a turn to below 1e-9 rad.
constexpr int kNarrowings = 36;
/// Turns whose lines differ by less than this in angle do equally well.
constexpr double kEqualAngle_rad = 1e-6;

/// Angle of the line with the pinion turned; infinite where a joint is folded.
double line_angle_rad(const ShaftLine& line, const PinionTurn& turn, double turn_rad) {
  const auto motion = calc_shaft_line(turn_pinion(line, turn, turn_rad));
  return motion ? motion->line.angle_rad : std::numeric_limits<double>::infinity();
}

struct Candidate {
  double turn_rad = 0;
  double angle_rad = std::numeric_limits<double>::infinity();

  bool beats(const Candidate& other) const {
    if (std::abs(angle_rad - other.angle_rad) > kEqualAngle_rad) return angle_rad < other.angle_rad;
    return std::abs(turn_rad) < std::abs(other.turn_rad);
  }
};

/// Golden section between two turns.
template <typename Angle>
Candidate narrow(double low, double high, const Angle& angle_at) {
  const double golden = (std::sqrt(5.0) - 1) / 2;
  double a = high - golden * (high - low), b = low + golden * (high - low);
  double at_a = angle_at(a), at_b = angle_at(b);
  for (int i = 0; i < kNarrowings; ++i) {
    if (at_a < at_b) {
      high = b;
      b = a;
      at_b = at_a;
      a = high - golden * (high - low);
      at_a = angle_at(a);
    } else {
      low = a;
      a = b;
      at_a = at_b;
      b = low + golden * (high - low);
      at_b = angle_at(b);
    }
  }
  return at_a < at_b ? Candidate{a, at_a} : Candidate{b, at_b};
}

/// The best turn of a range: narrowed around each part's end that is no worse than its neighbours.
template <typename Angle>
Candidate find_lowest(double low, double high, const Angle& angle_at) {
  const auto turn_at = [&](int i) { return low + (high - low) * i / kParts; };
  std::array<double, kParts + 1> angles{};
  const auto angle = [&](int i) -> double& { return angles[static_cast<std::size_t>(i)]; };
  for (int i = 0; i <= kParts; ++i) angle(i) = angle_at(turn_at(i));
  Candidate best;
  for (int i = 0; i <= kParts; ++i) {
    const int before = std::max(i - 1, 0), after = std::min(i + 1, kParts);
    if (!std::isfinite(angle(i)) || angle(before) < angle(i) || angle(after) < angle(i)) continue;
    const Candidate found = narrow(turn_at(before), turn_at(after), angle_at);
    if (found.beats(best)) best = found;
  }
  return best;
}

Diagnostics check_turn(const PinionTurn& turn) {
  Diagnostics faults;
  if (!turn.p_VC.allFinite() || !turn.d_V.allFinite() || !(turn.d_V.norm() > 0)) {
    faults.push_back({.code = "driveline.zero_axis",
                      .path = "/turn",
                      .message = "The line that the pinion turns about is not known.",
                      .remedy = "Give the axle's middle and its direction."});
  }
  const double range_rad = turn.to_rad - turn.from_rad;
  if (!(range_rad > 0 && range_rad <= std::numbers::pi)) {
    faults.push_back(
        {.code = "driveline.turn_range",
         .path = "/turn",
         .message = fmt::format("Turns from {} to {} rad.", turn.from_rad, turn.to_rad),
         .remedy = "Give a range that rises, of at most half a turn."});
  }
  return faults;
}

/// Where the number reaches the limit on the way from a pose within it to one past it.
double find_edge_m(std::span<const double> bump_m, std::span<const double> numbers, double limit,
                   std::size_t within, std::size_t past) {
  const double share = (limit - numbers[within]) / (numbers[past] - numbers[within]);
  return bump_m[within] + share * (bump_m[past] - bump_m[within]);
}

}  // namespace

ShaftLine turn_pinion(const ShaftLine& line, const PinionTurn& turn, double turn_rad) {
  RIG_REQUIRE(line.joint_count >= 1 && line.joint_count <= kMostJoints);
  const Mat3 R = Eigen::AngleAxisd(turn_rad, turn.d_V.normalized()).toRotationMatrix();
  ShaftLine turned = line;
  Vec3& p_VP = turned.joints[line.joint_count - 1].p_VP;
  p_VP = turn.p_VC + R * (p_VP - turn.p_VC);
  turned.d_out_V = R * line.d_out_V;
  return turned;
}

Result<PinionAngle> find_pinion_angle(const ShaftLine& line, const PinionTurn& turn) {
  if (Diagnostics faults = check_turn(turn); !faults.empty()) return Failure{std::move(faults)};
  if (const auto given = calc_shaft_line(line); !given) return Failure{given.error()};
  const auto angle_at = [&](double turn_rad) { return line_angle_rad(line, turn, turn_rad); };
  const Candidate best = find_lowest(turn.from_rad, turn.to_rad, angle_at);
  const ShaftLine turned = turn_pinion(line, turn, best.turn_rad);
  const auto motion = calc_shaft_line(turned);
  if (!std::isfinite(best.angle_rad) || !motion) {
    return fail("driveline.no_turn", "/turn", "A joint is folded square at every turn looked at.",
                "Give a range of turns near to how the pinion should point.");
  }
  return PinionAngle{.turn_rad = best.turn_rad, .line = turned, .motion = *motion};
}

std::optional<TravelStretch> find_steady_stretch(std::span<const double> bump_m,
                                                 std::span<const double> numbers, double limit,
                                                 std::size_t ride) {
  RIG_REQUIRE(bump_m.size() == numbers.size() && ride < numbers.size());
  if (!(numbers[ride] <= limit)) return std::nullopt;
  TravelStretch stretch{bump_m.front(), bump_m.back()};
  for (std::size_t i = ride; i > 0; --i) {
    if (numbers[i - 1] <= limit) continue;
    stretch.from_m = find_edge_m(bump_m, numbers, limit, i, i - 1);
    break;
  }
  for (std::size_t i = ride; i + 1 < numbers.size(); ++i) {
    if (numbers[i + 1] <= limit) continue;
    stretch.to_m = find_edge_m(bump_m, numbers, limit, i, i + 1);
    break;
  }
  return stretch;
}

Result<TubeCut> calc_tube_cut(const CutTube& tube) {
  Diagnostics faults;
  check_positive(tube.shortest_m, "/shortest", "A length", "m", faults);
  check_positive(tube.ride_m, "/ride", "A length", "m", faults);
  check_positive(tube.longest_m, "/longest", "A length", "m", faults);
  check_positive(tube.fixed_yoke_m, "/fixed_yoke", "A yoke's length", "m", faults);
  check_positive(tube.closed_yoke_m, "/closed_yoke", "A sliding yoke's length", "m", faults);
  check_positive(tube.slide_m, "/slide", "A slide", "m", faults);
  if (!(tube.bump_share >= 0 && tube.bump_share <= 1)) {
    faults.push_back({.code = "driveline.share_range",
                      .path = "/bump_share",
                      .message = fmt::format("A share of {}.", tube.bump_share),
                      .remedy = "Give 0 to 1."});
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  if (!(tube.shortest_m <= tube.ride_m && tube.ride_m <= tube.longest_m)) {
    return fail(
        "driveline.lengths_order", "/ride",
        fmt::format("{} m at ride is not between the shortest, {} m, and the longest, {} m.",
                    tube.ride_m, tube.shortest_m, tube.longest_m),
        "Give the three of one travel.");
  }
  const double spare_m = tube.slide_m - (tube.longest_m - tube.shortest_m);
  TubeCut cut;
  cut.left_closing_m = spare_m * tube.bump_share;
  cut.left_opening_m = spare_m - cut.left_closing_m;
  const double closed_m = tube.shortest_m - cut.left_closing_m;
  cut.pulled_out_m = tube.ride_m - closed_m;
  cut.cut_m = closed_m - tube.fixed_yoke_m - tube.closed_yoke_m;
  if (!(cut.cut_m > 0)) {
    return fail("driveline.shaft_too_short", "",
                fmt::format("Yokes of {} m and {} m leave no tube in a shaft of {} m closed.",
                            tube.fixed_yoke_m, tube.closed_yoke_m, closed_m),
                "Give shorter yokes, or a longer shaft.");
  }
  return cut;
}

}  // namespace rig::driveline
