#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "frame/stage_models_internal.h"
#include "frame/stands.h"
#include "frame/worst_places.h"

/// What parts that went in later have not felt. A part is without stress when it goes in, and from
/// then on carries what its ends do further: docs/design/frame-stages.md.
namespace rig::frame {

/// How one end of a beam had moved when its part went in.
struct EndMoved {
  Vec3 p_VoP_V = Vec3::Zero();
  Vec3 displacement_V = Vec3::Zero();
  Vec3 rotation_V = Vec3::Zero();
  double rate = 0;  ///< Twist rate, rad/m.
};

/// A beam that began anew when something about it changed: it keeps what it carried, and carries
/// what its ends do from then on besides.
struct PieceHistory {
  double begin_m = 0, end_m = 0;  ///< As `BeamPlace`.
  EndMoved from, to;
  /// What the end hangs on has changed: its springs keep what they carried.
  bool from_changed = false, to_changed = false;
  std::vector<LineLoad> lines;  ///< On it at that time.
  BeamEnds carried;             ///< What was there before did on its joints,
  Vec3 p_VoF_V = Vec3::Zero();  ///< there
  Vec3 p_VoT_V = Vec3::Zero();  ///< and there;
  BeamForces forces;            ///< and what it carried itself,
  bool closed = false;          ///< which stays in the walls of
  std::shared_ptr<const BeamSection>
      section;  ///< the section that it had before a plate closed it.
};

/// A rail's stretch or a crossmember since a change.
struct PartHistory {
  std::string path;  ///< Of the rail or crossmember.
  int sign = 0;
  std::vector<std::string> needs;    ///< Ids of what must be in for it to count.
  std::array<EndMoved, 2> ends;      ///< Of a crossmember that was not there before: left, right.
  std::array<int, 2> marks{-1, -1};  ///< Where these are.
  std::vector<PieceHistory> pieces;  ///< Of what was there before.
};
using History = std::vector<PartHistory>;

/// What history adds to one beam.
struct BeamHistory {
  int beam = -1;
  BeamEnds ends;    ///< On its joints, besides what its own strain does.
  BeamForces less;  ///< To be taken from what its strain tells.
  std::optional<LockedForces> locked;
};

struct AppliedHistory {
  Loads loads;  ///< That strain the frame so that each part has felt what it has.
  std::vector<BeamHistory> beams;
};

/// A frame at one moment.
struct FrameState {
  const StageModel* on = nullptr;
  Loads weights;
  Loads loads;  ///< Weights, history and stands.
  Response response;
  std::vector<StandPoint> stand_points;
  std::vector<StandForce> stands;  ///< By stand.
  FrameForces forces;
  std::vector<BeamHistory> history;
};

AppliedHistory apply_history(const StageModel& on, const History& history);

/// What is new in `with` against what stood before: goes in without stress.
void add_history(const StageModels& models, const FrameState& before, const StageModel& with,
                 History& history);

/// Forces of all beams under a response with its history.
FrameForces calc_frame_forces(const StageModel& on, const Loads& loads, const Response& response,
                              const std::vector<BeamHistory>& history);

/// Adds what a scalar's value moves a point by, of a joint J that has this mode of it.
void add_mode(const Mode& mode, double value, const Vec3& p_VoJ_V, EndMoved& to);

/// What a joint follows in the end.
int root_of(const Structure& structure, int joint);

/// Beams of a rail's side or of a crossmember, in order.
std::vector<int> beams_of(const Model& model, const std::string& path, int sign);

bool same_stretch(double begin_a_m, double end_a_m, double begin_b_m, double end_b_m);

void add_ends(BeamEnds& to, const BeamEnds& more, double share);
/// Of one section.
void add_forces(BeamForces& to, const BeamForces& more, double share);

}  // namespace rig::frame
