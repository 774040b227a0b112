#include <algorithm>
#include <cmath>

#include "frame/index_internal.h"
#include "frame/stage_history_internal.h"

namespace rig::frame {

namespace {

/// Finds what is new in one model against a state of another.
class Recorder {
 public:
  Recorder(const StageModels& models, const FrameState& before, const StageModel& with)
      : models_(models), before_(before), was_(before.on->model), with_(with), is_(with.model) {}

  History run() {
    for (std::size_t m = 0; m < is_.structure.members.size(); ++m) {
      const int member = static_cast<int>(m);
      std::vector<int> beams;
      for (std::size_t b = 0; b < is_.beams.size(); ++b) {
        if (is_.structure.beams[b].member == member) beams.push_back(static_cast<int>(b));
      }
      if (beams.empty()) continue;
      if (is_.beams[at(beams.front())].sign != 0) {
        record_rail(beams);
      } else {
        record_crossmember(member, beams);
      }
    }
    return std::move(out_);
  }

 private:
  void record_rail(const std::vector<int>& beams) {
    const BeamPlace& rail = is_.beams[at(beams.front())];
    const std::vector<int> old = beams_of(was_, rail.path, rail.sign);
    for (const int b : beams) {
      const BeamPlace& place = is_.beams[at(b)];
      if (place.plates.empty()) continue;
      for (const int o : old) {
        const BeamPlace& there = was_.beams[at(o)];
        if (!same_stretch(there.begin_m, there.end_m, place.begin_m, place.end_m) ||
            there.plates == place.plates) {
          continue;
        }
        PartHistory part{.path = place.path, .sign = place.sign, .needs = ids_of(place.plates)};
        part.pieces = {make_piece(b, o)};
        out_.push_back(std::move(part));
      }
    }
  }

  void record_crossmember(int member, const std::vector<int>& beams) {
    const BeamPlace& place = is_.beams[at(beams.front())];
    const std::string& id = is_.structure.members[at(member)].id;
    const std::vector<int> old = beams_of(was_, place.path, 0);
    const std::array<int, 2> marks = models_.ends_of(with_, member);
    const Beam &first = is_.structure.beams[at(beams.front())],
               &last = is_.structure.beams[at(beams.back())];
    PartHistory part{.path = place.path, .needs = {id}};
    if (old.empty()) {
      part.ends = {at_mark(marks[0], first.p_VoF_V), at_mark(marks[1], last.p_VoT_V)};
      part.marks = marks;
      out_.push_back(std::move(part));
      return;
    }
    std::vector<std::string> closed;
    for (const int mark : marks) {
      for (const std::string& plate : plates_at(with_.model, mark)) {
        const auto were = plates_at(was_, mark);
        if (std::find(were.begin(), were.end(), plate) == were.end()) closed.push_back(plate);
      }
    }
    // Held as before; or what hangs on it has divided it anew, and it counts as always held so.
    if (closed.empty() || old.size() != beams.size()) return;
    for (const std::string& plate : ids_of(closed)) part.needs.push_back(plate);
    for (std::size_t i = 0; i < beams.size(); ++i) {
      PieceHistory piece = make_piece(beams[i], old[i]);
      if (i == 0) {
        piece.from = at_mark(marks[0], first.p_VoF_V);
        piece.from.rate = 0;
      }
      if (i + 1 == beams.size()) {
        piece.to = at_mark(marks[1], last.p_VoT_V);
        piece.to.rate = 0;
      }
      part.pieces.push_back(std::move(piece));
    }
    out_.push_back(std::move(part));
  }

  static std::vector<std::string> ids_of(const std::vector<std::string>& paths) {
    std::vector<std::string> out;
    for (const std::string& path : paths) out.push_back(path.substr(path.rfind('/') + 1));
    return out;
  }

  std::vector<std::string> plates_at(const Model& model, int mark) const {
    const RailMark& m = models_.marks()[at(mark)];
    std::vector<std::string> out;
    for (const BeamPlace& place : model.beams) {
      const bool here = place.path == m.path && place.sign == m.sign &&
                        (std::abs(place.begin_m - m.station_m) < 2 * kSameNode_m ||
                         std::abs(place.end_m - m.station_m) < 2 * kSameNode_m);
      if (here) out.insert(out.end(), place.plates.begin(), place.plates.end());
    }
    return out;
  }

  EndMoved moved(int joint, const Vec3& p_VoP_V, int warp) const {
    const Response& r = before_.response;
    return {.p_VoP_V = p_VoP_V,
            .displacement_V = calc_displacement(was_.structure, r, joint, p_VoP_V),
            .rotation_V = r.rotation_V[at(joint)],
            .rate = warp < 0 ? 0 : r.scalar[at(warp)]};
  }

  /// How what is welded to the rail now had moved: with the web of an open rail, with the whole
  /// section where a plate has just closed it.
  EndMoved at_mark(int mark, const Vec3& p_VoP_V) const {
    int joint = before_.on->mark_joints[at(mark)];
    const Joint& held = was_.structure.joints[at(joint)];
    const int warp = held.modes.empty() ? -1 : held.modes.front().scalar;
    const bool web_now =
        !with_.model.structure.joints[at(with_.mark_joints[at(mark)])].modes.empty();
    if (warp >= 0 && !web_now) joint = held.follows;
    return moved(joint, p_VoP_V, warp);
  }

  PieceHistory make_piece(int now, int old) const {
    const BeamPlace& place = is_.beams[at(now)];
    const Beam &beam = is_.structure.beams[at(now)], &was = was_.structure.beams[at(old)];
    PieceHistory piece{.begin_m = place.begin_m,
                       .end_m = place.end_m,
                       .from = moved(was.from, beam.p_VoF_V, was.warp_from),
                       .to = moved(was.to, beam.p_VoT_V, was.warp_to)};
    for (const LineLoad& line : before_.loads.lines) {
      if (line.beam == old) piece.lines.push_back(line);
    }
    piece.carried = ends_of(old);
    if (place.sign != 0) {
      // The next ones along the rail, from front to rear.
      if (same_member(old, old + 1)) piece.t_beyond_F_V = ends_of(old + 1).t_T_V;
      if (same_member(old, old - 1)) piece.t_beyond_T_V = ends_of(old - 1).t_F_V;
    }
    piece.p_VoF_V = was.p_VoF_V;
    piece.p_VoT_V = was.p_VoT_V;
    piece.section = was_.structure.sections[at(was.section)];
    piece.forces = before_.forces.forces[at(old)];
    for (const BeamHistory& one : before_.history) {
      if (one.beam == old && one.locked) add_forces(piece.forces, one.locked->forces, 1);
    }
    return piece;
  }

  bool same_member(int a, int b) const {
    return b >= 0 && at(b) < was_.structure.beams.size() &&
           was_.structure.beams[at(a)].member == was_.structure.beams[at(b)].member;
  }

  BeamEnds ends_of(int old) const {
    BeamEnds out = calc_beam_ends(was_.structure, before_.loads, before_.response, old);
    for (const BeamHistory& one : before_.history) {
      if (one.beam == old) add_ends(out, one.ends, 1);
    }
    return out;
  }

  const StageModels& models_;
  const FrameState& before_;
  const Model& was_;
  const StageModel& with_;
  const Model& is_;
  History out_;
};

}  // namespace

void add_history(const StageModels& models, const FrameState& before, const StageModel& with,
                 History& history) {
  for (PartHistory& part : Recorder(models, before, with).run()) {
    history.push_back(std::move(part));
  }
}

}  // namespace rig::frame
