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
  /// What a plate has just closed, and what goes on from it: that hangs on the end of a box now.
  void record_rail(const std::vector<int>& beams) {
    const BeamPlace& rail = is_.beams[at(beams.front())];
    const std::vector<int> old = beams_of(was_, rail.path, rail.sign);
    const auto old_of = [&](int b) {
      const BeamPlace& place = is_.beams[at(b)];
      const auto found = std::find_if(old.begin(), old.end(), [&](int o) {
        const BeamPlace& there = was_.beams[at(o)];
        return same_stretch(there.begin_m, there.end_m, place.begin_m, place.end_m);
      });
      return found == old.end() ? -1 : *found;
    };
    // Along the rail, from front to rear.
    std::vector<char> closed(beams.size(), 0);
    for (std::size_t i = 0; i < beams.size(); ++i) {
      const int o = old_of(beams[i]);
      const auto& plates = is_.beams[at(beams[i])].plates;
      closed[i] = o >= 0 && !plates.empty() && was_.beams[at(o)].plates != plates ? 1 : 0;
    }
    for (std::size_t i = 0; i < beams.size(); ++i) {
      const bool front = i > 0 && closed[i - 1] != 0;
      const bool rear = i + 1 < beams.size() && closed[i + 1] != 0;
      const int o = old_of(beams[i]);
      if (o < 0 || !(closed[i] != 0 || front || rear)) continue;
      PieceHistory piece = make_piece(beams[i], o);
      piece.closed = closed[i] != 0;
      piece.from_changed = piece.closed || rear;
      piece.to_changed = piece.closed || front;
      const Beam &beam = is_.structure.beams[at(beams[i])], &was = was_.structure.beams[at(o)];
      if (piece.from_changed) {
        piece.from = at_box(beam.from, beam.warp_from, was.from, was.warp_from);
      }
      if (piece.to_changed) piece.to = at_box(beam.to, beam.warp_to, was.to, was.warp_to);
      PartHistory part{.path = rail.path, .sign = rail.sign};
      const auto need = [&](std::size_t k) {
        for (std::string& id : ids_of(is_.beams[at(beams[k])].plates)) {
          part.needs.push_back(std::move(id));
        }
      };
      if (piece.closed) need(i);
      if (front) need(i - 1);
      if (rear) need(i + 1);
      part.pieces.push_back(std::move(piece));
      out_.push_back(std::move(part));
    }
  }

  /// How a joint at a box that there is now would have moved: with the whole section, and with what
  /// the warping that there was does to the end of an open rail.
  EndMoved at_box(int joint, int warp, int old_joint, int old_warp) const {
    const Joint& now = is_.structure.joints[at(joint)];
    EndMoved end = moved(root_of(was_.structure, old_joint), now.p_VoJ_V, old_warp);
    for (const Mode& mode : now.modes) {
      if (warp >= 0 && mode.scalar == warp) add_mode(mode, end.rate, now.p_VoJ_V, end);
    }
    return end;
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
    std::array<bool, 2> changed{};
    for (std::size_t end = 0; end < 2; ++end) {
      const auto were = plates_at(was_, marks[end]);
      for (const std::string& plate : plates_at(is_, marks[end])) {
        if (std::find(were.begin(), were.end(), plate) != were.end()) continue;
        closed.push_back(plate);
        changed[end] = true;
      }
    }
    // Held as before; or what hangs on it has divided it anew, and it counts as always held so.
    if (closed.empty() || old.size() != beams.size()) return;
    for (std::string& plate : ids_of(closed)) part.needs.push_back(std::move(plate));
    for (std::size_t i = 0; i < beams.size(); ++i) {
      PieceHistory piece = make_piece(beams[i], old[i]);
      if (i == 0 && changed[0]) {
        piece.from = at_mark(marks[0], first.p_VoF_V);
        piece.from.rate = 0;
        piece.from_changed = true;
      }
      if (i + 1 == beams.size() && changed[1]) {
        piece.to = at_mark(marks[1], last.p_VoT_V);
        piece.to.rate = 0;
        piece.to_changed = true;
      }
      part.pieces.push_back(std::move(piece));
    }
    out_.push_back(std::move(part));
  }

  static std::vector<std::string> ids_of(const std::vector<std::string>& paths) {
    std::vector<std::string> out;
    out.reserve(paths.size());
    for (const std::string& path : paths) out.push_back(path.substr(path.rfind('/') + 1));
    return out;
  }

  std::vector<std::string> plates_at(const Model& model, int mark) const {
    const RailMark& m = models_.marks()[at(mark)];
    std::vector<std::string> out;
    for (const BeamPlace& place : model.beams) {
      const bool here = place.path == m.path && place.sign == m.sign &&
                        (std::abs(place.begin_m - m.station_m) < 2 * kSamePlace_m ||
                         std::abs(place.end_m - m.station_m) < 2 * kSamePlace_m);
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
        !with_.model->structure.joints[at(with_.mark_joints[at(mark)])].modes.empty();
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
    piece.p_VoF_V = was.p_VoF_V;
    piece.p_VoT_V = was.p_VoT_V;
    piece.section = was_.structure.sections[at(was.section)].pointer();
    piece.forces = before_.forces.forces[at(old)];
    for (const BeamHistory& one : before_.history) {
      if (one.beam == old && one.locked) add_forces(piece.forces, one.locked->forces, 1);
    }
    return piece;
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
