#include "driveline/modes.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>

#include "driveline/test_cases_internal.h"

namespace rig::driveline {
namespace {

using testing::make_three_cases;

RC_GTEST_PROP(Modes, SharesOfEnergyAddUpAndFrequenciesToTheTrace, ()) {
  CaseLine line = make_three_cases();
  for (CaseMount& mount : line.mounts) mount.K_V *= *rc::gen::inRange(1, 30) / 10.0;
  line.cases[2].p_VoCm_V.y() = *rc::gen::inRange(-100, 100) / 1000.0;
  const auto modes = solve_modes(line);
  RC_ASSERT(modes.has_value());
  double squares = 0;
  for (const RigidMode& mode : modes->modes) {
    const double sum = std::accumulate(mode.energy_share.begin(), mode.energy_share.end(), 0.0);
    RC_ASSERT(std::abs(sum - 1) < 1e-9);
    squares += std::pow(2 * std::numbers::pi * mode.frequency_Hz, 2);
  }
  // trace of M^-1 K [references EM-03], the translations' part in closed form.
  const Vec3 middle = line.p_VoCm_V();
  const Mat3 inverse = line.I_Cm_V().inverse();
  double trace = 0;
  for (const CaseMount& mount : line.mounts) {
    const Vec3 r = mount.p_VoM_V - middle;
    trace += mount.K_V.trace() / line.mass_kg();
    Mat3 turned;
    for (Eigen::Index i = 0; i < 3; ++i) {
      turned.col(i) = r.cross(mount.K_V * Vec3::Unit(i).cross(r));
    }
    trace += (inverse * turned).trace();
  }
  RC_ASSERT(std::abs(squares - trace) < 1e-6 * trace);
}

TEST(Modes, APointMassHasNothingToTurn) {
  CaseLine line = make_three_cases();
  for (Case& one : line.cases) {
    one.I_Cm_V.setZero();
    one.p_VoCm_V = Vec3(one.p_VoCm_V.x(), 0, 0);
  }
  const auto modes = solve_modes(line);
  ASSERT_FALSE(modes.has_value());
  EXPECT_EQ(modes.error().front().code, "driveline.no_inertia");
}

TEST(Modes, FiringAndTransmission) {
  EXPECT_NEAR(calc_transmissibility(2, 1), 1.0 / 3, 1e-12);
  EXPECT_NEAR(calc_transmissibility(std::numbers::sqrt2, 1), 1, 1e-12);
}

}  // namespace
}  // namespace rig::driveline
