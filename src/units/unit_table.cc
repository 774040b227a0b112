#include <algorithm>
#include <array>
#include <cctype>
#include <vector>

#include "units/factors.h"
#include "units/unit_table_internal.h"

namespace rig::units::internal {
namespace {

using D = Dimension;

// Metric factors that are powers of ten are written as quotients, so that they round once.
constexpr std::array kUnits{
    Unit{"in", D::kLength, kInch_m, "in \" inch inches"},
    Unit{"ft", D::kLength, kFoot_m, "ft ' foot feet"},
    Unit{"mm", D::kLength, 1.0 / 1000, "mm millimeter millimeters millimetre millimetres"},
    Unit{"cm", D::kLength, 1.0 / 100, "cm centimeter centimeters centimetre centimetres"},
    Unit{"m", D::kLength, 1.0, "m meter meters metre metres"},

    Unit{"lb", D::kMass, kPound_kg, "lb lbs lbm pound pounds"},
    Unit{"kg", D::kMass, 1.0, "kg kgs kilogram kilograms"},
    Unit{"oz", D::kMass, kOunce_kg, "oz ounce ounces"},
    Unit{"g", D::kMass, 1.0 / 1000, "g gram grams"},
    Unit{"t", D::kMass, 1000.0, "t tonne tonnes"},

    Unit{"lbf", D::kForce, kPoundForce_N, "lbf lbsf"},
    Unit{"N", D::kForce, 1.0, "N newton newtons"},
    Unit{"kN", D::kForce, 1000.0, "kN"},
    Unit{"kgf", D::kForce, kKilogramForce_N, "kgf"},

    Unit{"deg", D::kAngle, kDegree_rad, "deg degree degrees"},
    Unit{"rad", D::kAngle, 1.0, "rad radian radians"},

    // lb/in and kg/mm: trade habit for spring rates, where a pound is always a pound of force.
    Unit{"lbf/in", D::kStiffness, kPoundForce_N / kInch_m,
         "lbf/in lb/in lbs/in lbf/inch lb/inch lbs/inch #/in"},
    Unit{"N/mm", D::kStiffness, 1000.0, "N/mm"},
    Unit{"N/m", D::kStiffness, 1.0, "N/m"},
    Unit{"kN/m", D::kStiffness, 1000.0, "kN/m"},
    Unit{"kN/mm", D::kStiffness, 1e6, "kN/mm"},
    Unit{"lbf/ft", D::kStiffness, kPoundForce_N / kFoot_m, "lbf/ft lb/ft"},
    Unit{"kgf/mm", D::kStiffness, kKilogramForce_N * 1000, "kgf/mm kg/mm"},

    Unit{"lbf·s/in", D::kDamping, kPoundForce_N / kInch_m,
         "lbf*s/in lb*s/in lbfs/in lbf*sec/in lb*sec/in"},
    Unit{"N·s/m", D::kDamping, 1.0, "N*s/m Ns/m"},
    Unit{"N·s/mm", D::kDamping, 1000.0, "N*s/mm Ns/mm"},
    Unit{"kN·s/m", D::kDamping, 1000.0, "kN*s/m kNs/m"},

    Unit{"lb-ft", D::kTorque, kPoundForceFoot_Nm,
         "lb*ft lbf*ft ft*lb ft*lbf lbft lbfft ftlb ftlbf lbs*ft ft*lbs ftlbs"},
    Unit{"lbf-in", D::kTorque, kPoundForceInch_Nm,
         "lbf*in lb*in in*lb in*lbf lbfin lbin inlb inlbf in*lbs lbs*in"},
    Unit{"N·m", D::kTorque, 1.0, "N*m Nm"},
    Unit{"kN·m", D::kTorque, 1000.0, "kN*m kNm"},
    Unit{"kgf·m", D::kTorque, kKilogramForce_N, "kgf*m kgfm"},

    Unit{"lb-ft/deg", D::kAngularStiffness, kPoundForceFoot_Nm / kDegree_rad,
         "lb*ft/deg lbf*ft/deg ft*lb/deg ft*lbf/deg lbft/deg ftlb/deg"},
    Unit{"lbf-in/deg", D::kAngularStiffness, kPoundForceInch_Nm / kDegree_rad,
         "lbf*in/deg lb*in/deg in*lb/deg in*lbf/deg lbfin/deg inlb/deg"},
    Unit{"N·m/deg", D::kAngularStiffness, 1.0 / kDegree_rad, "N*m/deg Nm/deg"},
    Unit{"N·m/rad", D::kAngularStiffness, 1.0, "N*m/rad Nm/rad"},
    Unit{"lb-ft/rad", D::kAngularStiffness, kPoundForceFoot_Nm,
         "lb*ft/rad lbf*ft/rad ft*lb/rad ft*lbf/rad"},
    Unit{"lbf-in/rad", D::kAngularStiffness, kPoundForceInch_Nm,
         "lbf*in/rad lb*in/rad in*lb/rad in*lbf/rad"},

    Unit{"gal", D::kVolume, kGallonUS_m3, "gal gals gallon gallons gal*us us*gal usgal"},
    Unit{"qt", D::kVolume, kQuartUS_m3, "qt qts quart quarts"},
    Unit{"L", D::kVolume, kLitre_m3, "L l liter liters litre litres"},
    Unit{"ml", D::kVolume, kLitre_m3 / 1000, "ml cc cm3"},
    Unit{"in3", D::kVolume, kCubicInch_m3, "in3 cu*in cuin ci"},
    Unit{"ft3", D::kVolume, kCubicFoot_m3, "ft3 cu*ft cuft"},
    Unit{"m3", D::kVolume, 1.0, "m3"},

    Unit{"lb/gal", D::kDensity, kPound_kg / kGallonUS_m3, "lb/gal lbs/gal"},
    Unit{"lb/ft3", D::kDensity, kPound_kg / kCubicFoot_m3, "lb/ft3 lbs/ft3 lb/cu*ft"},
    Unit{"lb/in3", D::kDensity, kPound_kg / kCubicInch_m3, "lb/in3 lbs/in3 lb/cu*in"},
    Unit{"kg/L", D::kDensity, 1000.0, "kg/L kg/l"},
    Unit{"kg/m3", D::kDensity, 1.0, "kg/m3"},
    Unit{"g/cm3", D::kDensity, 1000.0, "g/cm3 g/cc g/ml"},

    Unit{"psi", D::kPressure, kPsi_Pa, "psi lbf/in2 lb/in2"},
    Unit{"kPa", D::kPressure, 1000.0, "kPa"},
    Unit{"bar", D::kPressure, 1e5, "bar"},
    Unit{"MPa", D::kPressure, 1e6, "MPa N/mm2"},
    Unit{"Pa", D::kPressure, 1.0, "Pa N/m2"},

    Unit{"ksi", D::kStress, 1000 * kPsi_Pa, "ksi kip/in2"},
    Unit{"psi", D::kStress, kPsi_Pa, "psi lbf/in2 lb/in2"},
    Unit{"MPa", D::kStress, 1e6, "MPa N/mm2"},
    Unit{"GPa", D::kStress, 1e9, "GPa kN/mm2"},
    Unit{"kPa", D::kStress, 1000.0, "kPa"},
    Unit{"Pa", D::kStress, 1.0, "Pa N/m2"},

    Unit{"mph", D::kSpeed, kMile_m / kHour_s, "mph mi/h"},
    Unit{"km/h", D::kSpeed, 1000.0 / kHour_s, "km/h kph kmh km/hr"},
    Unit{"m/s", D::kSpeed, 1.0, "m/s"},
    Unit{"ft/s", D::kSpeed, kFoot_m, "ft/s fps"},

    Unit{"rpm", D::kAngularSpeed, kRpm_rad_per_s, "rpm r/min rev/min 1/min"},
    Unit{"rad/s", D::kAngularSpeed, 1.0, "rad/s"},

    Unit{":1", D::kGearRatio, 1.0, ":1 :*1 to*1"},

    Unit{"%", D::kRatio, 1.0 / 100, "% percent"},
};

char to_lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

bool equal_but_for_capitals(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return to_lower(x) == to_lower(y); });
}

/// Calls `visit(alias)` for each alias until it returns true; whether one did.
template <typename Visit>
bool any_alias(const Unit& unit, Visit visit) {
  std::string_view rest = unit.aliases;
  while (!rest.empty()) {
    const std::size_t end = std::min(rest.find(' '), rest.size());
    if (visit(rest.substr(0, end))) return true;
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  return false;
}

/// Levenshtein distance, capitals ignored.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = diagonal + (to_lower(a[i - 1]) == to_lower(b[j - 1]) ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({changed, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

bool is_joiner(char c) { return c == '*' || c == '-' || c == ' '; }

}  // namespace

std::span<const Unit> all_units() { return kUnits; }

std::string canonical_unit(std::string_view folded) {
  std::string text(folded);
  for (std::size_t at = text.find(" per "); at != std::string::npos; at = text.find(" per ")) {
    text.replace(at, 5, 1, '/');
  }
  std::string out;
  bool joined = false;  // a joiner was passed since the last character kept
  for (const char c : text) {
    if (is_joiner(c)) {
      joined = true;
      continue;
    }
    if (c == '^') continue;
    if (c == '.' && !out.empty() && std::isalpha(static_cast<unsigned char>(out.back())) != 0) {
      continue;
    }
    if (joined && !out.empty() && out.back() != '/' && c != '/') out += '*';
    joined = false;
    out += c;
  }
  return out;
}

const Unit* find_unit(std::string_view canonical, Dimension preferred) {
  const auto find = [preferred](auto is_spelling) {
    const Unit* found = nullptr;
    for (const Unit& unit : kUnits) {
      if (!any_alias(unit, is_spelling)) continue;
      if (unit.dimension == preferred) return &unit;
      if (found == nullptr) found = &unit;
    }
    return found;
  };
  const Unit* found = find([&](std::string_view alias) { return alias == canonical; });
  if (found != nullptr || canonical.size() < 2) return found;
  return find([&](std::string_view alias) { return equal_but_for_capitals(alias, canonical); });
}

const Unit* find_nearest_unit(std::string_view canonical, Dimension dimension) {
  constexpr std::size_t kLongestUnit = 24;
  if (canonical.empty() || canonical.size() > kLongestUnit) return nullptr;
  const Unit* nearest = nullptr;
  std::size_t least = 3;
  const auto consider = [&](const Unit& unit) {
    any_alias(unit, [&](std::string_view alias) {
      const std::size_t shorter = std::min(alias.size(), canonical.size());
      if (std::max(alias.size(), canonical.size()) - shorter >= least) return false;
      const std::size_t distance = edit_distance(alias, canonical);
      if (distance < least && distance < shorter) {
        least = distance;
        nearest = &unit;
      }
      return false;
    });
  };
  for (const Unit& unit : kUnits) {
    if (unit.dimension == dimension) consider(unit);
  }
  for (const Unit& unit : kUnits) {
    if (unit.dimension != dimension) consider(unit);
  }
  return nearest;
}

std::string list_units(Dimension dimension) {
  std::vector<std::string_view> names;
  for (const Unit& unit : kUnits) {
    if (unit.dimension == dimension) names.push_back(unit.name);
  }
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " or " : ", ";
    text += names[i];
  }
  return text;
}

}  // namespace rig::units::internal
