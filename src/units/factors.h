#pragma once

#include <numbers>

/// Conversion factors of the shop's units, exact by definition unless said otherwise.
/// Source: NIST SP 811 (2008), Appendix B.
namespace rig::units {

inline constexpr double kInch_m = 0.0254;
inline constexpr double kFoot_m = 0.3048;
inline constexpr double kMile_m = 1609.344;
inline constexpr double kPound_kg = 0.45359237;
inline constexpr double kOunce_kg = kPound_kg / 16.0;
inline constexpr double kStandardGravity_m_per_s2 = 9.80665;
inline constexpr double g = kStandardGravity_m_per_s2;  ///< As formulas write it.
inline constexpr double kPoundForce_N = kPound_kg * kStandardGravity_m_per_s2;
inline constexpr double kKilogramForce_N = kStandardGravity_m_per_s2;
inline constexpr double kDegree_rad = std::numbers::pi / 180.0;
inline constexpr double kCubicInch_m3 = kInch_m * kInch_m * kInch_m;
inline constexpr double kCubicFoot_m3 = kFoot_m * kFoot_m * kFoot_m;
inline constexpr double kGallonUS_m3 = 231.0 * kCubicInch_m3;
inline constexpr double kQuartUS_m3 = kGallonUS_m3 / 4.0;
inline constexpr double kLitre_m3 = 0.001;
inline constexpr double kHour_s = 3600.0;
inline constexpr double kRpm_rad_per_s = std::numbers::pi / 30.0;
inline constexpr double kPsi_Pa = kPoundForce_N / (kInch_m * kInch_m);
inline constexpr double kPoundForceFoot_Nm = kPoundForce_N * kFoot_m;
inline constexpr double kPoundForceInch_Nm = kPoundForce_N * kInch_m;

inline constexpr double m_from_inch(double inch) { return inch * kInch_m; }
inline constexpr double inch_from_m(double m) { return m / kInch_m; }
inline constexpr double kg_from_lb(double lb) { return lb * kPound_kg; }
inline constexpr double lb_from_kg(double kg) { return kg / kPound_kg; }
inline constexpr double N_from_lbf(double lbf) { return lbf * kPoundForce_N; }
inline constexpr double lbf_from_N(double newton) { return newton / kPoundForce_N; }
inline constexpr double rad_from_deg(double deg) { return deg * kDegree_rad; }
inline constexpr double deg_from_rad(double rad) { return rad / kDegree_rad; }
inline constexpr double N_per_m_from_lbf_per_inch(double rate) {
  return rate * kPoundForce_N / kInch_m;
}
inline constexpr double kg_per_m3_from_lb_per_gal(double density) {
  return density * kPound_kg / kGallonUS_m3;
}
inline constexpr double lb_per_gal_from_kg_per_m3(double density) {
  return density * kGallonUS_m3 / kPound_kg;
}

}  // namespace rig::units
