#include "driveline/placing.h"

#include <algorithm>
#include <cmath>

#include "units/factors.h"

namespace rig::driveline {
namespace {

constexpr double kAngle_rad = units::kDegree_rad;  ///< That counts as one.
constexpr double kLength_m = 0.005;
/// What a joint that would fold square lacks.
constexpr double kFolded = 90;
constexpr int kGridTries = 11;
constexpr double kFinestTilt_rad = 0.01 * units::kDegree_rad;
constexpr double kFinestTravel_m = 1e-4;
/// A move over the whole range counts as much as this shortfall, squared.
constexpr double kMoveWeight = 1e-4;
constexpr double kWorthMoving = 0.75;  ///< Of the shortfall as drawn.

double square_lack(double wanted, double is, double unit) {
  const double lack = std::max(0.0, wanted - is) / unit;
  return lack * lack;  // NaN, what is not told, lacks nothing: max takes the 0
}

double square_lack(const PlacedShaft& shaft, const CasesMove& move, const Vec3& p_VoPivot_V) {
  std::vector<ShaftEnds> poses = shaft.poses;
  for (ShaftEnds& ends : poses) {
    ends.p_VIn = move_point(move, p_VoPivot_V, ends.p_VIn);
    ends.d_in_V = turn_axis(move, ends.d_in_V);
  }
  const auto travel = calc_shaft_travel(shaft.shaft, poses, 0);
  if (!travel) return kFolded * kFolded;
  const ShaftExtremes& extremes = travel->extremes;
  double sum = square_lack(shaft.bind_left_rad, extremes.least_bind_left_rad.value, kAngle_rad) +
               square_lack(shaft.slip_left_m, extremes.least_in_left_m.value, kLength_m) +
               square_lack(shaft.slip_left_m, extremes.least_out_left_m.value, kLength_m);
  const double left_rad = travel->poses[shaft.ride].motion.line.angle_rad;
  if (!std::isnan(shaft.steady_rad)) sum += square_lack(left_rad, shaft.steady_rad, kAngle_rad);
  return sum;
}

double square_lack(const PlacedGap& gap, const CasesMove& move, const Vec3& p_VoPivot_V) {
  const Vec3 p_VoA_V = move_point(move, p_VoPivot_V, gap.p_VoA_V);
  const Vec3 way = (gap.others_V.front() - gap.p_VoA_V).normalized();
  double least_m = kNaN;
  for (const Vec3& other_V : gap.others_V) {
    least_m = std::fmin(least_m, way.dot(other_V - p_VoA_V));
  }
  return square_lack(gap.least_m, least_m, kLength_m);
}

using Ways = Eigen::Vector3d;  ///< Tilt, up and left.

/// The search of one line of cases.
class Search {
 public:
  Search(const PlacingRange& range, std::span<const PlacedShaft> shafts,
         std::span<const PlacedGap> gaps)
      : range_(range),
        shafts_(shafts),
        gaps_(gaps),
        least_(range.least_tilt_rad, -range.down_m, -range.right_m),
        most_(range.most_tilt_rad, range.up_m, range.left_m) {}

  CasesMove find() {
    try_grid(0, Ways::Zero());
    const Ways finest(kFinestTilt_rad, kFinestTravel_m, kFinestTravel_m);
    for (Ways step = (most_ - least_) / (kGridTries - 1); (step.array() > finest.array()).any();) {
      if (!take_near(step)) step /= 2;
    }
    return move_of(best_);
  }

 private:
  static CasesMove move_of(const Ways& ways) {
    return {.tilt_rad = ways[0], .up_m = ways[1], .left_m = ways[2]};
  }

  /// Every place of the grid; a way without room has one.
  void try_grid(Eigen::Index way, Ways ways) {
    if (way == ways.size()) {
      take(ways);
      return;
    }
    const int tries = most_[way] > least_[way] ? kGridTries : 1;
    for (int i = 0; i < tries; ++i) {
      ways[way] = std::lerp(least_[way], most_[way], i / (kGridTries - 1.0));
      try_grid(way + 1, ways);
    }
  }

  bool take_near(const Ways& step) {
    const Ways from = best_;
    bool better = false;
    for (const int i : {-1, 0, 1}) {
      for (const int j : {-1, 0, 1}) {
        for (const int k : {-1, 0, 1}) better |= take(from + Ways(i, j, k).cwiseProduct(step));
      }
    }
    return better;
  }

  bool take(const Ways& wanted) {
    const Ways ways = wanted.cwiseMax(least_).cwiseMin(most_);
    const double here = cost(ways);
    if (!(here < least_cost_)) return false;
    least_cost_ = here;
    best_ = ways;
    return true;
  }

  double cost(const Ways& ways) const {
    const double lack = calc_shortfall(move_of(ways), range_, shafts_, gaps_);
    const Ways whole = (most_ - least_).cwiseMax(kTiny);
    return lack * lack + kMoveWeight * ways.cwiseQuotient(whole).squaredNorm();
  }

  static constexpr double kTiny = 1e-12;
  const PlacingRange& range_;
  std::span<const PlacedShaft> shafts_;
  std::span<const PlacedGap> gaps_;
  Ways least_, most_;
  Ways best_ = Ways::Zero();
  double least_cost_ = std::numeric_limits<double>::infinity();
};

}  // namespace

Vec3 move_point(const CasesMove& move, const Vec3& p_VoPivot_V, const Vec3& p_VoP_V) {
  return p_VoPivot_V + turn_axis(move, p_VoP_V - p_VoPivot_V) + Vec3(0, move.left_m, move.up_m);
}

Vec3 turn_axis(const CasesMove& move, const Vec3& d_V) {
  // Down to the rear: what points to the rear, -x, gets a part along -z.
  return Eigen::AngleAxisd(-move.tilt_rad, Vec3::UnitY()) * d_V;
}

double calc_shortfall(const CasesMove& move, const PlacingRange& range,
                      std::span<const PlacedShaft> shafts, std::span<const PlacedGap> gaps) {
  double sum = 0;
  for (const PlacedShaft& shaft : shafts) sum += square_lack(shaft, move, range.p_VoPivot_V);
  for (const PlacedGap& gap : gaps) sum += square_lack(gap, move, range.p_VoPivot_V);
  return std::sqrt(sum);
}

std::optional<Placing> find_placing(const PlacingRange& range, std::span<const PlacedShaft> shafts,
                                    std::span<const PlacedGap> gaps) {
  Placing out{.before = calc_shortfall({}, range, shafts, gaps)};
  if (out.before == 0) return std::nullopt;
  out.move = Search(range, shafts, gaps).find();
  out.shortfall = calc_shortfall(out.move, range, shafts, gaps);
  if (out.shortfall > kWorthMoving * out.before) return std::nullopt;
  return out;
}

}  // namespace rig::driveline
