// What a stage does to a frame: against frames solved as they stand, reciprocity, history,
// symmetry, what is told.

#include "frame/cut.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "build/read.h"
#include "frame/stage_state_internal.h"
#include "frame/steel.h"
#include "tests/support/test_frames.h"
#include "units/factors.h"

namespace rig::frame {
namespace {

using Json = nlohmann::ordered_json;

using testing::at;

/// Channel rails with a flush channel at either end and tubes through the webs between; loads hang
/// on mounts beside the rails, so that they twist as well as bend.
Json cut_frame() {
  return Json::parse(R"({
    "steels": {"mild": {"yield": "36 ksi"}, "stiff": {"yield": "36 ksi"}},
    "rails": {"main": {
      "label": "Frame rail", "both_sides": true, "steel": "mild",
      "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"},
      "line": [{"station": "0 in", "offset": "16 in", "height": "25 in"},
               {"station": "120 in", "offset": "16 in", "height": "25 in"}]}},
    "plates": {"box": {"rail": "main", "from": "40 in", "to": "80 in", "thickness": "0.2 in",
                       "steel": "mild", "fate": "temporary"}},
    "crossmembers": {
      "front": {"at": {"station": "4 in"}, "opens": "rearward", "joint": "flanges", "steel": "mild",
                "section": {"shape": "channel", "depth": "6 in", "flange": "2 in", "thickness": "0.2 in"}},
      "middle": {"label": "Middle tube", "at": {"station": "60 in"}, "joint": "through_web", "steel": "mild",
                 "section": {"shape": "round_tube", "outside_diameter": "2 in", "thickness": "0.2 in"}},
      "rear": {"at": {"station": "116 in"}, "joint": "through_web", "steel": "mild",
               "section": {"shape": "round_tube", "outside_diameter": "2 in", "thickness": "0.2 in"}},
      "brace": {"at": {"station": "56 in"}, "joint": "through_web", "steel": "mild", "fate": "temporary",
                "section": {"shape": "round_tube", "outside_diameter": "2 in", "thickness": "0.2 in"}}},
    "mounts": {"cab": {"both_sides": true, "station": "50 in", "offset": "22 in"},
               "tank": {"station": "72 in", "offset": "20 in"}},
    "stages": {}})");
}

const Json kStands =
    Json::parse(R"({"front": {"station": "10 in"}, "rear": {"station": "110 in"}})");

Json stage(const std::vector<std::string>& put_in, const std::vector<std::string>& take_out,
           const Json& stands = kStands) {
  Json out{{"put_in", put_in}, {"take_out", take_out}};
  if (!stands.empty()) out["stands"] = stands;
  return out;
}

build::Build build_stages(const std::vector<Json>& stages,
                          const std::vector<std::pair<std::string, Json>>& changes = {}) {
  Json frame = cut_frame();
  for (const auto& [pointer, value] : changes) frame[Json::json_pointer(pointer)] = value;
  for (std::size_t i = 0; i < stages.size(); ++i) {
    frame["stages"]["stage_" + std::to_string(i)] = stages[i];
  }
  const auto read = build::read_build(Json{{"version", 1}, {"frame", frame}}.dump());
  if (!read) {
    ADD_FAILURE() << read.error().front().path << " " << read.error().front().message;
    return {};
  }
  build::Build build = read->build;
  // Stiffer than a file may say.
  for (auto& steel : build.frame.steels) {
    if (steel.id == "stiff") steel.value.modulus.si = 100 * kSteelE_Pa;
  }
  return build;
}

/// Weights on the mounts, N, and nothing else: what parts weigh themselves would hide what is
/// compared.
struct Weights {
  double cab_left_N = 3000, cab_right_N = 3000, tank_N = 800;
  double times_by_stage = 0;  ///< Share by which each later stage weighs more.

  Loads operator()(const Model& model, std::size_t at_stage) const {
    Loads loads;
    for (const Attachment& one : model.attachments) {
      if (one.kind != AttachmentKind::mount) continue;
      const double N = one.path == "/frame/mounts/tank" ? tank_N
                       : one.sign > 0                   ? cab_left_N
                                                        : cab_right_N;
      const double share = 1 + times_by_stage * static_cast<double>(at_stage);
      loads.points.push_back(
          {.joint = one.joint, .p_VoP_V = one.p_VoP_V, .f_P_V = Vec3(0, 0, -N * share)});
    }
    return loads;
  }
};

StageCut cut_of(const build::Build& build, std::size_t stage_index, const WeightsOf& weights,
                const StageOptions& options = {}) {
  const auto cut = solve_cut(build, stage_index, weights, options);
  if (!cut) {
    ADD_FAILURE() << cut.error().front().code << " " << cut.error().front().path << " "
                  << cut.error().front().message;
    return {};
  }
  return *cut;
}

/// The states that `solve_cut` compares, for tests of what it does not tell.
struct States {
  std::shared_ptr<StageModels> models;
  FrameState before, after;
};

States states_of(const build::Build& build, std::size_t last, const WeightsOf& weights) {
  std::vector<StageSet> sets;
  for (std::size_t k = 0; k <= last + 1; ++k) {
    sets.push_back({build::parts_after(build.frame, k)});
    if (k == build.frame.stages.size()) break;
    Selection with = sets.back().in;
    for (const auto& part : build.frame.stages[k].value.put_in) with.insert(part.id);
    sets.push_back({.in = std::move(with), .is_solved = false});
  }
  SectionBook book;
  auto models = StageModels::make(build, sets, book);
  EXPECT_TRUE(models.has_value());
  States out{std::make_shared<StageModels>(*models), {}, {}};
  History history;
  for (std::size_t k = 0; k <= last; ++k) {
    const Selection in = build::parts_after(build.frame, k);
    auto before = solve_state(build, k, *out.models, in, history, weights, {});
    EXPECT_TRUE(before.has_value()) << before.error().front().message;
    Selection with = in;
    for (const auto& part : build.frame.stages[k].value.put_in) with.insert(part.id);
    add_history(*out.models, *before, out.models->with(with), history);
    out.before = *before;
  }
  auto after = solve_state(build, last, *out.models, build::parts_after(build.frame, last + 1),
                           history, weights, {});
  EXPECT_TRUE(after.has_value());
  out.after = *after;
  return out;
}

double most_moved_m(const StageModels& models, const FrameState& a, const FrameState& b) {
  double most = 0;
  for (std::size_t i = 0; i < models.marks().size(); ++i) {
    most = std::max(most, (mark_moved(models, a, static_cast<int>(i)) -
                           mark_moved(models, b, static_cast<int>(i)))
                              .norm());
  }
  return most;
}

double size_m(const StageModels& models, const FrameState& a) {
  double most = 0;
  for (std::size_t i = 0; i < models.marks().size(); ++i) {
    most = std::max(most, mark_moved(models, a, static_cast<int>(i)).norm());
  }
  return most;
}

// Without history what is left stands as if it had never been otherwise.
TEST(Cut, IsTheDifferenceOfTwoFrames) {
  const build::Build build = build_stages({stage({}, {"middle"})});
  const Weights weights;
  const StageCut cut = cut_of(build, 0, weights);
  const auto solve = [&](const Selection& in) {
    const Model model = *make_model(build, in);
    const Solver solver = *Solver::make(model.structure);
    const auto stands = *find_stands(build, 0, model);
    return std::pair(model, *solve_stands(solver, weights(model, 0), stands));
  };
  const auto [model_before, before] = solve(build::parts_after(build.frame, 0));
  const auto [model_after, after] = solve(build::parts_after(build.frame, 1));
  ASSERT_EQ(cut.stands.size(), 4U);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(cut.stands_before[i].force_N, before.stands[i].force_N, 1e-5);
    EXPECT_NEAR(cut.change.stands[i].force_N, after.stands[i].force_N, 1e-5);
  }
  ASSERT_EQ(cut.parts.size(), 1U);
  const auto& structure = model_before.structure;
  for (std::size_t b = 0; b < structure.beams.size(); ++b) {
    if (structure.members[at(structure.beams[b].member)].id != "middle") continue;
    const auto left =
        calc_beam_forces(structure, before.loads, before.response, static_cast<int>(b), 0);
    EXPECT_NEAR(cut.parts[0].first.axial_N, left.axial_N, 1e-9 * weights.cab_left_N);  // None.
    EXPECT_NEAR(cut.parts[0].first.shear_upright_N, left.shear_z_N,
                1e-5 * std::abs(left.shear_z_N));
    EXPECT_NEAR(cut.parts[0].first.moment_upright_Nm, left.moment_y_Nm,
                1e-5 * std::abs(left.moment_y_Nm));
  }
  EXPECT_GT(std::abs(cut.parts[0].first.moment_upright_Nm), 1);
  EXPECT_NEAR(cut.stress_before.worst.von_mises_Pa,
              find_worst_places(model_before, {&before.loads, 1}, {&before.response, 1}, 1)
                  .front()
                  .stress.von_mises_Pa,
              10);
  // The cab's mounts are at a place that both models know.
  const auto height = [](const Model& model, const Standing& standing, int sign) {
    for (const Attachment& one : model.attachments) {
      if (one.path == "/frame/mounts/cab" && one.sign == sign) {
        return calc_displacement(model.structure, standing.response, one.joint, one.p_VoC_V).z();
      }
    }
    return kNaN;
  };
  double most = 0;
  for (const int sign : {1, -1}) {
    most = std::max(
        most, std::abs(height(model_after, after, sign) - height(model_before, before, sign)));
  }
  EXPECT_GE(std::abs(cut.change.height.change_m) * (1 + 1e-9), most);
}

// [Reciprocity] The loads' work on what the cut moves is the negative of that of the forces that
// the part carried on where its ends go.
TEST(Cut, MovesWhatReciprocityTells) {
  const build::Build build = build_stages({stage({}, {"middle"})});
  const Weights weights{.cab_left_N = 4000, .cab_right_N = 1500};
  const States states = states_of(build, 0, weights);
  const Structure& was = states.before.on->model->structure;
  const Structure& is = states.after.on->model->structure;
  double work_J = 0;
  const Loads before_loads = weights(states.before.on->model, 0);
  const Loads after_loads = weights(states.after.on->model, 0);
  for (std::size_t i = 0; i < before_loads.points.size(); ++i) {
    const PointLoad &a = before_loads.points[i], &b = after_loads.points[i];
    work_J += a.f_P_V.dot(calc_displacement(is, states.after.response, b.joint, b.p_VoP_V) -
                          calc_displacement(was, states.before.response, a.joint, a.p_VoP_V));
  }
  double by_ends_J = 0, own_J = 0;
  for (std::size_t b = 0; b < was.beams.size(); ++b) {
    const Beam& beam = was.beams[b];
    if (was.members[at(beam.member)].id != "middle") continue;
    const BeamEnds ends =
        calc_beam_ends(was, states.before.loads, states.before.response, static_cast<int>(b));
    const std::array<int, 2> marks = states.models->ends_of(*states.before.on, beam.member);
    const auto add = [&](int mark, const Vec3& p, const Vec3& f, const Vec3& t, int soft) {
      const int joint = states.after.on->mark_joints[at(mark)];
      by_ends_J += f.dot(calc_displacement(is, states.after.response, joint, p)) +
                   t.dot(states.after.response.rotation_V[at(joint)]);
      own_J -= f.dot(calc_displacement(was, states.before.response, soft, p)) +
               t.dot(states.before.response.rotation_V[at(soft)]);
    };
    add(marks[0], beam.p_VoF_V, ends.f_F_V, ends.t_F_V, beam.from);
    add(marks[1], beam.p_VoT_V, ends.f_T_V, ends.t_T_V, beam.to);
  }
  EXPECT_GT(work_J, 0);
  EXPECT_NEAR(work_J, -by_ends_J, 1e-6 * work_J);
  // And what the part holds is half of what its end forces do on its own ends.
  const StageCut cut = cut_of(build, 0, weights);
  EXPECT_NEAR(cut.parts[0].energy_J, own_J / 2, 1e-6 * own_J);
}

TEST(Cut, OfWhatCarriesNothingMovesNothing) {
  // The brace goes in under the load and comes out under the same.
  const build::Build build = build_stages({stage({"brace"}, {}), stage({}, {"brace"})});
  const Weights weights;
  for (const std::size_t i : {0U, 1U}) {
    const StageCut cut = cut_of(build, i, weights);
    EXPECT_LT(std::abs(cut.change.height.change_m), 1e-10) << i;
    EXPECT_NEAR(cut.change.stress.worst.von_mises_Pa, cut.stress_before.worst.von_mises_Pa, 10);
    if (i == 0) continue;
    ASSERT_EQ(cut.parts.size(), 1U);
    EXPECT_NEAR(cut.parts[0].first.axial_N, 0, 1e-4);
    EXPECT_NEAR(cut.parts[0].first.moment_upright_Nm, 0, 1e-4);
    EXPECT_LT(cut.parts[0].energy_J, 1e-9);
    EXPECT_NEAR(cut.parts[0].spring->apart_m, 0, 1e-10);
  }
}

// Bolted: what their joints do to the rail itself is without stress too.
TEST(Cut, BoltedBracesGoInWithoutStress) {
  const char* const kBraces[] = {
      R"({"at": {"station": "56 in"}, "joint": "web", "opens": "rearward", "steel": "mild",
          "fastening": "bolted", "fate": "temporary", "bolts": {"count": 4, "diameter": "1/2 in"},
          "end_plate": {"thickness": "1/4 in", "bolt_rise": "4.2 in", "bolt_reach": "2 in"},
          "section": {"shape": "channel", "depth": "3 in", "flange": "2 in", "thickness": "0.2 in"}})",
      R"({"at": {"station": "56 in"}, "joint": "flanges", "opens": "forward", "steel": "mild",
          "fastening": "bolted", "fate": "temporary", "bolts": {"count": 4, "diameter": "3/8 in"},
          "section": {"shape": "channel", "depth": "5.6 in", "flange": "2 in", "thickness": "0.2 in"}})"};
  for (const char* brace : kBraces) {
    const build::Build build = build_stages({stage({"brace"}, {}), stage({}, {"brace"})},
                                            {{"/crossmembers/brace", Json::parse(brace)}});
    const Weights weights{.cab_left_N = 4000, .cab_right_N = 2000};
    for (const std::size_t i : {0U, 1U}) {
      const StageCut cut = cut_of(build, i, weights);
      EXPECT_LT(std::abs(cut.change.height.change_m), 1e-9) << brace;
      EXPECT_NEAR(cut.change.stress.worst.von_mises_Pa, cut.stress_before.worst.von_mises_Pa, 100);
      if (i == 0) continue;
      EXPECT_NEAR(cut.parts.at(0).first.axial_N, 0, 1e-3);
      EXPECT_NEAR(cut.parts.at(0).first.moment_upright_Nm, 0, 1e-3);
      EXPECT_NEAR(cut.parts.at(0).spring->apart_m, 0, 1e-9);
    }
    // And carry what comes later.
    const StageCut later = cut_of(build, 1, Weights{.times_by_stage = 0.5});
    EXPECT_GT(std::abs(later.parts.at(0).first.moment_upright_Nm), 1);
  }
}

TEST(Cut, AndPutBackLeavesThePartWithoutStress) {
  const build::Build build =
      build_stages({stage({}, {"middle"}), stage({"middle"}, {}), stage({}, {"middle"})});
  const Weights weights;
  const StageCut first = cut_of(build, 0, weights), second = cut_of(build, 1, weights),
                 third = cut_of(build, 2, weights);
  EXPECT_GT(std::abs(first.change.height.change_m), 1e-6);
  EXPECT_LT(std::abs(second.change.height.change_m), 1e-10);
  EXPECT_LT(std::abs(third.change.height.change_m), 1e-10);
  EXPECT_NEAR(third.parts.at(0).second.moment_upright_Nm, 0, 1e-4);
}

// What comes after a part went in is shared by all that is in.
TEST(Cut, BraceCarriesWhatComesLater) {
  const build::Build build = build_stages({stage({"brace"}, {}), stage({}, {"brace"})});
  const Weights weights{.times_by_stage = 0.5};
  const StageCut cut = cut_of(build, 1, weights);
  Selection all = build::parts_after(build.frame, 1);
  const Model model = *make_model(build, all);
  // The half that was added, alone.
  const Weights added{.cab_left_N = 1500, .cab_right_N = 1500, .tank_N = 400};
  const auto standing =
      *solve_stands(*Solver::make(model.structure), added(model, 0), *find_stands(build, 1, model));
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    if (model.beams[b].path != "/frame/crossmembers/brace") continue;
    const auto left = calc_beam_forces(model.structure, standing.loads, standing.response,
                                       static_cast<int>(b), 0);
    EXPECT_GT(std::abs(left.moment_y_Nm), 1);
    EXPECT_NEAR(cut.parts.at(0).first.moment_upright_Nm, left.moment_y_Nm,
                1e-5 * std::abs(left.moment_y_Nm));
    EXPECT_NEAR(cut.parts.at(0).first.axial_N, left.axial_N, 1e-5 * std::abs(left.shear_z_N));
  }
}

TEST(Cut, BraceTakesWhatTheCutLetsGo) {
  const build::Build soft = build_stages({stage({"brace"}, {"middle"})});
  const build::Build stiff = build_stages(
      {stage({"brace"}, {"middle"})},
      {{"/crossmembers/brace",
        Json::parse(
            R"({"at": {"station": "59 in"}, "joint": "flanges", "steel": "stiff", "fate": "temporary",
           "section": {"shape": "rectangular_tube", "depth": "5 in", "width": "2 in", "thickness": "0.25 in"}})")}});
  const Weights weights{.cab_left_N = 4000, .cab_right_N = 2000};
  const StageCut with_soft = cut_of(soft, 0, weights), with_stiff = cut_of(stiff, 0, weights);
  ASSERT_EQ(with_soft.braces, std::vector<std::string>{"/frame/crossmembers/brace"});
  ASSERT_TRUE(with_soft.height_ratio() && with_stiff.height_ratio());
  EXPECT_LT(*with_soft.height_ratio(), 1);
  EXPECT_LT(*with_stiff.height_ratio(), *with_soft.height_ratio());
  // Beside the cut nothing is left to spring: an inch of rail away.
  const build::Build bare = build_stages({stage({}, {"middle"})});
  const EndSpring with = *with_stiff.parts.at(0).spring;
  const EndSpring without = *cut_of(bare, 0, weights).parts.at(0).spring;
  const auto size = [](const EndSpring& s) {
    return Vec3(s.apart_m, s.height_m, s.ahead_m).norm();
  };
  EXPECT_LT(size(with), 0.05 * size(without));
  // And the same without the brace, told with it.
  EXPECT_NEAR(with_stiff.without_brace->height.change_m,
              cut_of(bare, 0, weights).change.height.change_m, 1e-9);
}

TEST(Cut, PlatesGoInWithoutStress) {
  const build::Build build = build_stages({stage({"box"}, {}), stage({}, {"box"})});
  const Weights weights;
  const States in = states_of(build, 0, weights);
  EXPECT_LT(most_moved_m(*in.models, in.before, in.after), 1e-7 * size_m(*in.models, in.before));
  const StageCut cut = cut_of(build, 0, weights);
  EXPECT_NEAR(cut.change.stress.worst.von_mises_Pa, cut.stress_before.worst.von_mises_Pa,
              1e-5 * cut.stress_before.worst.von_mises_Pa);
  // They carry nothing until something changes, and taking them out changes nothing.
  const StageCut out = cut_of(build, 1, weights);
  ASSERT_EQ(out.parts.size(), 2U);
  EXPECT_TRUE(out.parts[0].plate);
  EXPECT_NEAR(out.parts[0].first.axial_N, 0, 1e-2);
  EXPECT_NEAR(out.parts[1].second.moment_upright_Nm, 0, 1e-3);
  EXPECT_LT(std::abs(out.change.height.change_m), 1e-9);
}

// A boxed frame moves by what is added as one that was boxed from the beginning.
TEST(Cut, PlatesShareWhatComesLater) {
  const build::Build build = build_stages({stage({"box"}, {}), stage({}, {})});
  const Weights weights{.times_by_stage = 0.5};
  const States first = states_of(build, 0, weights), second = states_of(build, 1, weights);
  const Model model = *make_model(build, build::parts_after(build.frame, 1));
  const Weights added{.cab_left_N = 1500, .cab_right_N = 1500, .tank_N = 400};
  const auto standing =
      *solve_stands(*Solver::make(model.structure), added(model, 0), *find_stands(build, 1, model));
  for (const Attachment& one : model.attachments) {
    if (one.kind != AttachmentKind::mount) continue;
    const double expected =
        calc_displacement(model.structure, standing.response, one.joint, one.p_VoC_V).z();
    const auto moved = [&](const FrameState& state) {
      for (const Attachment& other : state.on->model->attachments) {
        if (other.path == one.path && other.sign == one.sign) {
          return calc_displacement(state.on->model->structure, state.response, other.joint,
                                   other.p_VoC_V)
              .z();
        }
      }
      return kNaN;
    };
    EXPECT_NEAR(moved(second.before) - moved(first.after), expected, 1e-5 * std::abs(expected));
  }
}

TEST(Cut, IsItsOwnMirrorImage) {
  const std::vector<std::pair<std::string, Json>> changes{
      {"/mounts/tank", Json::parse(R"({"station": "72 in", "offset": "-20 in"})")}};
  const build::Build left = build_stages({stage({"brace"}, {"middle"})});
  const build::Build right = build_stages({stage({"brace"}, {"middle"})}, changes);
  const StageCut a = cut_of(left, 0, Weights{.cab_left_N = 4000, .cab_right_N = 2500});
  const StageCut b = cut_of(right, 0, Weights{.cab_left_N = 2500, .cab_right_N = 4000});
  for (const std::size_t i : {0U, 2U}) {
    EXPECT_NEAR(a.change.stands[i].force_N, b.change.stands[i + 1].force_N, 1e-4);
    EXPECT_NEAR(a.change.stands[i + 1].force_N, b.change.stands[i].force_N, 1e-4);
  }
  EXPECT_NEAR(a.change.height.change_m, b.change.height.change_m, 1e-10);
  EXPECT_NEAR(a.change.diagonals->left_front_m, b.change.diagonals->right_front_m, 1e-10);
  EXPECT_NEAR(a.change.diagonals->difference_m(), -b.change.diagonals->difference_m(), 1e-10);
  EXPECT_NEAR(a.parts[0].spring->apart_m, b.parts[0].spring->apart_m, 1e-10);
  EXPECT_NEAR(a.parts[0].spring->height_m, -b.parts[0].spring->height_m, 1e-10);
  EXPECT_NEAR(a.parts[0].first.moment_upright_Nm, b.parts[0].second.moment_upright_Nm, 1e-4);
  EXPECT_NEAR(a.change.stress.worst.von_mises_Pa, b.change.stress.worst.von_mises_Pa, 100);
}

TEST(Cut, JudgesWhatItFinds) {
  const build::Build build = build_stages({stage({}, {"middle"}), stage({"brace"}, {})});
  const auto kinds = [](const StageCut& cut) {
    std::vector<StageReasonKind> out;
    for (const StageReason& r : cut.reasons) out.push_back(r.kind);
    return out;
  };
  using enum StageReasonKind;
  const Weights light{.cab_left_N = 500, .cab_right_N = 500, .tank_N = 0};
  EXPECT_EQ(cut_of(build, 0, light).verdict, StageVerdict::good);
  EXPECT_EQ(kinds(cut_of(build, 0, light, {.unknown_weights = {0}})), std::vector{weights_unknown});
  StageOptions narrow;
  narrow.limits.height_m = 1e-7;
  narrow.limits.diagonals_m = 1e-12;
  const Weights skew{.cab_left_N = 900, .cab_right_N = 500, .tank_N = 0};
  // Level parts bend level frames up and down alone; a low one puts them out of square.
  const std::pair<std::string, Json> low{"/crossmembers/middle/at/height", "21 in"};
  const StageCut moved = cut_of(build_stages({stage({}, {"middle"})}, {low}), 0, skew, narrow);
  EXPECT_EQ(kinds(moved), (std::vector{moves, goes_out_of_square}));
  EXPECT_EQ(moved.verdict, StageVerdict::stop);
  const build::Build braced = build_stages({stage({"brace"}, {"middle"})}, {low});
  EXPECT_EQ(cut_of(braced, 0, skew, narrow).verdict, StageVerdict::look);
  const Weights heavy{.cab_left_N = 60000, .cab_right_N = 60000};
  const StageCut broken = cut_of(build, 0, heavy);
  EXPECT_EQ(broken.verdict, StageVerdict::stop);
  EXPECT_EQ(broken.reasons.front().kind, near_yield);
  EXPECT_NEAR(broken.reasons.front().limit, 36e3 * 6894.757 / 1.5, 1e3);
  const build::Build unknown = build_stages(
      {stage({}, {"middle"})},
      {{"/steels/mild", Json::object()}, {"/crossmembers/middle/fastening", "bolted"}});
  const StageCut look = cut_of(unknown, 0, light);
  EXPECT_EQ(look.verdict, StageVerdict::look);
  EXPECT_EQ(kinds(look), (std::vector{yield_unknown, bolted_joint}));
  EXPECT_FALSE(look.change.stress.closest_to_yield.has_value());
  EXPECT_TRUE(std::isnan(look.change.stress.worst.yield_Pa));
}

TEST(Cut, TellsFaultsAtTheStage) {
  build::Build build = build_stages({stage({}, {"middle"}), stage({}, {}), stage({}, {}, {})});
  build.frame.stages[0].value.stands[0].value.station.si = 80 * units::kInch_m;
  build.frame.stages[1].value.stands[0].value.station.si = 300 * units::kInch_m;
  const auto fault = [&](std::size_t i, const WeightsOf& weights) {
    const auto cut = solve_cut(build, i, weights);
    if (cut) return std::string();
    return cut.error().front().code + " " + cut.error().front().path;
  };
  EXPECT_EQ(fault(0, Weights{}), "frame.tips /frame/stages/stage_0/stands");
  EXPECT_EQ(fault(1, Weights{}), "frame.no_rail_above /frame/stages/stage_1/stands/front/station");
  // On its wheels, where weights alone are no balance.
  EXPECT_EQ(fault(2, Weights{}), "frame.load_not_balanced /frame/stages/stage_2");
}

/// Own weight on stands; nothing on wheels, where no axle is known to hold it.
Loads own_weight(const build::Build& build, const Model& model, std::size_t stage_index) {
  Loads loads;
  if (!build.frame.stages[stage_index].value.stands.empty()) {
    add_body_forces(model.structure, {0, 0, 9.81}, loads);
  }
  return loads;
}

TEST(Cut, AnswersTheStagesOfTheExamples) {
  int stages = 0;
  for (const auto& file :
       std::filesystem::recursive_directory_iterator(RIG_SOURCE_DIR "/examples")) {
    if (!file.path().string().ends_with(".rig.json")) continue;
    std::ifstream in(file.path());
    const std::string text((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    const auto read = build::read_build(text);
    if (!read) continue;
    const build::Build& build = read->build;
    const auto weights = [&](const Model& model, std::size_t k) {
      return own_weight(build, model, k);
    };
    SectionBook book;
    const auto all = solve_cuts(build, {build, build.frame.stages.size(), book}, weights);
    for (std::size_t i = 0; i < build.frame.stages.size(); ++i) {
      const auto cut = solve_cut(build, i, weights);
      ASSERT_TRUE(cut.has_value())
          << file.path() << " " << cut.error().front().path << " " << cut.error().front().message;
      EXPECT_TRUE(std::isfinite(cut->change.height.change_m));
      // Steel on four stands: no more than bends a bare frame.
      EXPECT_LT(std::abs(cut->change.height.change_m), 0.002) << file.path() << i;
      EXPECT_LT(cut->change.stress.worst.von_mises_Pa, 60e6) << file.path() << i;
      ASSERT_TRUE(all[i].has_value());
      EXPECT_NEAR(all[i]->change.height.change_m, cut->change.height.change_m, 1e-9);
      EXPECT_EQ(all[i]->verdict, cut->verdict);
      ++stages;
    }
  }
  EXPECT_GE(stages, 6);
}

TEST(Cut, SaysThePlacesInShopWords) {
  const build::Build build = build_stages({stage({}, {"middle"})});
  const StageCut cut = cut_of(build, 0, Weights{});
  EXPECT_NE(cut.change.height.words.find("frame rail, "), std::string::npos)
      << cut.change.height.words;
  EXPECT_NE(cut.parts[0].first.words.find("bent by"), std::string::npos)
      << cut.parts[0].first.words;
  // Frame and weights are alike on both sides: what shears the tube along the truck is rounding.
  EXPECT_EQ(cut.parts[0].first.shear_lengthwise_N, 0);
  EXPECT_EQ(cut.parts[0].first.words.find("fore and aft"), std::string::npos)
      << cut.parts[0].first.words;
  EXPECT_EQ(cut.parts[0].words, "middle tube");
  EXPECT_NE(cut.change.stress.worst.words.find(", "), std::string::npos)
      << cut.change.stress.worst.words;
}

}  // namespace
}  // namespace rig::frame
