#include "check/moved_plate.h"

#include "check/known_frame.h"
#include "check/loaded_frame.h"
#include "check/report.h"
#include "frame/whole_frame.h"

namespace rig::check {

std::optional<MovedPlate> solve_with_plate_ended(const Subject& subject, const frame::PlateEnd& end,
                                                 double station_m) {
  build::Build moved = subject.build;
  for (auto& plate : moved.frame.plates) {
    if (plate.path == end.plate_path)
      (end.front ? plate.value.from : plate.value.to).si = station_m;
  }
  const auto in = build::planned_parts(moved.frame);
  std::vector<FrameCase> cases;
  if (subject.report.frame->loaded) cases = subject.report.frame->loaded->cases;
  Diagnostics faults;
  const auto loaded =
      load_frame(moved, in, std::move(cases), subject.known_frame.sections(), faults);
  if (!loaded || !faults.empty()) return std::nullopt;
  MovedPlate out;
  if (subject.known_frame.has_axle_lines()) {
    const auto whole = frame::measure_whole_frame(loaded->model, loaded->solver);
    if (whole) out.torsion_Nm_per_rad = whole->torsion.stiffness_Nm_per_rad;
  }
  if (loaded->cases.empty()) return out;
  for (const frame::PlateEnd& other : frame::list_plate_ends(moved, in)) {
    if (other.plate_path != end.plate_path || other.front != end.front) continue;
    const auto forces =
        frame::calc_case_forces(loaded->model->structure, loaded->loads, loaded->responses);
    out.stress = frame::find_end_stresses(loaded->model, std::span(&other, 1), forces).front();
  }
  return out;
}

}  // namespace rig::check
