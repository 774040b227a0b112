#pragma once

#include <string>

#include "frame/model.h"
#include "section/stress.h"
#include "units/quantity.h"

/// Places of a frame in the shop's words.
namespace rig::frame {

/// A place along a beam of a model.
struct AlongBeam {
  int beam = -1;
  double share = 0;  ///< Of its length from `from`, 0 to 1.
};

/// Station of a place on a rail; offset of one on a crossmember, m.
double place_along_m(const Model& model, const AlongBeam& at);

/// "left frame rail, 2 in ahead of the gearbox crossmember"; "tank crossmember, 3 in left of the
/// middle".
std::string describe_place(const Model& model, const AlongBeam& at,
                           const units::UnitChoices& units);

/// "lower flange, at its edge"; of a round tube "upper rear".
std::string describe_wall(const Model& model, int beam, const section::WallPoint& at);

/// "left frame rail, lower flange, 2 in ahead of the gearbox crossmember".
std::string describe_place(const Model& model, const AlongBeam& at, const section::WallPoint& wall,
                           const units::UnitChoices& units);

}  // namespace rig::frame
