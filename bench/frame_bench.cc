// A ladder frame, from its beams to its answers: how the cost grows with the number of beams, and
// what an example-size frame costs stage by stage, each stage a stiffness and loads of its own.

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>

#include "frame/index_internal.h"
#include "frame/solve.h"
#include "frame/wall_mode.h"
#include "section/shapes.h"

namespace rig::frame {
namespace {

BeamSection make_steel(const section::Section& section) {
  return *make_beam_section(section, 207e9, 79.6e9, 7850);
}

/// Two channel rails of pieces and a tube across at every sixth joint, on the webs.
Structure make_ladder(int pieces_per_rail, double length_m) {
  const section::Section right =
      *section::make_channel({.depth_m = 0.18, .flange_m = 0.065, .thickness_m = 0.005});
  Structure s;
  s.members = {{"right", "right rail"}, {"left", "left rail"}, {"tube", "crossmember"}};
  s.sections = {
      make_steel(right), make_steel(mirror_section(right)),
      make_steel(*section::make_round_tube({.outside_diameter_m = 0.08, .thickness_m = 0.004}))};
  for (int side = 0; side < 2; ++side) {
    const int first = static_cast<int>(s.joints.size());
    for (int i = 0; i <= pieces_per_rail; ++i) {
      s.joints.push_back(
          {.p_VoJ_V = {-length_m * i / pieces_per_rail, side == 0 ? -0.4 : 0.4, 0.6}});
      s.scalars.push_back({});
    }
    for (int i = first; i < first + pieces_per_rail; ++i) {
      s.beams.push_back({.from = i + 1,
                         .to = i,
                         .p_VoF_V = s.joints[at(i + 1)].p_VoJ_V,
                         .p_VoT_V = s.joints[at(i)].p_VoJ_V,
                         .section = side,
                         .warp_from = i + 1,
                         .warp_to = i,
                         .member = side});
    }
  }
  const section::WallPoint web{.wall = section::find_wall(right, "web"), .share = 0.5};
  for (int i = 0; i < pieces_per_rail; i += 6) {
    Beam tube{.y_V = Vec3::UnitX(), .section = 2, .member = 2};
    for (int side = 0; side < 2; ++side) {
      const int joint = i + side * (pieces_per_rail + 1);
      const auto mode = make_wall_mode(s, i + side * pieces_per_rail, BeamEnd::to, web);
      s.joints.push_back(
          {.p_VoJ_V = s.joints[at(joint)].p_VoJ_V, .follows = joint, .modes = {*mode}});
      (side == 0 ? tube.from : tube.to) = static_cast<int>(s.joints.size()) - 1;
      (side == 0 ? tube.p_VoF_V : tube.p_VoT_V) = s.joints.back().p_VoJ_V;
    }
    s.beams.push_back(tube);
  }
  return s;
}

/// Own weight and a load, on one of the joints and its opposite, brought to balance far apart.
Loads make_loads(const Structure& s, int rail_joints, int which) {
  Loads loads;
  add_body_forces(s, {0.1 * which, 0, 9.81}, loads);
  const auto push = [&](int joint, const Vec3& f_V) {
    loads.points.push_back({.joint = joint, .p_VoP_V = s.joints[at(joint)].p_VoJ_V, .f_P_V = f_V});
  };
  push((which * 7) % rail_joints, {0, 0, -4000});
  push(rail_joints + (which * 5) % rail_joints, {300, 500, -2000});
  const Resultant left = calc_resultant(s, loads);
  const Vec3& p = s.joints[0].p_VoJ_V;
  loads.points.push_back(
      {.joint = 0, .p_VoP_V = p, .f_P_V = -left.f_V, .t_V = -(left.t_Vo_V - p.cross(left.f_V))});
  return loads;
}

/// Largest force that a rail joint without crossmember is left with, as a share of the largest in
/// the beams.
double calc_residual(const Structure& s, const Loads& loads, const Response& response,
                     int rail_pieces) {
  double largest_N = 0, left_N = 0;
  for (int i = 0; i + 1 < std::min(rail_pieces, 40); ++i) {
    if (i % 6 == 5) continue;
    const BeamEnds a = calc_beam_ends(s, loads, response, i);
    const BeamEnds b = calc_beam_ends(s, loads, response, i + 1);
    Vec3 f_V = a.f_F_V + b.f_T_V;
    for (const PointLoad& load : loads.points) {
      if (load.joint == i + 1) f_V += load.f_P_V;
    }
    left_N = std::max(left_N, f_V.norm());
    largest_N = std::max(largest_N, a.f_F_V.norm());
  }
  return left_N / largest_N;
}

void check(benchmark::State& state, double residual) {
  state.counters["residual"] = residual;
  if (!(residual < 1e-6)) state.SkipWithError("a joint is not in equilibrium");
}

void LadderBySize(benchmark::State& state) {
  const int pieces = static_cast<int>(state.range(0) * 12 / 25);
  const Structure s = make_ladder(pieces, 5.0 * pieces / 60);
  const Loads loads = make_loads(s, pieces + 1, 3);
  double residual = 0;
  for (auto _ : state) {
    const auto solver = Solver::make(s);
    if (!solver) {
      state.SkipWithError(solver.error()[0].message.c_str());
      return;
    }
    const auto responses = solver->solve({&loads, 1});
    if (!responses) {
      state.SkipWithError(responses.error()[0].message.c_str());
      return;
    }
    state.PauseTiming();
    residual = calc_residual(s, loads, responses->front(), pieces);
    state.ResumeTiming();
  }
  const auto beams = static_cast<double>(s.beams.size());
  state.counters["beams"] = beams;
  state.counters["per_beam"] = benchmark::Counter(
      beams, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
  check(state, residual);
}
BENCHMARK(LadderBySize)
    ->Arg(125)
    ->Arg(500)
    ->Arg(2000)
    ->Arg(8000)
    ->Arg(20000)
    ->Unit(benchmark::kMillisecond);

struct Example {
  Structure s = make_ladder(54, 5);
  std::vector<Loads> loads;

  Example() {
    for (int i = 0; i < 12; ++i) loads.push_back(make_loads(s, 55, i));
  }
};

void ExampleStiffness(benchmark::State& state) {
  const Example example;
  for (auto _ : state) benchmark::DoNotOptimize(Solver::make(example.s));
  state.counters["beams"] = static_cast<double>(example.s.beams.size());
}
BENCHMARK(ExampleStiffness)->Unit(benchmark::kMicrosecond);

void ExampleSolve12Loads(benchmark::State& state) {
  const Example example;
  const auto solver = Solver::make(example.s);
  for (auto _ : state) benchmark::DoNotOptimize(solver->solve(example.loads));
}
BENCHMARK(ExampleSolve12Loads)->Unit(benchmark::kMicrosecond);

void ExampleForces12Loads(benchmark::State& state) {
  const Example example;
  const auto responses = Solver::make(example.s)->solve(example.loads);
  for (auto _ : state) {
    for (std::size_t i = 0; i < example.loads.size(); ++i) {
      for (const BeamForces& beam :
           calc_all_beam_forces(example.s, example.loads[i], (*responses)[i])) {
        for (const double share : {0.0, 0.5, 1.0}) benchmark::DoNotOptimize(beam.at(share));
      }
    }
  }
  check(state, calc_residual(example.s, example.loads[3], (*responses)[3], 54));
}
BENCHMARK(ExampleForces12Loads)->Unit(benchmark::kMicrosecond);

void ExampleEightStages(benchmark::State& state) {
  const Example example;
  for (auto _ : state) {
    for (int stage = 0; stage < 8; ++stage) {
      const auto solver = Solver::make(example.s);
      benchmark::DoNotOptimize(solver->solve(example.loads));
    }
  }
}
BENCHMARK(ExampleEightStages)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace rig::frame
