#include "suspension/sweep.h"

#include <fmt/format.h>

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

#include "suspension/elements.h"
#include "suspension/pose_numbers_internal.h"

namespace rig::suspension {
namespace {

/// Longest step along the path: 10 mm of heave or about 1 degree of roll.
constexpr double kStepHeave_m = 0.010;
constexpr double kStepRoll_rad = 0.0175;
/// A lock is located to this share of a step.
constexpr double kSmallestStep = 1e-5;
/// A solved step may leave its tangent prediction by no more than this (m, rad); a larger leap is
/// another assembly of the same links.
constexpr double kLargestCorrection = 0.03;

struct Place {
  Target at;
  LinkagePose pose;
};

double distance(const Target& a, const Target& b) {
  return std::max(std::abs(a.heave_m - b.heave_m) / kStepHeave_m,
                  std::abs(a.roll_rad - b.roll_rad) / kStepRoll_rad);
}

enum class StepEnd { kReached, kLocked, kFlipped };

/// One step of the continuation, predicted along the tangent.
StepEnd take_step(const Linkage& linkage, double sign_drawn, const Place& from, const Target& to,
                  Place& reached) {
  const auto dq = calc_pose_derivatives(linkage.axle(), from.pose);
  Vec6 predicted = from.pose.q + dq.col(0) * (to.heave_m - from.at.heave_m) +
                   dq.col(1) * (to.roll_rad - from.at.roll_rad);
  if (!predicted.allFinite()) return StepEnd::kLocked;
  reached = {to, from.pose};
  reached.pose.q = predicted;
  if (!linkage.solve(linkage.axle().p_VC.z() + to.heave_m, to.roll_rad, reached.pose)) {
    return StepEnd::kLocked;
  }
  if (!((reached.pose.q - predicted).cwiseAbs().maxCoeff() < kLargestCorrection)) {
    return StepEnd::kLocked;
  }
  if (linkage.assembly_sign(reached.pose.q) * sign_drawn <= 0) return StepEnd::kFlipped;
  return StepEnd::kReached;
}

/// The bars that share the force which grows without bound where the linkage locks: the left null
/// vector of the bars' gradients in the free coordinates.
std::vector<int> find_locking_bars(const AxleModel& axle, const Vec6& q) {
  const AxleAxes axes = axes_from_coordinates(q);
  const auto bars = static_cast<Eigen::Index>(axle.bars.size());
  Eigen::MatrixXd J(bars, 4);
  for (Eigen::Index i = 0; i < bars; ++i) {
    const Jet length = calc_bar_length(axle.bars[static_cast<std::size_t>(i)], axes);
    for (std::size_t k = 0; k < 4; ++k) {
      J(i, static_cast<Eigen::Index>(k)) = length.gradient[kFree[k]];
    }
  }
  const Eigen::JacobiSVD<Eigen::MatrixXd> svd(J, Eigen::ComputeFullU);
  const Eigen::VectorXd null = svd.matrixU().col(std::min<Eigen::Index>(bars, 4) - 1).cwiseAbs();
  std::vector<int> found;
  for (Eigen::Index i = 0; i < bars; ++i) {
    if (null[i] > 0.4 * null.maxCoeff()) found.push_back(static_cast<int>(i));
  }
  return found;
}

Lock make_lock(const Linkage& linkage, const Place& at, StepEnd end) {
  Lock lock;
  lock.heave_m = at.at.heave_m;
  lock.roll_rad = at.at.roll_rad;
  lock.flips = end == StepEnd::kFlipped;
  lock.bars = find_locking_bars(linkage.axle(), at.pose.q);
  std::string names;
  for (std::size_t i = 0; i < lock.bars.size(); ++i) {
    const bool last = i + 1 == lock.bars.size();
    names += i == 0 ? "" : last ? " and " : ", ";
    names += linkage.axle().bars[static_cast<std::size_t>(lock.bars[i])].name;
  }
  const bool several = lock.bars.size() > 1;
  lock.message = lock.flips ? fmt::format("{} {} dead centre: the axle can flip over here", names,
                                          several ? "pass" : "passes")
                            : fmt::format("{} {} no reach left: the axle can go no further", names,
                                          several ? "have" : "has");
  return lock;
}

/// Walks from `place` towards `target`; leaves `place` at the furthest point reached.
StepEnd walk(const Linkage& linkage, double sign_drawn, const Target& target, Place& place) {
  const Target start = place.at;
  const double whole = distance(start, target);
  double done = 0, step = 1;
  if (whole == 0) return StepEnd::kReached;
  while (done < whole) {
    step = std::min(step, whole - done);
    const double share = std::min(1.0, (done + step) / whole);
    const Target next{start.heave_m + share * (target.heave_m - start.heave_m),
                      start.roll_rad + share * (target.roll_rad - start.roll_rad)};
    Place reached;
    const StepEnd end = take_step(linkage, sign_drawn, place, next, reached);
    if (end == StepEnd::kReached) {
      done += step;
      place = reached;
      step = std::min(1.0, 2 * step);
    } else if (step > kSmallestStep) {
      step /= 2;
    } else {
      return end;
    }
  }
  place.at = target;
  return StepEnd::kReached;
}

/// Goes to each target in turn: `reach(i, pose)` where it gets there, `stop(place, end)` where not.
template <typename Reach, typename Stop>
Diagnostics follow(const Linkage& linkage, std::span<const Target> targets, Reach reach,
                   Stop stop) {
  const AxleModel& axle = linkage.axle();
  Place drawn{{}, linkage.drawn()};
  if (!linkage.solve(axle.p_VC.z(), 0, drawn.pose)) {
    return {
        {.code = "suspension.no_pose",
         .path = axle.path,
         .message = fmt::format("the links of the {} axle can't be solved even as drawn", axle.id),
         .remedy = "check the link points: an axle needs a unique place at its drawn height",
         .at = {}}};
  }
  const double sign_drawn = linkage.assembly_sign(drawn.pose.q);
  Place last = drawn, row = drawn;
  for (std::size_t i = 0; i < targets.size(); ++i) {
    const Target& target = targets[i];
    if (i > 0 && targets[i - 1].roll_rad != target.roll_rad) last = row;
    Place place = distance(last.at, target) <= distance(drawn.at, target) ? last : drawn;
    const StepEnd end = walk(linkage, sign_drawn, target, place);
    if (end == StepEnd::kReached) {
      reach(i, place.pose);
      if (i == 0 || targets[i - 1].roll_rad != target.roll_rad) row = place;
      last = place;
    } else {
      stop(place, end);
    }
  }
  return {};
}

}  // namespace

Result<Sweep> sweep_axle(const AxleModel& axle, const TruckNumbers& truck,
                         std::span<const Target> targets) {
  const Linkage linkage = Linkage::make(axle);
  Sweep sweep;
  Diagnostics faults = follow(
      linkage, targets,
      [&](std::size_t i, const LinkagePose& pose) {
        sweep.asked.push_back(i);
        sweep.poses.push_back(calc_swept_pose(axle, truck, pose));
      },
      [&](const Place& at, StepEnd end) { sweep.locks.push_back(make_lock(linkage, at, end)); });
  if (!faults.empty()) return Failure{std::move(faults)};
  return sweep;
}

Result<std::vector<std::optional<AxlePlace>>> trace_axle(const AxleModel& axle,
                                                         std::span<const Target> targets) {
  std::vector<std::optional<AxlePlace>> places(targets.size());
  Diagnostics faults = follow(
      Linkage::make(axle), targets,
      [&](std::size_t i, const LinkagePose& pose) {
        const AxleAxes axes = axes_from_coordinates(pose.q);
        places[i] = AxlePlace{axes.p_VC, axes.R_VA};
      },
      [](const Place&, StepEnd) {});
  if (!faults.empty()) return Failure{std::move(faults)};
  return places;
}

std::vector<Target> make_targets(double heave_from_m, double heave_to_m, int heave_count,
                                 double roll_from_rad, double roll_to_rad, int roll_count) {
  const auto at = [](double from, double to, int count, int i) {
    return count == 1 ? from : from + (to - from) * i / (count - 1);
  };
  std::vector<Target> targets;
  for (int r = 0; r < roll_count; ++r) {
    for (int h = 0; h < heave_count; ++h) {
      targets.push_back({at(heave_from_m, heave_to_m, heave_count, h),
                         at(roll_from_rad, roll_to_rad, roll_count, r)});
    }
  }
  return targets;
}

std::vector<Target> make_one_wheel_targets(double track_m, double from_m, double to_m, int count,
                                           int side) {
  std::vector<Target> targets;
  for (int i = 0; i < count; ++i) {
    const double rise = count == 1 ? from_m : from_m + (to_m - from_m) * i / (count - 1);
    targets.push_back({rise / 2, side * std::asin(rise / track_m)});
  }
  return targets;
}

}  // namespace rig::suspension
