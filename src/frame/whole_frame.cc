#include "frame/whole_frame.h"

#include <fmt/format.h>

#include <algorithm>

namespace rig::frame {
namespace {

JointPoint point_of(const Attachment& attachment) {
  return {.joint = attachment.joint, .p_VoP_V = attachment.p_VoC_V};
}

/// Attachments of one kind on one side, from the front.
std::vector<const Attachment*> find_all(const Model& model, AttachmentKind kind, int sign) {
  std::vector<const Attachment*> out;
  for (const Attachment& attachment : model.attachments) {
    if (attachment.kind == kind && attachment.sign == sign) out.push_back(&attachment);
  }
  std::sort(out.begin(), out.end(), [](const Attachment* a, const Attachment* b) {
    return a->p_VoP_V.x() > b->p_VoP_V.x();
  });
  return out;
}

std::vector<double> calc_shares(const Solver& solver, const Measurement& measured,
                                double stiffness) {
  std::vector<double> shares =
      calc_member_energy_J(solver.structure(), measured.loads, measured.response);
  // Under a unit load the energy is 1/2 of 1 over the stiffness.
  for (double& share : shares) share *= 2 * stiffness;
  return shares;
}

}  // namespace

Result<MeasuringPoints> find_measuring_points(const Model& model) {
  std::vector<const Attachment*> lines[2], middles[2];
  for (const int side : {0, 1}) {
    const int sign = side == 0 ? 1 : -1;
    lines[side] = find_all(model, AttachmentKind::axle_line, sign);
    middles[side] = find_all(model, AttachmentKind::middle, sign);
    if (lines[side].size() == 2 && middles[side].size() == 1) continue;
    return fail("frame.no_axle_line", "/axles",
                fmt::format("The {} rail does not pass under both axle lines, which a frame's "
                            "stiffness is measured between.",
                            side == 0 ? "left" : "right"),
                "Give the stations of both axles, and rails on both sides that reach past them.");
  }
  return MeasuringPoints{.front_left = point_of(*lines[0][0]),
                         .front_right = point_of(*lines[1][0]),
                         .rear_left = point_of(*lines[0][1]),
                         .rear_right = point_of(*lines[1][1]),
                         .middle_left = point_of(*middles[0][0]),
                         .middle_right = point_of(*middles[1][0])};
}

Result<WholeFrame> measure_whole_frame(const Model& model, const Solver& solver) {
  const auto points = find_measuring_points(model);
  if (!points) return Failure{points.error()};
  auto torsion = solve_torsion_stiffness(solver, *points);
  if (!torsion) return Failure{torsion.error()};
  auto bending = solve_bending_stiffness(solver, *points, &*torsion);
  if (!bending) return Failure{bending.error()};
  auto lozenging = solve_lozenging_stiffness(solver, *points);
  if (!lozenging) return Failure{lozenging.error()};
  WholeFrame out{.torsion = *std::move(torsion),
                 .bending = *std::move(bending),
                 .lozenging = *std::move(lozenging),
                 .torsion_shares = {},
                 .bending_shares = {},
                 .lozenging_shares = {}};
  out.torsion_shares = calc_shares(solver, out.torsion.measured, out.torsion.stiffness_Nm_per_rad);
  out.bending_shares = calc_shares(solver, out.bending.measured, out.bending.stiffness_N_per_m);
  out.lozenging_shares =
      calc_shares(solver, out.lozenging.measured, out.lozenging.stiffness_N_per_m);
  return out;
}

}  // namespace rig::frame
