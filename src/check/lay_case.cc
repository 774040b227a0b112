#include "check/frame_cases.h"
#include "suspension/frame_forces.h"

namespace rig::check {
namespace {

/// The attachment of a force: of what its path names, the nearest to where it is fixed.
const frame::Attachment* find_attachment(const frame::Model& model,
                                         const suspension::FrameForce& force) {
  const frame::Attachment* nearest = nullptr;
  const std::string under = force.path + "/";
  for (const auto& attachment : model.attachments) {
    if (!attachment.path.starts_with(under)) continue;
    const auto far = [&](const frame::Attachment& a) { return (a.p_VoP_V - force.p_VoP_V).norm(); };
    if (nearest == nullptr || far(attachment) < far(*nearest)) nearest = &attachment;
  }
  return nearest;
}

/// An anti-roll bar's couple: on both rails where its axle's line passes.
void lay_couple(const frame::Model& model, const std::string& axle_path, const Vec3& t_V,
                frame::Loads& loads) {
  for (const auto& attachment : model.attachments) {
    if (attachment.kind != frame::AttachmentKind::axle_line || attachment.path != axle_path)
      continue;
    loads.points.push_back({.joint = attachment.joint,
                            .p_VoP_V = attachment.p_VoC_V,
                            .f_P_V = Vec3::Zero(),
                            .t_V = t_V / 2});
  }
}

void add_not_carried(const std::string& path, Diagnostics& faults) {
  faults.push_back({.code = "frame.not_carried",
                    .path = path,
                    .message = "nothing of the frame carries this",
                    .remedy = "give rails that reach to where it is fixed",
                    .at = {}});
}

}  // namespace

Result<frame::Loads> lay_case(const build::Build& build, const frame::Model& model,
                              const FrameCase& of) {
  frame::Seating seating(model, build);
  seating.find(of.burdens);
  return lay_case(seating, of);
}

Result<frame::Loads> lay_case(const frame::Seating& seating, const FrameCase& of) {
  const frame::Model& model = seating.model();
  const Mat3 R_VW = of.settled.X_WV.R_AB.transpose();
  const frame::AccelerationField field{.a_V = R_VW * of.a_W};
  frame::Loads loads = seating.lay(of.burdens, field).loads;
  Diagnostics faults;
  for (const auto& force : suspension::calc_frame_forces(of.truck, of.settled)) {
    if (force.f_F_V.isZero() && !force.t_V.isZero()) {
      lay_couple(model, of.truck.axles[static_cast<std::size_t>(force.axle)].path, force.t_V,
                 loads);
      continue;
    }
    if (force.f_F_V.isZero()) continue;
    const auto* attachment = find_attachment(model, force);
    if (attachment == nullptr) {
      add_not_carried(force.path, faults);
      continue;
    }
    loads.points.push_back({.joint = attachment->joint,
                            .p_VoP_V = force.p_VoF_V,
                            .f_P_V = force.f_F_V,
                            .t_V = force.t_V});
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  for (const auto& pull : of.pulls) {
    frame::lay_on_rails(model, pull.p_VoP_V, R_VW * pull.f_P_W, loads);
  }
  for (const auto& couple : of.couples) {
    if (frame::lay_couple_on_mounts(model, seating.build(), couple.mass_id, R_VW * couple.t_W,
                                    loads))
      continue;
    add_not_carried("/masses/" + couple.mass_id, faults);
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  const frame::AccelerationField relief =
      frame::find_relief(of.burdens, frame::calc_resultant(model.structure, loads));
  frame::Loads inertia = seating.lay(of.burdens, relief).loads;
  loads.points.insert(loads.points.end(), inertia.points.begin(), inertia.points.end());
  return loads;
}

}  // namespace rig::check
