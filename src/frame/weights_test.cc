// Masses on a frame: nothing of their weight or of its moment is lost on the way.

#include "frame/weights.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "frame/test_builds_internal.h"
#include "tests/support/random_values.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using units::kInch_m;

/// What a burden should leave: its force, and its moment about Vo.
bool keeps_resultant(const Model& model, const build::Build& build,
                     const std::vector<Burden>& burdens, const AccelerationField& field) {
  const Resultant got =
      calc_resultant(model.structure, lay_burdens(model, build, burdens, field).loads);
  Vec3 f = Vec3::Zero(), t = Vec3::Zero();
  double size = 0;
  for (const Burden& burden : burdens) {
    const Vec3 a_V = field.at(burden.p_VoCm_V);
    f -= burden.mass_kg * a_V;
    t -= burden.mass_kg * burden.p_VoCm_V.cross(a_V);
    size += burden.mass_kg * (1 + a_V.norm());
  }
  return (got.f_V - f).norm() <= 1e-10 * size && (got.t_Vo_V - t).norm() <= 1e-10 * size;
}

Vec3 random_vector() {
  return {test::real(-4000, 4000), test::real(-4000, 4000), test::real(-4000, 4000)};
}

RC_GTEST_PROP(Burdens, CoupleOnMountsIsThatCouple, ()) {
  const build::Build build = testing::read(testing::ladder());
  const Model model = testing::model_of(build);
  const Vec3 t_V = random_vector();
  Loads loads;
  RC_ASSERT(lay_couple_on_mounts(model, build, "cab", t_V, loads));
  const Resultant got = calc_resultant(model.structure, loads);
  RC_ASSERT(got.f_V.norm() < 1e-10 * (1 + t_V.norm()));
  RC_ASSERT((got.t_Vo_V - t_V).norm() < 1e-10 * (1 + t_V.norm()));
  RC_ASSERT(!lay_couple_on_mounts(model, build, "nobody", t_V, loads));
}

RC_GTEST_PROP(Burdens, LeaveTheirOwnResultant, ()) {
  const build::Build build = testing::read(testing::ladder());
  const Model model = testing::model_of(build);
  std::vector<Burden> burdens;
  for (const char* id : {"cab", "tank", "spare", "chest"}) {
    burdens.push_back(
        {.id = id,
         .mass_kg = test::real(1000, 500000),
         .p_VoCm_V = {test::real(-4000, 1000), test::real(-1000, 1000), test::real(0, 2000)},
         .length_m = id[0] == 's' ? 0 : test::real(0, 3000)});
  }
  const AccelerationField field{random_vector(), random_vector(), random_vector()};
  RC_ASSERT(keeps_resultant(model, build, burdens, field));

  const Resultant loaded =
      calc_resultant(model.structure, lay_burdens(model, build, burdens, field).loads);
  const AccelerationField relief = find_relief(burdens, loaded);
  const Resultant relieved =
      calc_resultant(model.structure, lay_burdens(model, build, burdens, relief).loads);
  const double size = 1 + loaded.f_V.norm() + loaded.t_Vo_V.norm();
  RC_ASSERT((loaded.f_V + relieved.f_V).norm() < 1e-8 * size);
  RC_ASSERT((loaded.t_Vo_V + relieved.t_Vo_V).norm() < 1e-8 * size);
}

TEST(Burdens, FourMountsShareByTheLever) {
  const build::Build build = testing::read(testing::ladder());
  const Model model = testing::model_of(build);
  // 40 in lies a third of the way from the front mounts to the rear ones.
  const std::vector<Burden> cab{{.id = "cab", .mass_kg = 300, .p_VoCm_V = {-40 * kInch_m, 0, 1.2}}};
  const Burdened laid = lay_burdens(model, build, cab, {.a_V = {0, 0, 10}});
  EXPECT_EQ(laid.bearings.front(), Bearing::mounts);
  ASSERT_EQ(laid.loads.points.size(), 4U);
  for (const PointLoad& point : laid.loads.points) {
    const bool front = point.p_VoP_V.x() > -40 * kInch_m;
    EXPECT_NEAR(point.f_P_V.z(), front ? -1000 : -500, 1e-6);
    EXPECT_NEAR(point.f_P_V.head<2>().norm(), 0, 1e-6);
    EXPECT_NEAR(point.t_V.norm(), 0, 1e-6);
  }
}

TEST(Burdens, OneMountTakesTheCouple) {
  const build::Build build = testing::read(testing::ladder());
  const Model model = testing::model_of(build);
  const std::vector<Burden> tank{
      {.id = "tank", .mass_kg = 50, .p_VoCm_V = {-90 * kInch_m, 20 * kInch_m, 0.6}}};
  const Burdened laid = lay_burdens(model, build, tank, {.a_V = {0, 0, 10}});
  ASSERT_EQ(laid.loads.points.size(), 1U);
  EXPECT_NEAR(laid.loads.points[0].f_P_V.z(), -500, 1e-9);
  // 4 in outside of its mount and 10 in behind it: r x f.
  EXPECT_NEAR(laid.loads.points[0].t_V.x(), -500 * 4 * kInch_m, 1e-6);
  EXPECT_NEAR(laid.loads.points[0].t_V.y(), -500 * 10 * kInch_m, 1e-6);
}

TEST(Burdens, WithoutMountsLieOnBothRails) {
  const build::Build build = testing::read(testing::ladder());
  const Model model = testing::model_of(build);
  // 8 in left of the middle of rails at 16 in: three quarters on the left one.
  const std::vector<Burden> chest{{.id = "chest",
                                   .mass_kg = 100,
                                   .p_VoCm_V = {-50 * kInch_m, 8 * kInch_m, 0.9},
                                   .length_m = 40 * kInch_m}};
  const Burdened laid = lay_burdens(model, build, chest, {.a_V = {0, 0, 10}});
  EXPECT_EQ(laid.bearings.front(), Bearing::along_rails);
  double left = 0, front_most = -1e9, rear_most = 1e9;
  for (const PointLoad& point : laid.loads.points) {
    if (point.p_VoP_V.y() > 0) left -= point.f_P_V.z();
    front_most = std::max(front_most, point.p_VoP_V.x());
    rear_most = std::min(rear_most, point.p_VoP_V.x());
  }
  EXPECT_NEAR(left, 750, 1e-6);
  // At ends of beams no further away than the next thing along the rail: the axle lines.
  EXPECT_LT(front_most, 1e-9);
  EXPECT_GT(rear_most, -101 * kInch_m);
}

// A mount is there while the crossmember that it hangs on is; on a rail the makers' is until all
// that is planned is in.
TEST(Mounts, OfACaseMustHoldItEveryWay) {
  testing::Json file = testing::ladder();
  for (const auto& [id, station, fate] :
       {std::tuple("old", "70 in", "comes_out"), std::tuple("new", "72 in", "goes_in")}) {
    testing::Json part = file["frame"]["crossmembers"]["middle"];
    part["at"]["station"] = station;
    part["fate"] = fate;
    file["frame"]["crossmembers"][id] = part;
  }
  file["frame"]["stages"] = {{"out", {{"take_out", {"old"}}}}, {"in", {{"put_in", {"new"}}}}};
  const auto place = [](const char* station, const char* offset) {
    return testing::Json{{"station", station}, {"offset", offset}, {"height", "20 in"}};
  };
  const auto mount = [&](const char* station, const char* offset, bool both_sides) {
    return testing::Json{{"segment", "engine"},
                         {"at", place(station, offset)},
                         {"both_sides", both_sides},
                         {"compression", "2000 lbf/in"}};
  };
  file["masses"]["engine"] = {{"mass", "600 lb"}, {"at", place("60 in", "0 in")}};
  file["drivetrain"] = {
      {"segments",
       {{"engine",
         {{"kind", "engine"},
          {"mass", "engine"},
          {"length", "30 in"},
          {"starts_at", place("50 in", "0 in")}}}}},
      {"mounts",
       {{"pair", mount("56 in", "14 in", true)}, {"rear", mount("70 in", "0 in", false)}}}};
  const build::Build build = testing::read(file);
  const std::vector<Burden> burdens{{.id = "engine", .mass_kg = 270, .p_VoCm_V = {-1.52, 0, 0.51}},
                                    {.id = "tank", .mass_kg = 50, .p_VoCm_V = {-1.9, 0, 0.6}}};
  const auto unheld = [&](std::size_t stages) {
    const auto model = make_model(build, build::parts_after(build.frame, stages));
    return find_unheld(*model, build, burdens);
  };
  EXPECT_TRUE(unheld(0).empty());
  // The rear mount has gone with its crossmember: the engine turns about the pair that is left.
  EXPECT_EQ(unheld(1), std::vector<std::string>{"engine"});
  EXPECT_TRUE(unheld(2).empty());
}

TEST(Mounts, ComeAndGoWithWhatTheyHangOn) {
  testing::Json file = testing::ladder();
  testing::Json& frame = file["frame"];
  const testing::Json tube = frame["crossmembers"]["middle"];
  for (const auto& [id, station, fate] :
       {std::tuple("old", "70 in", "comes_out"), std::tuple("new", "80 in", "goes_in"),
        std::tuple("brace", "20 in", "goes_in")}) {
    testing::Json part = tube;
    part["at"]["station"] = station;
    part["fate"] = fate;
    frame["crossmembers"][id] = part;
  }
  const auto mount = [](const char* station, const char* offset, const char* fate,
                        const char* carries) {
    testing::Json out{{"station", station}, {"offset", offset}, {"carries", {carries}}};
    if (*fate != 0) out["fate"] = fate;
    return out;
  };
  frame["mounts"] = {{"box_old", mount("70 in", "0 in", "comes_out", "tank")},
                     {"box_new", mount("80 in", "0 in", "goes_in", "tank")},
                     {"cab_old", mount("40 in", "16 in", "comes_out", "cab")},
                     {"cab_new", mount("44 in", "16 in", "goes_in", "cab")},
                     {"between", mount("75 in", "0 in", "", "cab")},
                     {"stays", mount("60 in", "16 in", "", "cab")}};
  frame["stages"] = {{"out", {{"take_out", {"old"}}}},
                     {"in", {{"put_in", {"new"}}}},
                     {"done", {{"put_in", {"brace"}}}}};
  const build::Build build = testing::read(file);
  const auto there = [&](const Selection& in) {
    const auto model = make_model(build, in);
    std::string out;
    if (!model) return model.error().front().message;
    for (const Attachment& one : model->attachments) {
      if (one.kind == AttachmentKind::mount) out += one.path.substr(14) + " ";
    }
    return out;
  };
  // What stays in its place halfway between both hangs on either, and on none while both are out.
  EXPECT_EQ(there(build::donor_parts(build.frame)), "box_old cab_old between stays ");
  EXPECT_EQ(there(build::parts_after(build.frame, 1)), "cab_old stays ");
  EXPECT_EQ(there(build::parts_after(build.frame, 2)), "box_new cab_old between stays ");
  EXPECT_EQ(there(build::parts_after(build.frame, 3)), "box_new cab_new between stays ");
  EXPECT_EQ(there(build::planned_parts(build.frame)), "box_new cab_new between stays ");
  // And what they carry goes with them.
  const std::vector<Burden> burdens{{.id = "tank", .mass_kg = 50, .p_VoCm_V = {-1.9, 0, 0.6}}};
  const auto bearing = [&](std::size_t stages) {
    const auto model = make_model(build, build::parts_after(build.frame, stages));
    return lay_burdens(*model, build, burdens, {.a_V = {0, 0, 9.81}}).bearings.front();
  };
  EXPECT_EQ(bearing(0), Bearing::mounts);
  EXPECT_EQ(bearing(1), Bearing::along_rails);
  EXPECT_EQ(bearing(2), Bearing::mounts);
}

}  // namespace
}  // namespace rig::frame
