// A build's frame as beams: what is where, how it hangs together, and what is told when it can't.

#include "frame/model.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <numbers>

#include "build/read.h"
#include "frame/solve.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using Json = nlohmann::ordered_json;

using units::kInch_m;

/// Channel rails 6 x 2 x 1/5 in from station 0 to 100 in, webs 32 in apart, a channel between the
/// flanges, a tube through the webs at 40 in, a plate from 30 to 60 in that goes in.
Json sound_frame() {
  return Json::parse(R"({
    "steels": {"mild": {"yield": "36 ksi"}},
    "rails": {"main": {
      "label": "Frame rail", "both_sides": true, "steel": "mild",
      "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"},
      "line": [{"station": "0 in", "offset": "16 in", "height": "25 in"},
               {"station": "100 in", "offset": "16 in", "height": "25 in"}]}},
    "plates": {"box": {"rail": "main", "from": "30 in", "to": "60 in", "thickness": "0.2 in",
                       "steel": "mild", "fate": "goes_in"}},
    "crossmembers": {
      "front": {"label": "Front channel", "at": {"station": "10 in"}, "opens": "rearward",
                "joint": "flanges", "steel": "mild",
                "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"}},
      "tube": {"label": "Tank tube", "at": {"station": "40 in"}, "joint": "through_web", "steel": "mild",
               "section": {"shape": "round_tube", "outside_diameter": "2 in", "thickness": "0.2 in"}}}})");
}

build::Build build_with(const std::vector<std::pair<std::string, std::string>>& changes,
                        const Json& rest = Json::object()) {
  Json frame = sound_frame();
  for (const auto& [at, value] : changes) {
    frame[Json::json_pointer(at)] = Json::parse(value);
  }
  Json file{{"version", 1}, {"frame", frame}};
  file.update(rest);
  const auto read = build::read_build(file.dump());
  if (!read) {
    ADD_FAILURE() << read.error().front().path << " " << read.error().front().message;
    return {};
  }
  return read->build;
}

Model model_of(const build::Build& build, const Selection& in) {
  const auto model = make_model(build, in);
  if (!model) {
    ADD_FAILURE() << model.error().front().path << " " << model.error().front().message;
    return {};
  }
  const Diagnostics faults = check_structure(model->structure);
  EXPECT_TRUE(faults.empty()) << faults.front().path << " " << faults.front().message;
  return *model;
}

std::string faults_with(const std::vector<std::pair<std::string, std::string>>& changes) {
  const build::Build build = build_with(changes);
  const auto model = make_model(build, build::planned_parts(build.frame));
  std::string out;
  if (model) return out;
  for (const Diagnostic& d : model.error()) {
    EXPECT_FALSE(d.message.empty() || d.remedy.empty()) << d.code;
    out += (out.empty() ? "" : "\n") + d.code + " " + d.path;
  }
  return out;
}

double member_mass_kg(const Model& model, const std::string& id) {
  const auto masses = calc_member_masses_kg(model.structure);
  for (std::size_t i = 0; i < masses.size(); ++i) {
    if (model.structure.members[i].id == id) return masses[i];
  }
  ADD_FAILURE() << id;
  return 0;
}

const Attachment& attachment(const Model& model, const std::string& path, int sign) {
  for (const Attachment& one : model.attachments) {
    if (one.path == path && one.sign == sign) return one;
  }
  throw std::logic_error(path);
}

const std::string& carrier(const Model& model, const Attachment& one) {
  return model.structure.members[static_cast<std::size_t>(one.carrier)].words;
}

TEST(Model, NamesItsPartsAsTheShopDoes) {
  const build::Build build = build_with({});
  const Model model = model_of(build, build::donor_parts(build.frame));
  ASSERT_EQ(model.structure.members.size(), 4U);
  EXPECT_EQ(model.structure.members[0].words, "left frame rail");
  EXPECT_EQ(model.structure.members[1].words, "right frame rail");
  EXPECT_EQ(model.structure.members[2].words, "front channel");
  EXPECT_EQ(model.structure.members[3].id, "tube");
  ASSERT_EQ(model.beams.size(), model.structure.beams.size());
  // Bays of the left rail: to the channel, along its flange, to the tube, to the end.
  const auto& first = model.beams[0];
  EXPECT_EQ(first.path, "/frame/rails/main");
  EXPECT_EQ(first.sign, 1);
  EXPECT_NEAR(first.begin_m, 0, 1e-12);
  EXPECT_NEAR(first.end_m, 10 * kInch_m, 1e-12);
  EXPECT_NEAR(model.beams[1].end_m, 11.9 * kInch_m, 1e-12);
  EXPECT_NEAR(model.beams[2].end_m, 40 * kInch_m, 1e-12);
  EXPECT_NEAR(model.beams[3].end_m, 100 * kInch_m, 1e-12);
  EXPECT_NEAR(first.yield_Pa, 36e3 * 6894.757, 1e3);
  EXPECT_TRUE(first.plates.empty());
}

TEST(Model, PlatesCloseTheirStretch) {
  const build::Build build = build_with({});
  const Model model = model_of(build, build::planned_parts(build.frame));
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const BeamPlace& place = model.beams[b];
    if (place.sign == 0) continue;
    const bool inside = place.begin_m > 29.9 * kInch_m && place.end_m < 60.1 * kInch_m;
    EXPECT_EQ(place.plates.size(), inside ? 1U : 0U) << place.begin_m;
    const auto& beam = model.structure.beams[b];
    EXPECT_EQ(model.structure.sections[static_cast<std::size_t>(beam.section)]->warps(), !inside);
    EXPECT_EQ(beam.warp_from >= 0, !inside);
    EXPECT_EQ(std::isnan(place.plate_yield_Pa), !inside);
  }
}

// Hand sums: area of the walls' midlines times length, steel of 7850 kg/m3.
TEST(Model, WeighsWhatItsPartsWeigh) {
  const build::Build build = build_with({});
  const double t = 0.2 * kInch_m;
  const double rail_area = (5.8 + 2 * 1.9) * kInch_m * t;
  const double plate_area = 5.8 * kInch_m * t;
  const Model donor = model_of(build, build::donor_parts(build.frame));
  EXPECT_NEAR(member_mass_kg(donor, "main.left"), 7850 * rail_area * 100 * kInch_m, 1e-6);
  const Model planned = model_of(build, build::planned_parts(build.frame));
  EXPECT_NEAR(member_mass_kg(planned, "main.right"),
              7850 * (rail_area * 100 + plate_area * 30) * kInch_m, 1e-6);
  // The tube from web to web; the channel begins half a flange in from either web.
  EXPECT_NEAR(member_mass_kg(donor, "tube"),
              7850 * std::numbers::pi * 1.8 * kInch_m * t * 32 * kInch_m, 1e-3);
  EXPECT_NEAR(member_mass_kg(donor, "front"), 7850 * rail_area * (32 - 1.9) * kInch_m, 1e-6);
}

TEST(Model, IsItsOwnMirrorImage) {
  const build::Build build = build_with({});
  const Model model = model_of(build, build::planned_parts(build.frame));
  const auto solver = Solver::make(model.structure);
  ASSERT_TRUE(solver.has_value()) << solver.error().front().message;
  // The front ends pushed down, left and right in turn, against the rear ends: mirrored answers.
  const auto joint_at = [&](double station_m, int sign) {
    for (std::size_t j = 0; j < model.structure.joints.size(); ++j) {
      const Joint& joint = model.structure.joints[j];
      if (joint.follows < 0 && std::abs(joint.p_VoJ_V.x() + station_m) < 1e-9 &&
          std::abs(joint.p_VoJ_V.y() - sign * 16 * kInch_m) < 1e-9) {
        return static_cast<int>(j);
      }
    }
    ADD_FAILURE();
    return 0;
  };
  std::vector<Loads> cases;
  for (const int sign : {1, -1}) {
    Loads loads;
    const auto push = [&](double station_m, int side, const Vec3& f) {
      const int joint = joint_at(station_m, side);
      loads.points.push_back(
          {.joint = joint,
           .p_VoP_V = model.structure.joints[static_cast<std::size_t>(joint)].p_VoJ_V,
           .f_P_V = f});
    };
    push(0, sign, {0, 0, -1000});
    push(0, -sign, {0, 0, 1000});
    push(100 * kInch_m, sign, {0, 0, 1000});
    push(100 * kInch_m, -sign, {0, 0, -1000});
    cases.push_back(loads);
  }
  const auto answers = solver->solve(cases);
  ASSERT_TRUE(answers.has_value()) << answers.error().front().message;
  const Structure& s = model.structure;
  for (std::size_t b = 0; b < s.beams.size(); ++b) {
    if (model.beams[b].sign != 1) continue;
    for (std::size_t c = 0; c < s.beams.size(); ++c) {
      if (model.beams[c].sign != -1 || model.beams[c].begin_m != model.beams[b].begin_m) continue;
      const auto left = calc_beam_forces(s, cases[0], (*answers)[0], static_cast<int>(b), 0.5);
      const auto right = calc_beam_forces(s, cases[1], (*answers)[1], static_cast<int>(c), 0.5);
      const double size = 1 + std::abs(left.moment_y_Nm) + std::abs(left.torque_St_Venant_Nm);
      EXPECT_NEAR(left.axial_N, right.axial_N, 1e-5 * 1000);
      EXPECT_NEAR(left.moment_y_Nm, right.moment_y_Nm, 1e-6 * size);
      EXPECT_NEAR(left.moment_z_Nm, -right.moment_z_Nm, 1e-6 * size);
      EXPECT_NEAR(left.torque_St_Venant_Nm, -right.torque_St_Venant_Nm, 1e-6 * size);
      // The mirror image's sectorial coordinate has the other sign as well: the stress is the same.
      EXPECT_NEAR(left.bimoment_Nm2, -right.bimoment_Nm2, 1e-6 * size);
    }
  }
}

TEST(Model, CarriesEachPointByTheNearestPart) {
  const Json axle = Json::parse(R"({"axles": {"front": {"end": "front", "links": {
      "lower": {"label": "Lower link", "role": "lower", "both_sides": true,
                "frame": {"at": {"station": "35 in", "offset": "15 in", "height": "21 in"}}},
      "bar": {"role": "track_bar",
              "frame": {"at": {"station": "12 in", "offset": "2 in", "height": "22 in"}}}}}},
    "hitch": {"ball": {"station": "108 in", "offset": "0 in", "height": "20 in"}}})");
  const build::Build build = build_with(
      {{"/mounts/gearbox", R"({"label": "Gearbox mount", "station": "41 in", "offset": "0 in"})"},
       {"/pulls/winch", R"({"at": {"station": "-5 in", "offset": "16 in", "height": "25 in"},
                                       "direction": "forward"})"},
       {"/stages/cut", R"({"stands": {"rear": {"station": "90 in", "side": "left"}}})"}},
      axle);
  const Model model = model_of(build, build::planned_parts(build.frame));

  const auto& link = attachment(model, "/axles/front/links/lower/frame/at", -1);
  EXPECT_EQ(carrier(model, link), "right frame rail");
  EXPECT_EQ(link.words, "right lower link of the front axle");
  EXPECT_TRUE(link.in_box);
  EXPECT_NEAR(link.arm_m(), std::hypot(1, 4) * kInch_m, 1e-9);
  EXPECT_NEAR(link.p_VoC_V.x(), -35 * kInch_m, 1e-12);

  const auto& bar = attachment(model, "/axles/front/links/bar/frame/at", 1);
  EXPECT_EQ(carrier(model, bar), "front channel");
  EXPECT_NEAR(bar.arm_m(), std::hypot(2, 3) * kInch_m, 1e-9);

  const auto& mount = attachment(model, "/frame/mounts/gearbox", 0);
  EXPECT_EQ(carrier(model, mount), "tank tube");
  EXPECT_NEAR(mount.p_VoP_V.z(), 25 * kInch_m, 1e-12);
  EXPECT_NEAR(mount.arm_m(), kInch_m, 1e-9);

  const auto& winch = attachment(model, "/frame/pulls/winch", 1);
  EXPECT_EQ(carrier(model, winch), "left frame rail");
  EXPECT_NEAR(winch.arm_m(), 5 * kInch_m, 1e-9);
  EXPECT_NEAR(attachment(model, "/hitch/ball", 0).arm_m(), std::sqrt(64 + 256 + 25) * kInch_m,
              1e-9);

  const auto& stand = attachment(model, "/frame/stages/cut/stands/rear", 1);
  EXPECT_EQ(stand.arm_m(), 0);
  EXPECT_EQ(std::count_if(model.attachments.begin(), model.attachments.end(),
                          [](const Attachment& a) { return a.kind == AttachmentKind::stand; }),
            1);
  EXPECT_EQ(std::count_if(model.attachments.begin(), model.attachments.end(),
                          [](const Attachment& a) { return a.kind == AttachmentKind::axle_line; }),
            2);
}

TEST(Model, DroppedCrossmembersFollowTheirCorners) {
  const build::Build build = build_with(
      {{"/crossmembers/drop", R"({"at": {"station": "80 in"}, "joint": "web", "opens": "down",
          "fastening": "bolted",
          "section": {"shape": "channel", "depth": "3 in", "flange": "2 in", "thickness": "0.2 in"},
          "line": [{"station": "80 in", "offset": "10 in", "height": "20 in"},
                   {"station": "80 in", "offset": "-10 in", "height": "20 in"}]})"}});
  const Model model = model_of(build, build::planned_parts(build.frame));
  std::vector<const BeamPlace*> drop;
  for (const auto& place : model.beams) {
    if (place.path == "/frame/crossmembers/drop") drop.push_back(&place);
  }
  ASSERT_EQ(drop.size(), 3U);
  EXPECT_NEAR(drop[0]->begin_m, 16 * kInch_m, 1e-9);
  EXPECT_NEAR(drop[1]->begin_m, 10 * kInch_m, 1e-9);
  EXPECT_NEAR(drop[2]->end_m, -16 * kInch_m, 1e-9);
  EXPECT_TRUE(std::any_of(model.assumptions.begin(), model.assumptions.end(), [](const auto& a) {
    return a.path == "/frame/crossmembers/drop/fastening" &&
           a.words.find("as stiff as welded") != std::string::npos;
  }));
  // Open downwards: its web on top, its flanges to the front and the rear.
  const auto beam = std::find_if(model.beams.begin(), model.beams.end(),
                                 [&](const auto& place) { return &place == drop[1]; });
  const BeamSection& section = model.structure.sections[static_cast<std::size_t>(
      model.structure.beams[static_cast<std::size_t>(beam - model.beams.begin())].section)];
  const int front = section::find_wall(section.section, "front flange");
  ASSERT_GE(front, 0);
  const auto& wall = section.section.walls[static_cast<std::size_t>(front)];
  for (const int node : {wall.from, wall.to}) {
    EXPECT_NEAR(section.section.p_ON[static_cast<std::size_t>(node)].x(), 1.4 * kInch_m, 1e-9);
    EXPECT_LE(section.section.p_ON[static_cast<std::size_t>(node)].y(), 1e-9);
  }
}

TEST(Model, TapersGoInShortSteps) {
  const build::Build build = build_with({{"/rails/main/stretches/nose", R"({
      "from": "0 in", "to": "8 in",
      "section": {"shape": "channel", "depth": "4 in", "flange": "2 in", "thickness": "0.2 in"},
      "section_end": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"}})"}});
  const Model model = model_of(build, build::donor_parts(build.frame));
  const double t = 0.2 * kInch_m;
  // Mean depth 5 in over the taper: midpoint steps of a linear change lose nothing.
  EXPECT_NEAR(member_mass_kg(model, "main.left"),
              7850 * t * kInch_m * kInch_m * ((4.8 + 3.8) * 8 + (5.8 + 3.8) * 92), 1e-6);
  EXPECT_GE(std::count_if(
                model.beams.begin(), model.beams.end(),
                [](const auto& place) { return place.sign == 1 && place.end_m < 8.01 * kInch_m; }),
            6);
}

TEST(Model, SaysEverythingThatIsMissingAtOnce) {
  EXPECT_EQ(faults_with({{"/rails/main/section/thickness", "null"},
                         {"/rails/main/line/1/height", "null"},
                         {"/crossmembers/tube/section", "null"},
                         {"/crossmembers/front/opens", "null"},
                         {"/plates/box/thickness", "null"}}),
            "frame.unknown_place /frame/rails/main/line/1/height\n"
            "frame.unknown_size /frame/rails/main/section/thickness\n"
            "frame.unknown_size /frame/plates/box/thickness\n"
            "frame.unknown_opening /frame/crossmembers/front/opens\n"
            "frame.unknown_section /frame/crossmembers/tube/section");
  EXPECT_EQ(faults_with({{"/rails/main/section", "null"}}),
            "frame.unknown_section /frame/rails/main/section");
  EXPECT_EQ(faults_with({{"/rails/main/line", "[]"}}), "frame.short_line /frame/rails/main/line");
  EXPECT_EQ(faults_with({{"/crossmembers/tube/at/station", "null"}}),
            "frame.unknown_station /frame/crossmembers/tube/at/station");
  EXPECT_EQ(faults_with({{"/crossmembers/tube/line", R"([{"station": "40 in"}])"}}),
            "frame.unknown_place /frame/crossmembers/tube/line/0");
  EXPECT_EQ(faults_with({{"/rails/main/stretches/end", R"({"section": {"shape": "round_tube"}})"}}),
            "frame.unknown_size /frame/rails/main/stretches/end/section/outside_diameter\n"
            "frame.unknown_size /frame/rails/main/stretches/end/section/thickness\n"
            "frame.unknown_place /frame/rails/main/stretches/end/from\n"
            "frame.unknown_place /frame/rails/main/stretches/end/to");
  EXPECT_EQ(faults_with({{"/plates/box/to", "null"}}), "frame.unknown_place /frame/plates/box/to");
  const build::Build none;
  EXPECT_EQ(make_model(none, {}).error().front().code, "frame.no_rails");
}

TEST(Model, TellsSectionMakersFaultsAtTheFilesPlaces) {
  EXPECT_EQ(faults_with({{"/rails/main/section/thickness", R"("3.1 in")"}}),
            "section.wall_too_thick /frame/rails/main/section/thickness");
  EXPECT_EQ(faults_with({{"/rails/main/section/inside_radius", R"("2 in")"}}),
            "section.radius_too_large /frame/rails/main/section/inside_radius");
  EXPECT_EQ(faults_with({{"/crossmembers/tube/section/thickness", R"("1 in")"}}),
            "section.wall_too_thick /frame/crossmembers/tube/section/thickness");
  EXPECT_EQ(faults_with({{"/plates/box/inset", R"("1.8 in")"}}),
            "section.plate_does_not_fit /frame/plates/box");
}

TEST(Model, CrossmembersNeedOneRailOnEitherSide) {
  EXPECT_EQ(faults_with({{"/rails/main/both_sides", "false"}}),
            "frame.not_between_rails /frame/crossmembers/front\n"
            "frame.not_between_rails /frame/crossmembers/tube");
  const char* const kHelper = R"({"both_sides": true,
      "section": {"shape": "round_tube", "outside_diameter": "2 in", "thickness": "0.1 in"},
      "line": [{"station": "30 in", "offset": "8 in", "height": "25 in"},
               {"station": "50 in", "offset": "8 in", "height": "25 in"}]})";
  EXPECT_EQ(faults_with({{"/rails/helper", kHelper}}),
            "frame.two_rails /frame/crossmembers/tube/joins");
  EXPECT_EQ(faults_with({{"/rails/helper", kHelper},
                         {"/crossmembers/tube/joins", R"(["main"])"},
                         {"/crossmembers/more",
                          R"({"at": {"station": "45 in"}, "joint": "web", "opens": "up",
                            "section": {"shape": "angle", "level_leg": "1 in", "upright_leg": "1 in", "thickness": "0.1 in"},
                            "joins": ["helper"]})"}}),
            "frame.opens_sideways /frame/crossmembers/more/opens");
}

TEST(Model, LeavesNoRoomForNothing) {
  EXPECT_EQ(faults_with({{"/rails/main/line",
                          R"([{"station": "0 in", "offset": "0.9 in", "height": "25 in"},
                           {"station": "100 in", "offset": "0.9 in", "height": "25 in"}])"}}),
            "frame.no_room /frame/crossmembers/front");
}

TEST(Model, RailsThatMeetEndToEndAreWelded) {
  const build::Build build =
      build_with({{"/rails/tail", R"({"label": "Tail", "both_sides": true, "steel": "mild",
      "section": {"shape": "rectangular_tube", "depth": "4 in", "width": "2 in", "thickness": "0.2 in"},
      "line": [{"station": "100 in", "offset": "16 in", "height": "25 in"},
               {"station": "120 in", "offset": "16 in", "height": "25 in"}]})"}});
  const Model model = model_of(build, build::donor_parts(build.frame));
  EXPECT_TRUE(Solver::make(model.structure).has_value());
  EXPECT_TRUE(std::any_of(model.assumptions.begin(), model.assumptions.end(), [](const auto& a) {
    return a.words.find("welded together") != std::string::npos;
  }));
}

}  // namespace
}  // namespace rig::frame
