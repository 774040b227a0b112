#include <algorithm>
#include <cmath>
#include <limits>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/stage_state_internal.h"
#include "frame/stiffness.h"
#include "geometry/rigid_motion.h"

namespace rig::frame {

namespace {

Failure at_stage(Diagnostics faults, const std::string& path) {
  for (Diagnostic& fault : faults) {
    if (fault.path.starts_with("/stands")) {
      fault.path = path + fault.path;
    } else if (!fault.path.starts_with("/frame")) {
      fault.path = path;
    }
  }
  return Failure{std::move(faults)};
}

/// Takes out the rigid motion of some points on the mean.
void level(const Structure& structure, const std::vector<JointPoint>& points, Response& response) {
  std::vector<Vec3> p_VoP_V, d_P_V;
  for (const JointPoint& p : points) {
    p_VoP_V.push_back(p.p_VoP_V);
    d_P_V.push_back(calc_displacement(structure, response, p.joint, p.p_VoP_V));
  }
  const RigidMotion motion = fit_rigid_motion(p_VoP_V, d_P_V);
  add_rigid_motion(structure, Vec3::Zero(), -motion.d_Vo_V, -motion.r_V, response);
}

/// What a frame on its wheels is seen from: the axle lines, or all of the rails without them.
std::vector<JointPoint> list_level_points(const StageModels& models, const StageModel& on) {
  std::vector<JointPoint> points;
  for (const Attachment& one : on.model->attachments) {
    if (one.kind == AttachmentKind::axle_line) points.push_back({one.joint, one.p_VoP_V});
  }
  if (points.size() > 3) return points;
  points.clear();
  for (std::size_t i = 0; i < models.marks().size(); ++i) {
    points.push_back({on.mark_joints[i], models.marks()[i].p_VoP_V});
  }
  return points;
}

/// A pair of points, left and right, at one station.
struct Pair {
  const Attachment* left = nullptr;
  const Attachment* right = nullptr;
};

/// The foremost and the rearmost pair of a kind; none when these are one.
std::optional<std::array<Pair, 2>> find_pairs(const Model& model, AttachmentKind kind,
                                              const std::string& path) {
  constexpr double kOneStation_m = 1e-3;
  std::optional<std::array<Pair, 2>> out;
  for (const Attachment& left : model.attachments) {
    for (const Attachment& right : model.attachments) {
      const auto fits = [&](const Attachment& one, int sign) {
        return one.kind == kind && one.sign == sign && one.path.starts_with(path);
      };
      if (!fits(left, 1) || !fits(right, -1)) continue;
      if (std::abs(left.p_VoP_V.x() - right.p_VoP_V.x()) > kOneStation_m) continue;
      if (!out) out = {Pair{&left, &right}, Pair{&left, &right}};
      if (left.p_VoP_V.x() > (*out)[0].left->p_VoP_V.x()) (*out)[0] = {&left, &right};
      if (left.p_VoP_V.x() < (*out)[1].left->p_VoP_V.x()) (*out)[1] = {&left, &right};
    }
  }
  if (!out || (*out)[0].left == (*out)[1].left) return std::nullopt;
  return out;
}

Vec3 attachment_moved(const FrameState& state, const Attachment& like) {
  const auto& all = state.on->model->attachments;
  const auto found = std::find_if(all.begin(), all.end(), [&](const Attachment& one) {
    return one.kind == like.kind && one.path == like.path && one.sign == like.sign;
  });
  RIG_REQUIRE(found != all.end());
  return calc_displacement(state.on->model->structure, state.response, found->joint,
                           found->p_VoP_V);
}

StressPlace make_place(const Model& model, const WorstPlace& worst,
                       const units::UnitChoices& units) {
  const BeamPlace& beam = model.beams[at(worst.at.beam)];
  return {.path = beam.path,
          .sign = beam.sign,
          .along_m = place_along_m(model, worst.at),
          .words = describe_place(model, worst.at, worst.stress.at, units),
          .von_mises_Pa = worst.stress.von_mises_Pa,
          .yield_Pa = worst.yield_Pa,
          .near_joint = worst.near_joint,
          .distorts = worst.distorts};
}

}  // namespace

bool is_same(const FrameState& a, const FrameState& b) {
  const auto same_point = [](const PointLoad& p, const PointLoad& q) {
    return p.joint == q.joint && p.p_VoP_V == q.p_VoP_V && p.f_P_V == q.f_P_V && p.t_V == q.t_V;
  };
  const auto same_line = [](const LineLoad& p, const LineLoad& q) {
    return p.beam == q.beam && p.f_per_m_V == q.f_per_m_V && p.p_OP == q.p_OP;
  };
  const auto same_scalar = [](const ScalarLoad& p, const ScalarLoad& q) {
    return p.scalar == q.scalar && p.force == q.force;
  };
  const auto same_stand = [](const StandPoint& p, const StandPoint& q) {
    return p.joint == q.joint && p.p_VoP_V == q.p_VoP_V;
  };
  return a.on == b.on && std::ranges::equal(a.weights.points, b.weights.points, same_point) &&
         std::ranges::equal(a.weights.lines, b.weights.lines, same_line) &&
         std::ranges::equal(a.weights.scalars, b.weights.scalars, same_scalar) &&
         std::ranges::equal(a.stand_points, b.stand_points, same_stand);
}

Result<FrameState> solve_state(const build::Build& build, std::size_t stage,
                               const StageModels& models, const Selection& in,
                               const History& history, const WeightsOf& weights,
                               const StageOptions& options, const FrameState* last) {
  const auto& entry = build.frame.stages[stage];
  FrameState state{.on = &models.with(in)};
  const StageModel& on = *state.on;
  RIG_REQUIRE(on.solver);
  auto laid = weights(on.model, stage);
  if (!laid) return Failure{laid.error()};
  state.weights = *std::move(laid);
  if (!entry.value.stands.empty()) {
    auto stands = find_stands(build, stage, on.model);
    if (!stands) return Failure{stands.error()};
    state.stand_points = *std::move(stands);
  }
  if (last != nullptr && is_same(*last, state)) {
    FrameState same = *last;
    same.stand_points = std::move(state.stand_points);
    return same;
  }
  AppliedHistory applied = apply_history(on, history);
  Loads loads = state.weights;
  const auto append = [](auto& to, const auto& from) {
    to.insert(to.end(), from.begin(), from.end());
  };
  append(loads.points, applied.loads.points);
  append(loads.scalars, applied.loads.scalars);
  if (state.stand_points.empty()) {
    auto responses = on.solver->solve({&loads, 1});
    if (!responses) return at_stage(responses.error(), entry.path);
    state.response = std::move(responses->front());
    level(on.model->structure, list_level_points(models, on), state.response);
    state.loads = std::move(loads);
  } else {
    auto standing = solve_stands(*on.solver, loads, state.stand_points, options.units);
    if (!standing) return at_stage(standing.error(), entry.path);
    state.stands = std::move(standing->stands);
    state.response = std::move(standing->response);
    state.loads = std::move(standing->loads);
  }
  state.history = std::move(applied.beams);
  state.forces = calc_frame_forces(on, state.loads, state.response, state.history);
  return state;
}

section::SectionForces total_forces(const FrameState& state, int beam, double share) {
  section::SectionForces out = state.forces.forces[at(beam)].at(share);
  for (const LockedForces& one : state.forces.locked) {
    if (one.beam != beam) continue;
    const section::SectionForces more = one.forces.at(share);
    out.axial_N += more.axial_N;
    out.shear_y_N += more.shear_y_N;
    out.shear_z_N += more.shear_z_N;
    out.moment_y_Nm += more.moment_y_Nm;
    out.moment_z_Nm += more.moment_z_Nm;
    out.torque_St_Venant_Nm += more.torque_St_Venant_Nm;
    out.torque_warping_Nm += more.torque_warping_Nm;
    out.bimoment_Nm2 += more.bimoment_Nm2;
  }
  return out;
}

Vec3 mark_moved(const StageModels& models, const FrameState& state, int mark) {
  return calc_displacement(state.on->model->structure, state.response,
                           state.on->mark_joints[at(mark)], models.marks()[at(mark)].p_VoP_V);
}

StageStress find_stage_stress(const FrameState& state, const units::UnitChoices& units) {
  const Model& model = state.on->model;
  StageStress out;
  const auto [worst, closest] = find_worst_both(model, {&state.forces, 1}, 1);
  RIG_REQUIRE(!worst.empty());
  out.worst = make_place(model, worst.front(), units);
  if (!closest.empty()) out.closest_to_yield = make_place(model, closest.front(), units);
  out.yields_known =
      std::none_of(model.beams.begin(), model.beams.end(), [](const BeamPlace& beam) {
        return std::isnan(beam.yield_Pa) ||
               (!beam.plates.empty() && std::isnan(beam.plate_yield_Pa));
      });
  return out;
}

HeightChange find_height_change(const StageModels& models, const FrameState& before,
                                const FrameState& after, const units::UnitChoices& units) {
  double front_m = std::numeric_limits<double>::infinity(), rear_m = -front_m;
  const bool standing = !after.stand_points.empty();
  for (const StandPoint& stand : after.stand_points) {
    front_m = std::min(front_m, -stand.p_VoP_V.x());
    rear_m = std::max(rear_m, -stand.p_VoP_V.x());
  }
  constexpr double kMore = 1 + 1e-9;
  HeightChange out;
  int found = -1;
  for (std::size_t i = 0; i < models.marks().size(); ++i) {
    const RailMark& mark = models.marks()[i];
    if (standing && (mark.station_m < front_m || mark.station_m > rear_m)) continue;
    const double change_m = mark_moved(models, after, static_cast<int>(i)).z() -
                            mark_moved(models, before, static_cast<int>(i)).z();
    // Of two alike, as by symmetry, the first.
    if (found >= 0 && !(std::abs(change_m) > kMore * std::abs(out.change_m))) continue;
    found = static_cast<int>(i);
    out.rail = mark.path;
    out.sign = mark.sign;
    out.station_m = mark.station_m;
    out.change_m = change_m;
  }
  const Model& model = after.on->model;
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const BeamPlace& place = model.beams[b];
    if (place.path != out.rail || place.sign != out.sign) continue;
    if (std::abs(place.begin_m - out.station_m) < 2 * kSamePlace_m) {
      out.words = describe_place(model, {static_cast<int>(b), place.runs_back ? 1.0 : 0.0}, units);
    } else if (std::abs(place.end_m - out.station_m) < 2 * kSamePlace_m) {
      out.words = describe_place(model, {static_cast<int>(b), place.runs_back ? 0.0 : 1.0}, units);
    }
  }
  return out;
}

std::optional<DiagonalChange> calc_diagonal_change(const FrameState& before,
                                                   const FrameState& after,
                                                   const std::string& stage_path) {
  const Model& model = before.on->model;
  auto pairs = find_pairs(model, AttachmentKind::axle_line, "");
  DiagonalChange out{.at_axles = pairs.has_value()};
  if (!pairs) pairs = find_pairs(model, AttachmentKind::stand, stage_path + "/stands/");
  if (!pairs) return std::nullopt;
  const auto& [front, rear] = *pairs;
  out.front_m = -front.left->p_VoP_V.x();
  out.rear_m = -rear.left->p_VoP_V.x();
  // To first order in the displacements.
  const auto change_m = [&](const Attachment& a, const Attachment& b) {
    const Vec3 moved_a = attachment_moved(after, a) - attachment_moved(before, a);
    const Vec3 moved_b = attachment_moved(after, b) - attachment_moved(before, b);
    return (a.p_VoP_V - b.p_VoP_V).normalized().dot(moved_a - moved_b);
  };
  out.left_front_m = change_m(*front.left, *rear.right);
  out.right_front_m = change_m(*front.right, *rear.left);
  return out;
}

}  // namespace rig::frame
