#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "frame/model.h"
#include "frame/plan_internal.h"
#include "frame/solve.h"

/// A build's frame with different parts in, so that one can be compared with another: places on the
/// rails are the same in all.
namespace rig::frame {

/// What is in at some time of a stage.
struct StageSet {
  Selection in;
  bool is_solved = true;  ///< Or only looked at.
};

struct StageModel {
  Selection in;
  Shared<Model> model;
  std::vector<int> mark_joints;  ///< By mark: the joint that carries what is welded to the rail.
  /// By scalar: what holds it in place of holding it at zero, so that it can be held where it is;
  /// 0: nothing.
  std::vector<double> holds;
  std::optional<Solver> solver;  ///< None of one that is not solved.
};

class StageModels {
 public:
  /// @param sets  What is in of the parts, for each model; several may be alike.
  /// @errors      Those of `make_model` and `Solver::make`.
  static Result<StageModels> make(const build::Build& build, const std::vector<StageSet>& sets,
                                  SectionBook& book);

  const StageModel& with(const Selection& in) const;
  const std::vector<RailMark>& marks() const { return marks_; }
  /// The mark of a rail at a station; -1: there is none within twice `kSamePlace_m`.
  int find_mark(const std::string& path, int sign, double station_m) const;
  /// Marks at both ends of a crossmember: left, right.
  std::array<int, 2> ends_of(const StageModel& on, int member) const;

 private:
  std::vector<RailMark> marks_;  ///< At which every model has joints.
  std::map<Selection, StageModel> models_;
};

}  // namespace rig::frame
