#include "check/frame_drawing.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>

#include "check/frame.h"
#include "check/frame_shape.h"
#include "frame/worst_places.h"

namespace rig::check {
namespace {

constexpr std::size_t kLevels = 5;
/// Of the frame's length: what the greatest displacement is drawn as.
constexpr double kReadable = 1.0 / 30;
/// Points are no further apart than this, m.
constexpr double kApart_m = 0.25;
/// Ends of beams of the two frames nearer to each other than this are one place, m.
constexpr double kSameEnd_m = 1e-4;

/// One of the two frames, solved.
struct Solved {
  const frame::Model& model;
  const frame::Response& response;
  std::vector<frame::BeamForces> forces;
  RigidMotion ride;
  frame::WorstPlace worst;
};

Solved look_at(const LoadedFrame& loaded, std::size_t index) {
  const frame::Response& response = loaded.responses[index];
  return {
      .model = loaded.model,
      .response = response,
      .forces = frame::calc_all_beam_forces(loaded.model->structure, loaded.loads[index], response),
      .ride = find_ride_motion(loaded.model, response),
      .worst = frame::find_worst_places(loaded.model, std::span(&loaded.loads[index], 1),
                                        std::span(&response, 1), 1)
                   .front()};
}

/// A member in one of the frames: its beams, none when it is not in.
struct Part {
  const Solved* in = nullptr;
  std::vector<std::size_t> beams;

  bool is_in() const { return !beams.empty(); }
  const frame::BeamPlace& place(std::size_t beam) const { return in->model.beams[beam]; }

  /// The beam that is nearest to a place (station of a rail, offset of a crossmember).
  std::size_t nearest(double along_m) const {
    const auto far = [&](std::size_t beam) {
      const auto [low, high] = std::minmax(place(beam).begin_m, place(beam).end_m);
      return std::max({low - along_m, along_m - high, 0.0});
    };
    return *std::min_element(beams.begin(), beams.end(),
                             [&](std::size_t a, std::size_t b) { return far(a) < far(b); });
  }

  double share(std::size_t beam, double along_m) const {
    const frame::BeamPlace& of = place(beam);
    const double share = std::clamp((along_m - of.begin_m) / (of.end_m - of.begin_m), 0.0, 1.0);
    return of.runs_back ? 1 - share : share;
  }
};

/// What tells members apart in both frames: the part of the file, and which side's it is.
using Identity = std::pair<std::string, int>;

Identity identity_of(const frame::BeamPlace& place) { return {place.path, place.sign}; }

Part find_part(const Solved* in, const Identity& identity) {
  Part part{.in = in, .beams = {}};
  if (in == nullptr) return part;
  for (std::size_t b = 0; b < in->model.beams.size(); ++b) {
    if (identity_of(in->model.beams[b]) == identity) part.beams.push_back(b);
  }
  return part;
}

/// Ends of the beams of both parts, from the front back or from the left to the right.
std::vector<double> list_ends(const Part& before, const Part& after) {
  std::vector<double> ends;
  for (const Part* part : {&before, &after}) {
    for (const std::size_t beam : part->beams) {
      ends.push_back(part->place(beam).begin_m);
      ends.push_back(part->place(beam).end_m);
    }
  }
  const Part& any = after.is_in() ? after : before;
  const bool falls = any.place(any.beams.front()).end_m < any.place(any.beams.front()).begin_m;
  std::sort(ends.begin(), ends.end());
  const auto same = [](double a, double b) { return b - a < kSameEnd_m; };
  ends.erase(std::unique(ends.begin(), ends.end(), same), ends.end());
  if (falls) std::reverse(ends.begin(), ends.end());
  return ends;
}

/// Axes of a beam's section in V.
struct SectionAxes {
  Vec3 y_V, z_V;

  Vec3 in_V(const Vec2& p) const { return p.x() * y_V + p.y() * z_V; }
};

SectionAxes axes_of(const frame::Beam& beam) {
  const Vec3 x_V = (beam.p_VoT_V - beam.p_VoF_V).normalized();
  const Vec3 y_V = (beam.y_V - x_V * x_V.dot(beam.y_V)).normalized();
  return {y_V, x_V.cross(y_V)};
}

std::array<Vec3, 4> corners_of(const frame::Structure& structure, const frame::Beam& beam) {
  const section::Section& section =
      structure.sections[static_cast<std::size_t>(beam.section)]->section;
  Vec2 low = Vec2::Constant(std::numeric_limits<double>::infinity()), high = -low;
  for (const section::Wall& wall : section.walls) {
    const Vec2& a = section.p_ON[static_cast<std::size_t>(wall.from)];
    const Vec2& b = section.p_ON[static_cast<std::size_t>(wall.to)];
    const Vec2 along = (b - a).normalized();
    const Vec2 half = wall.thickness_m / 2 * Vec2(std::abs(along.y()), std::abs(along.x()));
    low = low.cwiseMin(a - half).cwiseMin(b - half);
    high = high.cwiseMax(a + half).cwiseMax(b + half);
  }
  const SectionAxes axes = axes_of(beam);
  return {axes.in_V(low), axes.in_V({high.x(), low.y()}), axes.in_V(high),
          axes.in_V({low.x(), high.y()})};
}

DrawnMotion motion_at(const Solved& in, std::size_t beam, double share, const Vec3& p_VoP_V) {
  const int index = static_cast<int>(beam);
  const SectionMotion motion = calc_section_motion(in.model.structure, in.response, index, share);
  const auto worst = frame::find_section_stress(in.model, in.forces[beam], {index, share});
  return {.d_V = motion.d_V - in.ride.at(p_VoP_V),
          .r_V = motion.r_V - in.ride.r_V,
          .von_mises_Pa = worst.stress.von_mises_Pa,
          .share_of_yield = worst.stress.von_mises_Pa / worst.yield_Pa};
}

DrawnPiece draw_piece(const Part& before, const Part& after, double from_m, double to_m) {
  const double middle_m = (from_m + to_m) / 2;
  const Part& shown = after.is_in() ? after : before;
  const frame::Structure& structure = shown.in->model.structure;
  const std::size_t own = shown.nearest(middle_m);
  const frame::Beam& beam = structure.beams[own];
  DrawnPiece piece{.p_PK_V = corners_of(structure, beam), .points = {}};
  const int steps = std::max(2, static_cast<int>(std::ceil(std::abs(to_m - from_m) / kApart_m)));
  for (int i = 0; i <= steps; ++i) {
    const double along_m = from_m + (to_m - from_m) * i / steps;
    const double share = shown.share(own, along_m);
    DrawnPoint point{
        .p_VoP_V = beam.p_VoF_V + share * (beam.p_VoT_V - beam.p_VoF_V), .before = {}, .after = {}};
    for (const auto& [part, motion] :
         {std::pair(&before, &point.before), std::pair(&after, &point.after)}) {
      if (!part->is_in()) continue;
      const std::size_t its = part->nearest(middle_m);
      *motion = motion_at(*part->in, its, part->share(its, along_m), point.p_VoP_V);
    }
    piece.points.push_back(std::move(point));
  }
  return piece;
}

DrawnMember draw_member(const Identity& identity, const std::string& words, const Part& before,
                        const Part& after) {
  DrawnMember out{.path = identity.first,
                  .words = words,
                  .before = before.is_in(),
                  .after = after.is_in(),
                  .pieces = {}};
  const std::vector<double> ends = list_ends(before, after);
  for (std::size_t i = 1; i < ends.size(); ++i) {
    out.pieces.push_back(draw_piece(before, after, ends[i - 1], ends[i]));
  }
  return out;
}

DrawnState draw_state(const Solved& in, const FrameCase& of, const Printer& print) {
  const frame::AlongBeam& at = in.worst.at;
  const section::WallPoint& on = in.worst.stress.at;
  const frame::Beam& beam = in.model.structure.beams[static_cast<std::size_t>(at.beam)];
  const section::Section& section =
      in.model.structure.sections[static_cast<std::size_t>(beam.section)]->section;
  const section::Wall& wall = section.walls[static_cast<std::size_t>(on.wall)];
  const Vec2& from = section.p_ON[static_cast<std::size_t>(wall.from)];
  const Vec2& to = section.p_ON[static_cast<std::size_t>(wall.to)];
  const Vec3 p_PW_V = axes_of(beam).in_V(from + on.share * (to - from));
  const Vec3 p_VoW_V = beam.p_VoF_V + at.share * (beam.p_VoT_V - beam.p_VoF_V) + p_PW_V;
  const SectionMotion motion =
      calc_section_motion(in.model.structure, in.response, at.beam, at.share);
  return {.worst = make_stress_place(in.model, in.worst, of.id, print.choices()),
          .p_VoP_V = p_VoW_V,
          .d_V = motion.d_V + motion.r_V.cross(p_PW_V) - in.ride.at(p_VoW_V)};
}

/// Calls with every motion of one of the states.
template <typename Each>
void for_each_motion(std::vector<DrawnMember>& members,
                     std::optional<DrawnMotion> DrawnPoint::*state, const Each& each) {
  for (auto& member : members) {
    for (auto& piece : member.pieces) {
      for (auto& point : piece.points) {
        if (point.*state) each(*(point.*state));
      }
    }
  }
}

double frame_length_m(const frame::Model& model) {
  double front = -std::numeric_limits<double>::infinity(), rear = -front;
  for (const auto& beam : model.structure.beams) {
    front = std::max({front, beam.p_VoF_V.x(), beam.p_VoT_V.x()});
    rear = std::min({rear, beam.p_VoF_V.x(), beam.p_VoT_V.x()});
  }
  return front - rear;
}

/// Sizes that both states share.
void scale(FrameDrawing& drawing, double length_m, const Printer& print) {
  double most_m = 0;
  const auto measure = [&](std::optional<DrawnMotion> DrawnPoint::*state, DrawnState& of) {
    for_each_motion(drawing.members, state, [&](const DrawnMotion& motion) {
      of.most_m = std::max(of.most_m, motion.d_V.norm());
    });
    most_m = std::max(most_m, of.most_m);
  };
  measure(&DrawnPoint::after, drawing.after);
  if (drawing.before) measure(&DrawnPoint::before, *drawing.before);
  drawing.exaggeration = find_exaggeration(most_m, kReadable * length_m);
  const double per_Pa = units::per_si(units::Dimension::kStress, print.choices());
  const double step_Pa =
      round_step_up(drawing.after.worst.von_mises_Pa * per_Pa / kLevels) / per_Pa;
  for (std::size_t i = 0; i < kLevels; ++i) {
    drawing.levels_Pa.push_back(static_cast<double>(i) * step_Pa);
  }
  for (const auto state : {&DrawnPoint::before, &DrawnPoint::after}) {
    for_each_motion(drawing.members, state, [&](DrawnMotion& motion) {
      motion.level =
          std::min(static_cast<int>(kLevels) - 1, static_cast<int>(motion.von_mises_Pa / step_Pa));
    });
  }
}

}  // namespace

FrameDrawing draw_frame(const build::Build& build, const LoadedFrame& loaded, std::size_t index,
                        const Printer& print) {
  const FrameCase& of = loaded.cases[index];
  const Solved after = look_at(loaded, index);
  FrameDrawing drawing{.case_id = of.id, .case_label = of.label};
  drawing.after = draw_state(after, of, print);
  frame::SectionBook book;
  const auto donor =
      load_frame(build, build::donor_parts(build.frame), {of}, book, drawing.left_out);
  std::optional<Solved> before;
  if (!donor) {
    drawing.left_out = donor.error();
  } else if (!donor->cases.empty()) {
    before.emplace(look_at(*donor, 0));
    drawing.before = draw_state(*before, of, print);
  }
  const Solved* was_in = before ? &*before : nullptr;
  std::set<Identity> drawn;
  for (const Solved* in : {was_in, &after}) {
    if (in == nullptr) continue;
    for (std::size_t b = 0; b < in->model.beams.size(); ++b) {
      const Identity identity = identity_of(in->model.beams[b]);
      if (!drawn.insert(identity).second) continue;
      const int member = in->model.structure.beams[b].member;
      drawing.members.push_back(
          draw_member(identity, in->model.structure.members[static_cast<std::size_t>(member)].words,
                      find_part(was_in, identity), find_part(&after, identity)));
    }
  }
  scale(drawing, frame_length_m(after.model), print);
  return drawing;
}

}  // namespace rig::check
