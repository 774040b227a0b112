// A frame without what hangs on it.

#include "frame/bare_frame.h"

#include <gtest/gtest.h>

#include "frame/test_builds_internal.h"
#include "frame/whole_frame.h"

namespace rig::frame {
namespace {

using testing::Json;

WholeFrame measured(const build::Build& build) {
  const Model model = testing::model_of(build);
  return *measure_whole_frame(model, *Solver::make(model.structure));
}

BareFrame bare(const Json& file) { return BareFrame(testing::read(file)); }

TEST(BareFrame, IsAsStiffAsWithAllThatHangsOnIt) {
  Json file = testing::ladder();
  file["frame"]["plates"]["box"] = {
      {"rail", "main"}, {"from", "12 in"}, {"to", "40 in"}, {"thickness", "0.2 in"}};
  const build::Build build = testing::read(file);
  const WholeFrame whole = measured(build), alone = measured(BareFrame(build).build());
  // Beams are exact between any two joints: more of them change nothing.
  EXPECT_NEAR(alone.torsion.stiffness_Nm_per_rad / whole.torsion.stiffness_Nm_per_rad, 1, 1e-8);
  EXPECT_NEAR(alone.bending.stiffness_N_per_m / whole.bending.stiffness_N_per_m, 1, 1e-8);
  EXPECT_NEAR(alone.lozenging.stiffness_N_per_m / whole.lozenging.stiffness_N_per_m, 1, 1e-8);
}

TEST(BareFrame, IsAlikeUntilAPartOrAnAxleLineIsOther) {
  const Json file = testing::ladder();
  const BareFrame frame = bare(file);
  Json other = file;
  other["frame"]["mounts"]["strap"]["station"] = "82 in";
  other["masses"]["cab"]["mass"] = "950 lb";
  other["axles"]["rear"]["track"] = "64 in";
  EXPECT_TRUE(frame == bare(other));
  for (const auto& [path, value] : std::vector<std::pair<const char*, const char*>>{
           {"/frame/rails/main/line/0/station", "-19 in"},
           {"/frame/rails/main/section/depth", "5 in"},
           {"/frame/crossmembers/middle/at/station", "51 in"},
           {"/frame/crossmembers/middle/section/thickness", "0.25 in"},
           {"/frame/steels/mild/yield", "50 ksi"},
           {"/axles/rear/station", "101 in"}}) {
    other = file;
    other[Json::json_pointer(path)] = value;
    EXPECT_FALSE(frame == bare(other)) << path;
  }
  other = file;
  other["frame"]["crossmembers"]["middle"]["fate"] = "comes_out";
  EXPECT_FALSE(frame == bare(other));
}

}  // namespace
}  // namespace rig::frame
