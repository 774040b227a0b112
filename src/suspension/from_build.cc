#include "suspension/from_build.h"

#include <cmath>

#include "suspension/axle_draft_internal.h"

namespace rig::suspension {
namespace {

/// Where the wheel centres are, and the numbers of the axle as a whole.
void place_axle(AxleDraft& draft) {
  const build::Axle& axle = draft.axle.value;
  const std::string& path = draft.axle.path;
  AxleModel& model = draft.model();
  model.id = draft.axle.id;
  model.path = path;
  model.front = axle.end == build::End::kFront;
  const bool station = draft.have(axle.station, path + "/station", "station of the wheel line",
                                  "everything about this axle's movement");
  const bool height = draft.have(axle.height, path + "/height", "height of the wheel centres",
                                 "everything about this axle's movement");
  draft.placed = station && height;
  if (draft.placed) model.p_VC = Vec3(-axle.station.si, 0, axle.height.si);
  if (height) model.loaded_radius_m = axle.height.si;
  if (draft.have(axle.track, path + "/track", "track", "wheel loads and roll")) {
    model.track_m = axle.track.si;
  }
}

}  // namespace

std::vector<Side> sides(bool both_sides) {
  if (both_sides) return {{+1, ".left"}, {-1, ".right"}};
  return {{0, ""}};
}

int side_of(const Vec3& p_V) { return p_V.y() > 0.02 ? 1 : p_V.y() < -0.02 ? -1 : 0; }

void AxleDraft::lack(const std::string& path, std::string what, std::string needed) {
  out.missing.push_back({path, std::move(what), std::move(needed)});
}

bool AxleDraft::have_point(const build::Point& point, const std::string& path, const char* what,
                           const char* needed) {
  if (point.known()) return true;
  lack(path, what, needed);
  return false;
}

Result<AxleFromBuild> axle_from_build(const build::Entry<build::Axle>& axle) {
  AxleDraft draft{.axle = axle};
  place_axle(draft);
  for (const auto& link : axle.value.links) draft.add_link(link);
  for (const auto& arm : axle.value.arms) draft.add_arm(arm);
  for (const auto& leaf : axle.value.leaf_packs) draft.add_leaf(leaf);
  for (const auto& coil : axle.value.coils) draft.add_coil(coil);
  for (const auto& stop : axle.value.bump_stops) draft.add_stop(stop);
  for (const auto& shock : axle.value.dampers) draft.add_shock(shock);
  for (const auto& bar : axle.value.anti_roll_bars) draft.add_roll_bar(bar);
  draft.assemble_compliance();
  if (draft.faults.empty()) draft.judge_restraint();
  if (!draft.faults.empty()) return Failure{draft.faults};
  AxleFromBuild& out = draft.out;
  const AxleModel& model = out.model;
  out.has_springs = draft.springs_complete && (!model.coils.empty() || !model.leaf_halves.empty());
  out.ready_to_settle = out.has_linkage && out.has_springs && !std::isnan(model.track_m) &&
                        !std::isnan(model.loaded_radius_m);
  return std::move(out);
}

}  // namespace rig::suspension
