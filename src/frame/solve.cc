#include "frame/solve.h"

#include <fmt/format.h>

#include <cmath>

#include "frame/assembly_internal.h"
#include "frame/faults_internal.h"
#include "frame/holds_internal.h"
#include "frame/index_internal.h"

namespace rig::frame {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// A pivot below this share of its diagonal may be that of a mechanism, so that the softest motion
/// is looked at. Ladders up to 20,000 beams have none below 1.5e-4, the examples none below 2e-6.
constexpr double kSuspicious = 1e-8;
/// A motion is free when it strains the frame less than this share of what its freedoms, each on
/// its own, would. Rounding leaves some 1e-23, the softest motion of a ladder of 20,000 beams
/// 2e-14.
constexpr double kFree = 1e-18;
/// What is left over counts as none below this share of the loads.
constexpr double kBalanced = 1e-6;

/// Softest motion, of energy 1/2 if each freedom moved on its own: inverse iteration on the
/// stiffness with a trace of its diagonal added, from a start with a share in everything. The trace
/// grows where rounding leaves less than nothing.
VectorXd find_softest(const Skyline& stiffness) {
  constexpr double kTrace = 1e-12;
  constexpr int kIterations = 6;
  const VectorXd diagonal = stiffness.diagonal();
  const auto factorise = [&](double trace) {
    Skyline traced = stiffness;
    for (int i = 0; i < traced.size(); ++i) traced.entry(i, i) += trace * diagonal[i];
    return SkylineFactors(std::move(traced));
  };
  SkylineFactors factors = factorise(kTrace);
  for (double trace = 10 * kTrace; !(factors.smallest_pivot() > 0) && trace < 1; trace *= 10) {
    factors = factorise(trace);
  }
  VectorXd x(diagonal.size());
  for (Index i = 0; i < x.size(); ++i) {
    x[i] = (1 + std::fmod(static_cast<double>(i) * 0.6180339887, 1.0)) / std::sqrt(diagonal[i]);
  }
  for (int i = 0; i < kIterations; ++i) {
    x = diagonal.cwiseProduct(x).eval();
    factors.solve_in_place(x);
    x /= std::sqrt(x.dot(diagonal.cwiseProduct(x)));
  }
  return x;
}

Failure tell_mechanism(const Structure& structure, const Freedoms& freedoms, Index freedom) {
  return fail("frame.mechanism", "",
              fmt::format("the frame is loose: {} can move without anything resisting it",
                          words_of_freedom(structure, freedoms, static_cast<int>(freedom))),
              "join it so that it is held, or take out the release");
}

/// The freedom that moves most in a motion that nothing resists; -1 when there is none.
/// @param has_factors  Without them rounding has left nothing of the softest motion's stiffness,
///                     which is as good as none.
Index find_mechanism(const Structure& structure, const Freedoms& freedoms,
                     const std::vector<Element>& elements, const Holds& holds, bool has_factors) {
  Skyline stiffness = assemble_stiffness(structure, freedoms, elements);
  const VectorXd diagonal = stiffness.diagonal();
  for (Index i = 0; i < diagonal.size(); ++i) {
    if (!(diagonal[i] > 0)) return i;
  }
  stiffen(holds, stiffness);
  const VectorXd x = find_softest(stiffness);
  double twice_J = 2 * calc_energy_J(structure, freedoms, elements, x);
  for (const int i : holds.freedoms) twice_J += diagonal[i] * x[i] * x[i];
  if (has_factors && twice_J > kFree) return -1;
  Index most = 0;
  x.cwiseAbs2().cwiseProduct(diagonal).maxCoeff(&most);
  return most;
}

Diagnostics check_loads(const Structure& structure, std::span<const Loads> loads) {
  Diagnostics out;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    for (std::size_t k = 0; k < loads[i].points.size(); ++k) {
      const PointLoad& load = loads[i].points[k];
      if (load.joint < 0 || at(load.joint) >= structure.joints.size()) {
        add_fault(out, "frame.unknown_joint", fmt::format("/{}/points/{}/joint", i, k),
                  fmt::format("a load acts on joint {}, which there is not", load.joint));
      }
      if (!load.p_VoP_V.allFinite() || !load.f_P_V.allFinite() || !load.t_V.allFinite()) {
        add_fault(out, "frame.not_finite", fmt::format("/{}/points/{}", i, k),
                  "a load has a number that is none");
      }
    }
    for (std::size_t k = 0; k < loads[i].lines.size(); ++k) {
      const LineLoad& line = loads[i].lines[k];
      if (line.beam < 0 || at(line.beam) >= structure.beams.size()) {
        add_fault(out, "frame.unknown_beam", fmt::format("/{}/lines/{}/beam", i, k),
                  fmt::format("a load lies on beam {}, which there is not", line.beam));
      }
      if (!line.f_per_m_V.allFinite() || !line.p_OP.allFinite()) {
        add_fault(out, "frame.not_finite", fmt::format("/{}/lines/{}", i, k),
                  "a load has a number that is none");
      }
    }
    for (std::size_t k = 0; k < loads[i].scalars.size(); ++k) {
      const ScalarLoad& load = loads[i].scalars[k];
      if (load.scalar < 0 || at(load.scalar) >= structure.scalars.size()) {
        add_fault(out, "frame.unknown_scalar", fmt::format("/{}/scalars/{}/scalar", i, k),
                  fmt::format("a load acts on scalar {}, which there is not", load.scalar));
      }
      if (!std::isfinite(load.force)) {
        add_fault(out, "frame.not_finite", fmt::format("/{}/scalars/{}", i, k),
                  "a load has a number that is none");
      }
    }
  }
  return out;
}

Response make_response(const Structure& structure, const Freedoms& freedoms, const VectorXd& x) {
  Response out;
  for (std::size_t j = 0; j < structure.joints.size(); ++j) {
    const PointMotion motion =
        calc_motion(structure, freedoms, x, static_cast<int>(j), structure.joints[j].p_VoJ_V);
    out.displacement_V.push_back(motion.displacement_V);
    out.rotation_V.push_back(motion.rotation_V);
  }
  for (const ScalarMotion& scalar : freedoms.scalars) {
    out.scalar.push_back(scalar.freedom < 0 ? 0 : scalar.ratio * x[scalar.freedom]);
  }
  return out;
}

}  // namespace

struct Solver::Impl {
  explicit Impl(Shared<Structure> of) : kept(std::move(of)), structure(*kept) {}

  Shared<Structure> kept;
  const Structure& structure;
  Freedoms freedoms;
  std::vector<Element> elements;
  Holds holds;
  SkylineFactors factors;  ///< Of the stiffness.

  Result<std::vector<Response>> solve(std::span<const Loads> loads, bool balanced) const {
    if (Diagnostics faults = check_loads(structure, loads); !faults.empty()) {
      return Failure{std::move(faults)};
    }
    if (balanced) {
      if (Diagnostics faults = check_balance(loads); !faults.empty()) {
        return Failure{std::move(faults)};
      }
    }
    Eigen::MatrixXd x = Eigen::MatrixXd::Zero(freedoms.count, static_cast<Index>(loads.size()));
    for (std::size_t i = 0; i < loads.size(); ++i) {
      add_loads(structure, freedoms, elements, loads[i], x.col(static_cast<Index>(i)));
    }
    factors.solve_in_place(x);
    std::vector<Response> out;
    for (Index i = 0; i < x.cols(); ++i) {
      bring_back(structure, freedoms, holds, x.col(i));
      out.push_back(make_response(structure, freedoms, x.col(i)));
    }
    return out;
  }

  Diagnostics check_balance(std::span<const Loads> loads) const {
    Diagnostics out;
    for (std::size_t i = 0; i < loads.size(); ++i) {
      const Unbalance left = calc_unbalance(structure, holds, loads[i]);
      if (!(left.share > kBalanced)) continue;
      out.push_back(
          {.code = "frame.load_not_balanced",
           .path = fmt::format("/{}", i),
           .message = fmt::format(
               "nothing holds the frame, and its loads leave over a force of {:.3g} N forward, "
               "{:.3g} N left, {:.3g} N up and a moment of {:.3g}, {:.3g}, {:.3g} N m about its "
               "middle: {:.2g} of their size",
               left.f_V.x(), left.f_V.y(), left.f_V.z(), left.t_M_V.x(), left.t_M_V.y(),
               left.t_M_V.z(), left.share),
           .remedy = "loads in equilibrium, or springs to the ground",
           .at = {}});
    }
    return out;
  }
};

Solver::Solver(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

Result<Solver> Solver::make(Shared<Structure> structure) {
  if (Diagnostics faults = check_structure(*structure); !faults.empty()) {
    return Failure{std::move(faults)};
  }
  auto impl = std::make_shared<Impl>(std::move(structure));
  const Structure& s = impl->structure;
  impl->freedoms = make_freedoms(s);
  impl->elements.reserve(s.beams.size());
  for (const Beam& beam : s.beams) impl->elements.push_back(make_element(s, beam));
  impl->holds = make_holds(s, impl->freedoms);
  Skyline stiffness = assemble_stiffness(s, impl->freedoms, impl->elements);
  stiffen(impl->holds, stiffness);
  impl->factors = SkylineFactors(std::move(stiffness));
  if (!(impl->factors.smallest_pivot() > kSuspicious)) {
    const bool has_factors = impl->factors.smallest_pivot() > 0;
    const Index loose = find_mechanism(s, impl->freedoms, impl->elements, impl->holds, has_factors);
    if (loose >= 0) return tell_mechanism(s, impl->freedoms, loose);
  }
  return Solver(std::move(impl));
}

const Structure& Solver::structure() const { return impl_->structure; }

Result<std::vector<Response>> Solver::solve(std::span<const Loads> loads) const {
  return impl_->solve(loads, true);
}

Result<std::vector<Response>> Solver::solve_held(std::span<const Loads> loads) const {
  return impl_->solve(loads, false);
}

}  // namespace rig::frame
