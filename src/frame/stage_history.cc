#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <utility>

#include "frame/index_internal.h"
#include "frame/stage_history_internal.h"

namespace rig::frame {

namespace {

Response no_motion(const Structure& s) {
  return {.displacement_V = std::vector<Vec3>(s.joints.size(), Vec3::Zero()),
          .rotation_V = std::vector<Vec3>(s.joints.size(), Vec3::Zero()),
          .scalar = std::vector<double>(s.scalars.size(), 0)};
}

void move_joint(const Structure& s, int joint, const EndMoved& end, Response& to) {
  to.displacement_V[at(joint)] =
      end.displacement_V + end.rotation_V.cross(s.joints[at(joint)].p_VoJ_V - end.p_VoP_V);
  to.rotation_V[at(joint)] = end.rotation_V;
}

void set_rate(int scalar, double rate, Response& to) {
  if (scalar >= 0) to.scalar[at(scalar)] = rate;
}

/// Makes the loads and the beams' corrections of one model.
class Applier {
 public:
  explicit Applier(const StageModel& on)
      : on_(on), s_(on.model->structure), began_(no_motion(s_)) {}

  AppliedHistory run(const History& history) {
    // By beam: its latest part in the history.
    std::vector<int> latest(s_.beams.size(), -1);
    const BeamsByPart by_part = list_beams();
    for (std::size_t p = 0; p < history.size(); ++p) {
      const PartHistory& part = history[p];
      const auto beams = by_part.find({part.path, part.sign});
      if (beams == by_part.end() || !counts(part)) continue;
      for (const int beam : beams->second) {
        if (part.pieces.empty() || find_piece(part, beam) != nullptr) {
          latest[at(beam)] = static_cast<int>(p);
        }
      }
    }
    std::vector<std::vector<int>> beams(history.size());
    for (std::size_t b = 0; b < latest.size(); ++b) {
      if (latest[b] >= 0) beams[at(latest[b])].push_back(static_cast<int>(b));
    }
    for (std::size_t p = 0; p < history.size(); ++p) {
      if (!beams[p].empty()) apply(history[p], beams[p]);
    }
    return std::move(out_);
  }

 private:
  using BeamsByPart = std::map<std::pair<std::string_view, int>, std::vector<int>>;

  BeamsByPart list_beams() const {
    BeamsByPart out;
    for (std::size_t b = 0; b < s_.beams.size(); ++b) {
      const BeamPlace& place = on_.model->beams[b];
      out[{place.path, place.sign}].push_back(static_cast<int>(b));
    }
    return out;
  }

  bool counts(const PartHistory& part) const {
    return std::all_of(part.needs.begin(), part.needs.end(),
                       [&](const std::string& id) { return on_.in.contains(id); });
  }

  /// The piece of a part that a beam is; null: none.
  const PieceHistory* find_piece(const PartHistory& part, int beam) const {
    const BeamPlace& place = on_.model->beams[at(beam)];
    for (const PieceHistory& piece : part.pieces) {
      if (same_stretch(piece.begin_m, piece.end_m, place.begin_m, place.end_m)) return &piece;
    }
    return nullptr;
  }

  void apply(const PartHistory& part, const std::vector<int>& beams) {
    Loads then;
    for (const int b : beams) {
      const Beam& beam = s_.beams[at(b)];
      const PieceHistory* piece = find_piece(part, b);
      EndMoved from, to;
      if (piece != nullptr) {
        from = piece->from;
        to = piece->to;
        for (LineLoad line : piece->lines) {
          line.beam = b;
          then.lines.push_back(line);
        }
      } else {
        from = b == beams.front() ? at_end(part.ends[0], beam.from, beam.warp_from)
                                  : between(part, beam.p_VoF_V);
        to = b == beams.back() ? at_end(part.ends[1], beam.to, beam.warp_to)
                               : between(part, beam.p_VoT_V);
      }
      begin(beam, from, to);
    }
    for (const int b : beams) {
      BeamHistory one{.beam = b, .less = calc_beam_forces(s_, then, began_, b)};
      const BeamEnds ends = calc_beam_ends(s_, then, began_, b);
      if (part.pieces.empty() && b == beams.front()) hold_where_it_is(part);
      add_ends(one.ends, ends, -1);
      load_back(b, ends);
      if (const PieceHistory* piece = find_piece(part, b)) {
        add_ends(one.ends, piece->carried, 1);
        if (piece->closed) {
          one.locked = LockedForces{b, piece->section, piece->forces};
        } else {
          add_forces(one.less, piece->forces, -1);
        }
        load_carried(b, *piece);
        keep_balance(b, ends, *piece);
      }
      out_.beams.push_back(std::move(one));
    }
    for (const int b : beams) begin(s_.beams[at(b)], {}, {});
  }

  /// Where a beam's ends were when what it carries of the part began.
  void begin(const Beam& beam, const EndMoved& from, const EndMoved& to) {
    move_joint(s_, beam.from, from, began_);
    move_joint(s_, beam.to, to, began_);
    set_rate(beam.warp_from, from.rate, began_);
    set_rate(beam.warp_to, to.rate, began_);
  }

  /// A crossmember's end where it stood when it went in, with the joint's springs and the spring
  /// against its warping at rest.
  EndMoved at_end(EndMoved end, int joint, int warp) const {
    const double rail_rate = end.rate;
    end.rate = 0;
    if (warp >= 0 && s_.scalars[at(warp)].of >= 0) {
      end.rate = s_.scalars[at(warp)].ratio * rail_rate;
    }
    const Joint& held = s_.joints[at(joint)];
    for (const ScalarSpring& spring : s_.scalar_springs) {
      if (warp < 0 || spring.scalars.size() < 2 || spring.scalars[0] != warp) continue;
      rest_with_rail(spring, rail_rate, held, end);
    }
    if (held.follows < 0) return end;
    // What of the joint moves with the rail's warping, besides the web.
    const Joint& web = s_.joints[at(held.follows)];
    for (const Mode& mode : held.modes) {
      if (web.modes.empty() || mode.scalar != web.modes.front().scalar) continue;
      add_mode(mode, rail_rate, held.p_VoJ_V, end);
    }
    return end;
  }

  /// What the crossmember's twist rate, the first scalar of a joint's spring, and what else moves
  /// in the joint are when the rail's, the second, moves and the spring is at rest.
  static void rest_with_rail(const ScalarSpring& spring, double rail_rate, const Joint& held,
                             EndMoved& end) {
    const auto n = static_cast<Eigen::Index>(spring.scalars.size()) - 1;
    Eigen::MatrixXd own(n, n);
    Eigen::VectorXd by_rail(n);
    const auto of = [](Eigen::Index i) { return i == 0 ? 0 : i + 1; };
    for (Eigen::Index i = 0; i < n; ++i) {
      by_rail[i] = spring.stiffness(of(i), 1);
      for (Eigen::Index j = 0; j < n; ++j) own(i, j) = spring.stiffness(of(i), of(j));
    }
    const Eigen::VectorXd rest = own.ldlt().solve(-rail_rate * by_rail);
    end.rate = rest[0];
    for (Eigen::Index i = 1; i < n; ++i) {
      for (const Mode& mode : held.modes) {
        if (mode.scalar != spring.scalars[static_cast<std::size_t>(of(i))]) continue;
        add_mode(mode, rest[i], held.p_VoJ_V, end);
      }
    }
  }

  /// Between its ends, straight: what is between them is without stress in any shape.
  static EndMoved between(const PartHistory& part, const Vec3& p_VoP_V) {
    const EndMoved &left = part.ends[0], &right = part.ends[1];
    const double share = (left.p_VoP_V.y() - p_VoP_V.y()) / (left.p_VoP_V.y() - right.p_VoP_V.y());
    const auto there = [&](const EndMoved& end) {
      return Vec3(end.displacement_V + end.rotation_V.cross(p_VoP_V - end.p_VoP_V));
    };
    return {.p_VoP_V = p_VoP_V,
            .displacement_V = (1 - share) * there(left) + share * there(right),
            .rotation_V = (1 - share) * left.rotation_V + share * right.rotation_V};
  }

  void push(int joint, const Vec3& p_VoP_V, const Vec3& f_V, const Vec3& t_V) {
    out_.loads.points.push_back({.joint = joint, .p_VoP_V = p_VoP_V, .f_P_V = f_V, .t_V = t_V});
  }
  void push(int scalar, double force) {
    if (scalar >= 0 && force != 0) out_.loads.scalars.push_back({scalar, force});
  }

  /// A crossmember that keeps the rails from warping keeps them as warped as they were; what its
  /// joints do against that is at rest there.
  void hold_where_it_is(const PartHistory& part) {
    for (std::size_t i = 0; i < 2; ++i) {
      const Joint& web = s_.joints[at(on_.mark_joints[at(part.marks[i])])];
      if (web.modes.empty()) continue;
      const int warp = web.modes.front().scalar;
      push(warp, on_.holds[at(warp)] * part.ends[i].rate);
      for (const ScalarSpring& spring : s_.scalar_springs) {
        if (spring.member < 0 || spring.scalars != std::vector<int>{warp} ||
            part.path != "/frame/crossmembers/" + s_.members[at(spring.member)].id) {
          continue;
        }
        push(warp, spring.stiffness(0, 0) * part.ends[i].rate);
      }
    }
  }

  /// Undoes what a strain up to when it began would do.
  void load_back(int b, const BeamEnds& ends) {
    const Beam& beam = s_.beams[at(b)];
    push(beam.from, beam.p_VoF_V, -ends.f_F_V, -ends.t_F_V);
    push(beam.to, beam.p_VoT_V, -ends.f_T_V, -ends.t_T_V);
    push(beam.warp_from, -ends.bimoment_from_Nm2);
    push(beam.warp_to, -ends.bimoment_to_Nm2);
  }

  /// What was carried stays. Where what the end hangs on has changed it goes past the springs,
  /// which keep their share of it.
  void load_carried(int b, const PieceHistory& piece) {
    const Beam& beam = s_.beams[at(b)];
    const BeamEnds& c = piece.carried;
    push(piece.from_changed ? root_of(s_, beam.from) : beam.from, piece.p_VoF_V, c.f_F_V, c.t_F_V);
    push(piece.to_changed ? root_of(s_, beam.to) : beam.to, piece.p_VoT_V, c.f_T_V, c.t_T_V);
    if (!piece.from_changed) push(beam.warp_from, c.bimoment_from_Nm2);
    if (!piece.to_changed) push(beam.warp_to, c.bimoment_to_Nm2);
    if (on_.model->beams[at(b)].sign == 0) return;
    if (piece.from_changed) rest_springs(beam.warp_from, piece.from.rate);
    if (piece.to_changed) rest_springs(beam.warp_to, piece.to.rate);
  }

  /// A crossmember that now begins at a box's other wall is shorter: what the rest of it weighed
  /// stays with the rails.
  void keep_balance(int b, const BeamEnds& ends, const PieceHistory& piece) {
    const Beam& beam = s_.beams[at(b)];
    const BeamEnds& c = piece.carried;
    const Vec3 p_VoM_V = (beam.p_VoF_V + beam.p_VoT_V) / 2;
    const Vec3 f_V = c.f_F_V + c.f_T_V - ends.f_F_V - ends.f_T_V;
    const auto turn = [&](const Vec3& p_V, const Vec3& force_V) {
      return Vec3((p_V - p_VoM_V).cross(force_V));
    };
    const Vec3 t_V = c.t_F_V + c.t_T_V + turn(piece.p_VoF_V, c.f_F_V) +
                     turn(piece.p_VoT_V, c.f_T_V) - ends.t_F_V - ends.t_T_V -
                     turn(beam.p_VoF_V, ends.f_F_V) - turn(beam.p_VoT_V, ends.f_T_V);
    for (const int joint : {beam.from, beam.to})
      push(root_of(s_, joint), p_VoM_V, -f_V / 2, -t_V / 2);
  }

  /// Springs at the end of a new box are at rest at the warping that there was.
  void rest_springs(int warp, double rate) {
    if (warp < 0) return;
    for (const ScalarSpring& spring : s_.scalar_springs) {
      for (std::size_t k = 0; k < spring.scalars.size(); ++k) {
        if (spring.scalars[k] != warp) continue;
        for (std::size_t i = 0; i < spring.scalars.size(); ++i) {
          push(spring.scalars[i],
               spring.stiffness(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) * rate);
        }
      }
    }
  }

  const StageModel& on_;
  const Structure& s_;
  Response began_;  ///< All at rest but the beams of the part that is being applied.
  AppliedHistory out_;
};

}  // namespace

int root_of(const Structure& structure, int joint) {
  while (structure.joints[at(joint)].follows >= 0) joint = structure.joints[at(joint)].follows;
  return joint;
}

void add_mode(const Mode& mode, double value, const Vec3& p_VoJ_V, EndMoved& to) {
  const Vec3 rotation_V = value * mode.rotation_V;
  to.displacement_V += value * mode.displacement_V + rotation_V.cross(to.p_VoP_V - p_VoJ_V);
  to.rotation_V += rotation_V;
}

std::vector<int> beams_of(const Model& model, const std::string& path, int sign) {
  std::vector<int> out;
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    if (model.beams[b].sign == sign && model.beams[b].path == path) {
      out.push_back(static_cast<int>(b));
    }
  }
  return out;
}

bool same_stretch(double begin_a_m, double end_a_m, double begin_b_m, double end_b_m) {
  return std::abs(begin_a_m - begin_b_m) < 2 * kSamePlace_m &&
         std::abs(end_a_m - end_b_m) < 2 * kSamePlace_m;
}

void add_forces(BeamForces& to, const BeamForces& more, double share) {
  to.load.axial_N_per_m += share * more.load.axial_N_per_m;
  to.load.shear_N_per_m += share * more.load.shear_N_per_m;
  to.load.moment_Nm_per_m += share * more.load.moment_Nm_per_m;
  to.load.torque_Nm_per_m += share * more.load.torque_Nm_per_m;
  to.axial_N += share * more.axial_N;
  to.shear_N += share * more.shear_N;
  to.moment_Nm += share * more.moment_Nm;
  to.torque_Nm += share * more.torque_Nm;
  to.bimoment_even_Nm2 += share * more.bimoment_even_Nm2;
  to.bimoment_odd_Nm2 += share * more.bimoment_odd_Nm2;
}

void add_ends(BeamEnds& to, const BeamEnds& more, double share) {
  to.f_F_V += share * more.f_F_V;
  to.t_F_V += share * more.t_F_V;
  to.f_T_V += share * more.f_T_V;
  to.t_T_V += share * more.t_T_V;
  to.bimoment_from_Nm2 += share * more.bimoment_from_Nm2;
  to.bimoment_to_Nm2 += share * more.bimoment_to_Nm2;
}

AppliedHistory apply_history(const StageModel& on, const History& history) {
  return Applier(on).run(history);
}

FrameForces calc_frame_forces(const StageModel& on, const Loads& loads, const Response& response,
                              const std::vector<BeamHistory>& history) {
  FrameForces out{calc_all_beam_forces(on.model->structure, loads, response), {}};
  for (const BeamHistory& one : history) {
    add_forces(out.forces[at(one.beam)], one.less, -1);
    if (one.locked) out.locked.push_back(*one.locked);
  }
  return out;
}

}  // namespace rig::frame
