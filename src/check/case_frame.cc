#include "check/case_frame.h"

#include "check/loaded_frame.h"
#include "frame/mount_compliance.h"
#include "frame/whole_frame.h"

namespace rig::check {
namespace {

/// Where the frame carries a mount; null: nowhere.
const frame::Attachment* find_carried(const frame::Model& model,
                                      const driveline::CaseMount& mount) {
  for (const frame::Attachment& at : model.attachments) {
    if (at.kind != frame::AttachmentKind::mount || at.path != mount.path) continue;
    if (mount.sign == 0 || at.sign == mount.sign) return &at;
  }
  return nullptr;
}

}  // namespace

CaseFrame::CaseFrame(const build::Build& build, const Report& report, frame::SectionBook& book) {
  if (!report.frame || build.drivetrain.mounts.empty()) return;
  if (const auto& loaded = report.frame->loaded) {
    planned_ = {loaded->model, loaded->solver};
    return;
  }
  // What is wrong with the frame is told with its own stiffness.
  auto solved = frame::make_solved_model(build, build::planned_parts(build.frame), book);
  if (solved) planned_ = *std::move(solved);
}

Eigen::MatrixXd CaseFrame::under(const driveline::CaseLine& line) const {
  if (!planned_) return {};
  const frame::Model& model = planned_->model;
  const auto measuring = frame::find_measuring_points(model);
  if (!measuring) return {};
  std::vector<std::size_t> carried;
  std::vector<frame::JointPoint> points;
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    const frame::Attachment* at = find_carried(model, line.mounts[m]);
    if (at == nullptr) continue;
    carried.push_back(m);
    points.push_back({at->joint, line.mounts[m].p_VoM_V});
  }
  const auto gives =
      frame::calc_mount_compliance(planned_->solver, frame::axle_points(*measuring), points);
  if (!gives || points.empty()) return {};
  const auto n = static_cast<Eigen::Index>(3 * line.mounts.size());
  Eigen::MatrixXd out = Eigen::MatrixXd::Zero(n, n);
  const auto row = [](std::size_t mount) { return static_cast<Eigen::Index>(3 * mount); };
  for (std::size_t i = 0; i < carried.size(); ++i) {
    for (std::size_t j = 0; j < carried.size(); ++j) {
      out.block<3, 3>(row(carried[i]), row(carried[j])) = gives->block<3, 3>(row(i), row(j));
    }
  }
  return out;
}

}  // namespace rig::check
