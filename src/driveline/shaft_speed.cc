#include "driveline/shaft_speed.h"

#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <cmath>
#include <string>

#include "driveline/shaft_beam_internal.h"
#include "geometry/matrix.h"

namespace rig::driveline {
namespace {

constexpr double kLengthRounding = 1e-9;  ///< Of a length that was added up.
/// In units in which one even pinned span has pi^4: below this nothing but rounding holds the
/// shaft.
constexpr double kLeastSpeedSquared = 1e-6;

Diagnostics check_beam(const ShaftBeam& beam) {
  Diagnostics faults;
  if (beam.pieces.empty()) {
    faults.push_back({.code = "driveline.no_pieces",
                      .path = "/pieces",
                      .message = "A shaft of no pieces.",
                      .remedy = "Give at least one tube with its length."});
  }
  double length_m = 0;
  for (std::size_t i = 0; i < beam.pieces.size(); ++i) {
    const ShaftPiece& piece = beam.pieces[i];
    const std::string path = fmt::format("/pieces/{}", i);
    const Diagnostics of_tube = check_tube(piece.tube, path);
    faults.insert(faults.end(), of_tube.begin(), of_tube.end());
    check_positive(piece.length_m, path + "/length", "A length", "m", faults);
    check_positive(piece.modulus_Pa, path + "/modulus", "A modulus", "Pa", faults);
    check_positive(piece.density_kg_per_m3, path + "/density", "A density", "kg/m3", faults);
    length_m += piece.length_m;
  }
  for (std::size_t i = 0; i < beam.pieces.size(); ++i) {
    if (!(beam.pieces[i].length_m < internal::kLeastPieceShare * length_m)) continue;
    faults.push_back({.code = "driveline.piece_too_short",
                      .path = fmt::format("/pieces/{}/length", i),
                      .message = fmt::format("A piece of {} m in a shaft of {} m.",
                                             beam.pieces[i].length_m, length_m),
                      .remedy = "Leave it out, or give it as a mass."});
  }
  const auto check_place = [&](double at_m, const std::string& path) {
    if (at_m >= 0 && at_m <= length_m * (1 + kLengthRounding)) return;
    faults.push_back({.code = "driveline.place_outside",
                      .path = path + "/at",
                      .message = fmt::format("{} m along a shaft of {} m.", at_m, length_m),
                      .remedy = "Give a place on the shaft."});
  };
  for (std::size_t i = 0; i < beam.masses.size(); ++i) {
    const std::string path = fmt::format("/masses/{}", i);
    check_place(beam.masses[i].at_m, path);
    check_positive(beam.masses[i].mass_kg, path + "/mass", "A mass", "kg", faults);
  }
  for (std::size_t i = 0; i < beam.supports.size(); ++i) {
    const std::string path = fmt::format("/supports/{}", i);
    check_place(beam.supports[i].at_m, path);
    if (const auto& stiffness = beam.supports[i].stiffness_N_per_m) {
      check_positive(*stiffness, path + "/stiffness", "A stiffness", "N/m", faults);
    }
  }
  return faults;
}

}  // namespace

Result<CriticalSpeed> calc_critical_speed(const ShaftTube& tube, double length_m, double modulus_Pa,
                                          double density_kg_per_m3) {
  Diagnostics faults = check_tube(tube);
  check_positive(length_m, "/length", "A length", "m", faults);
  check_positive(modulus_Pa, "/modulus", "A modulus", "Pa", faults);
  check_positive(density_kg_per_m3, "/density", "A density", "kg/m3", faults);
  if (!faults.empty()) return Failure{std::move(faults)};
  const TubeSection section = calc_tube_section(tube);
  const double wave_per_m = std::numbers::pi / length_m;
  return CriticalSpeed{
      wave_per_m * wave_per_m *
      std::sqrt(modulus_Pa * section.second_moment_m4 / (density_kg_per_m3 * section.area_m2))};
}

Result<CriticalSpeed> solve_critical_speed(const ShaftBeam& beam) {
  if (Diagnostics faults = check_beam(beam); !faults.empty()) return Failure{std::move(faults)};
  const internal::BeamMatrices matrices = internal::make_beam_matrices(beam);
  // K x = speed^2 M x as inv(L) M inv(L)^T y = y / speed^2 with K = L L^T.
  const Eigen::LLT<Eigen::MatrixXd> factor(matrices.K);
  double speed_squared = 0;
  if (factor.info() == Eigen::Success) {
    Eigen::MatrixXd A = factor.matrixL().solve(matrices.M);
    A = factor.matrixL().solve(A.transpose()).eval();
    speed_squared = 1 / find_axis_values(A).maxCoeff();
  }
  if (!(speed_squared > kLeastSpeedSquared)) {
    return fail("driveline.shaft_not_held", "/supports",
                "The shaft can move sideways without bending.",
                "Hold it in two places, and once more for each joint between its pieces.");
  }
  return CriticalSpeed{std::sqrt(speed_squared) * matrices.unit_rad_per_s};
}

}  // namespace rig::driveline
