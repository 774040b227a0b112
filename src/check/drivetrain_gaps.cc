#include <cmath>

#include "check/drivetrain.h"
#include "check/limits_drivetrain.h"
#include "check/words.h"

namespace rig::check {
namespace {

/// What a case comes near, where the truck takes it.
class Others {
 public:
  /// @param axle  That it belongs to; null: the frame.
  Others(const Vec3& p_VoB_V, const AxleReport* axle) : p_VoB_V_(p_VoB_V), axle_(axle) {
    all_.push_back(p_VoB_V);
    if (axle == nullptr) return;
    for (const auto* sweep : {&axle->bump, &axle->roll, &axle->crossed}) {
      for (const suspension::SweptPose& pose : sweep->poses) all_.push_back(at(pose));
    }
  }

  const std::vector<Vec3>& all() const { return all_; }

  /// As drawn and at the ends of each sweep.
  std::vector<Vec3> corners() const {
    std::vector<Vec3> out{p_VoB_V_};
    if (axle_ == nullptr) return out;
    for (const auto* sweep : {&axle_->bump, &axle_->roll, &axle_->crossed}) {
      if (sweep->poses.empty()) continue;
      out.push_back(at(sweep->poses.front()));
      out.push_back(at(sweep->poses.back()));
    }
    return out;
  }

 private:
  Vec3 at(const suspension::SweptPose& pose) const {
    return pose.q.head<3>() + pose.R_VA * (p_VoB_V_ - axle_->model.p_VC);
  }

  Vec3 p_VoB_V_;
  const AxleReport* axle_;
  std::vector<Vec3> all_;
};

GapReport solve_gap(const build::Entry<build::Gap>& entry, const Report& report,
                    const DrivetrainReport& drivetrain) {
  const build::Gap& gap = entry.value;
  const Vec3 p_VoA_V = gap.at.p_VP();
  const Others others(gap.to.p_VP(), report.axle(gap.axle.id));
  const Vec3 drawn = gap.to.p_VP() - p_VoA_V;
  const Vec3 way = drawn.normalized();
  GapReport out{.id = entry.id,
                .path = entry.path,
                .label = gap.label.empty() ? entry.id : gap.label,
                .drawn_m = drawn.norm(),
                .wanted_m = gap.least.known() ? gap.least.si : kGapLeft_m,
                .p_VoA_V = p_VoA_V,
                .others_V = others.corners()};
  const auto try_move = [&](const Vec3& travel_V, const std::string& load) {
    for (const Vec3& other_V : others.all()) {
      // Along the way between both as drawn: past each other it goes on below zero.
      const double here_m = way.dot(other_V - p_VoA_V - travel_V);
      if (!(out.least_m <= here_m)) out.least_m = here_m, out.least_load = load;
    }
    if (!(out.moves_m >= travel_V.norm())) out.moves_m = travel_V.norm(), out.moves_load = load;
  };
  try_move(Vec3::Zero(), "");
  const double least_drawn_m = out.least_m;
  for (const CaseShift& shift : find_shifts(drivetrain.lines, gap.segment.id, p_VoA_V)) {
    try_move(shift.motion.travel_V, uncapitalised(shift.label));
  }
  out.mounts_take_m = least_drawn_m - out.least_m;
  return out;
}

}  // namespace

void add_gaps(const build::Build& build, Report& report, DrivetrainReport& drivetrain) {
  for (const auto& gap : build.drivetrain.gaps) {
    const auto want = [&](bool known, const char* key, const char* what) {
      if (!known) report.missing.push_back({gap.path + key, what, "that gap"});
      return known;
    };
    const bool at = want(gap.value.at.known(), "/at", "the place on the case");
    const bool to = want(gap.value.to.known(), "/to", "the place that it comes near");
    if (!want(!gap.value.segment.id.empty(), "/segment", "the case that moves") || !at || !to) {
      continue;
    }
    drivetrain.gaps.push_back(solve_gap(gap, report, drivetrain));
  }
}

}  // namespace rig::check
