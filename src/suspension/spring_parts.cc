#include <fmt/format.h>

#include <cmath>

#include "suspension/coil_wire.h"
#include "suspension/leaf_rate.h"
#include "suspension/spring_parts_internal.h"

namespace rig::suspension {
namespace {

/// Shear stress (with the shear-only factor) that spring wire stands after its set was taken out,
/// as a share of its tensile strength. [Shigley] Table 10-6, upper end for hardened and tempered
/// steel (from memory).
constexpr double kGreatestShareOfStrength = 0.75;

constexpr const char* kCoilUse = "how it sits";

void add_fault(Notes& notes, std::string code, std::string path, std::string message,
               std::string remedy) {
  notes.faults.push_back({.code = std::move(code),
                          .path = std::move(path),
                          .message = std::move(message),
                          .remedy = std::move(remedy),
                          .at = {}});
}

/// The wire when all of it is known and it can be wound so.
std::optional<CoilWire> read_wire(const build::Entry<build::Coil>& coil, Notes& notes) {
  const build::CoilWire& wire = *coil.value.wire;
  const std::string path = coil.path + "/wire";
  bool known = true;
  const auto need = [&](bool given, const char* key, const char* what) {
    if (given) return;
    known = false;
    notes.missing.push_back({path + key, what, "its rate and solid length from its wire"});
  };
  need(wire.diameter.known(), "/diameter", "diameter of the wire");
  need(wire.mean_diameter.known(), "/mean_diameter", "mean diameter of the coil");
  need(wire.active_turns.known(), "/active_turns", "active turns");
  if (!known) return std::nullopt;
  if (wire.mean_diameter.si <= wire.diameter.si) {
    add_fault(notes, "suspension.impossible_wire", path + "/mean_diameter",
              fmt::format("{}: the wire is as thick as the coil is wide", coil.id),
              "the mean diameter is the coil's outside diameter less one wire diameter");
    return std::nullopt;
  }
  return CoilWire{.diameter_m = wire.diameter.si,
                  .mean_diameter_m = wire.mean_diameter.si,
                  .active_turns = wire.active_turns.si,
                  .ends = wire.ends};
}

std::vector<WorkedOutInput> wire_inputs(const build::Entry<build::Coil>& coil,
                                        std::initializer_list<std::string_view> symbols) {
  const build::CoilWire& wire = *coil.value.wire;
  const std::string path = coil.path + "/wire";
  std::vector<WorkedOutInput> inputs;
  for (const std::string_view symbol : symbols) {
    if (symbol == "d") inputs.push_back({"d", path + "/diameter", wire.diameter.si});
    if (symbol == "D") inputs.push_back({"D", path + "/mean_diameter", wire.mean_diameter.si});
    if (symbol == "Na") {
      inputs.push_back(
          {"Na", path + "/active_turns", wire.active_turns.si, units::Dimension::kRatio});
    }
  }
  return inputs;
}

std::vector<std::string> find_wire_cautions(const CoilWire& wire) {
  std::vector<std::string> cautions;
  const double C = calc_coil_index(wire);
  if (C < kLeastIndex || C > kGreatestIndex) {
    cautions.push_back(
        fmt::format("The coil is {:.3g} wires wide; the formula is good for {:g} to {:g}.", C,
                    kLeastIndex, kGreatestIndex));
  }
  if (wire.active_turns < kLeastTurns || wire.active_turns > kMostTurns) {
    cautions.push_back(
        fmt::format("It has {:.3g} active turns; the formula is good for {:g} to {:g}.",
                    wire.active_turns, kLeastTurns, kMostTurns));
  }
  return cautions;
}

/// What a free length that goes with the wire makes doubtful.
std::vector<std::string> find_length_cautions(const CoilWire& wire, double rate_N_per_m,
                                              double solid_m, double free_m) {
  std::vector<std::string> cautions;
  const double limit_m = calc_buckling_length_m(wire, CoilSeating::kFlatBothEnds);
  if (free_m > limit_m) {
    cautions.push_back(fmt::format(
        "It is {:.3g} mean diameters long; over {:.3g} it can bow out between flat seats.",
        free_m / wire.mean_diameter_m, limit_m / wire.mean_diameter_m));
  }
  const double factor = calc_coil_stress_factors(calc_coil_index(wire)).shear_only;
  const double stress_Pa = calc_coil_stress_Pa(wire, rate_N_per_m * (free_m - solid_m), factor);
  const double share =
      stress_Pa / calc_wire_strength_Pa(WireSteel::kChromeSilicon, wire.diameter_m);
  if (share > kGreatestShareOfStrength) {
    cautions.push_back(fmt::format(
        "Pressed solid it would be stressed to {:.0f} % of the strength of chrome-silicon wire; "
        "over {:.0f} % it takes a set.",
        100 * share, 100 * kGreatestShareOfStrength));
  }
  return cautions;
}

}  // namespace

CoilNumbers find_coil_numbers(const build::Entry<build::Coil>& coil, Notes notes) {
  const build::Coil& value = coil.value;
  CoilNumbers numbers;
  if (value.rate.known()) numbers.rate_N_per_m = value.rate.si;
  if (value.solid_length.known()) numbers.solid_length_m = value.solid_length.si;
  if (!value.wire) {
    if (!numbers.rate_N_per_m) {
      notes.missing.push_back({coil.path + "/rate", "rate of the coil, or its wire", kCoilUse});
    }
    return numbers;
  }
  const auto wire = read_wire(coil, notes);
  if (!wire) return numbers;
  const double solid_m = calc_solid_length_m(*wire);
  if (!numbers.solid_length_m) {
    if (value.free_length.known() && solid_m >= value.free_length.si) {
      add_fault(notes, "suspension.impossible_wire", coil.path + "/wire/active_turns",
                fmt::format("{}: its turns touch before it is pressed", coil.id),
                "count the turns and measure the wire again: turns times wire is its solid length");
      return numbers;
    }
    numbers.solid_length_m = solid_m;
    notes.worked_out.push_back({.path = coil.path + "/solid_length",
                                .what = "solid length of the coil",
                                .from_what = "wire and turns",
                                .si = solid_m,
                                .dimension = units::Dimension::kLength,
                                .formula = "d (Na + 2) squared and ground, d (Na + 3) squared, "
                                           "d (Na + 1) plain",
                                .source = "Shigley Table 10-1 (from memory)",
                                .inputs = wire_inputs(coil, {"d", "Na"}),
                                .cautions = {}});
  }
  if (!numbers.rate_N_per_m) {
    numbers.rate_N_per_m = calc_coil_rate_N_per_m(*wire);
    WorkedOut out{.path = coil.path + "/rate",
                  .what = "rate of the coil",
                  .from_what = "wire and turns",
                  .si = *numbers.rate_N_per_m,
                  .dimension = units::Dimension::kStiffness,
                  .formula = "k = G d^4 / (8 D^3 Na), G = 79.3 GPa",
                  .source = "Shigley Eq. 10-9; Bhandari ch. 10",
                  .inputs = wire_inputs(coil, {"d", "D", "Na"}),
                  .cautions = find_wire_cautions(*wire)};
    if (value.free_length.known()) {
      for (auto& caution :
           find_length_cautions(*wire, out.si, *numbers.solid_length_m, value.free_length.si)) {
        out.cautions.push_back(std::move(caution));
      }
    }
    notes.worked_out.push_back(std::move(out));
  }
  return numbers;
}

std::optional<double> find_leaf_rate_N_per_m(const build::Entry<build::LeafPack>& pack,
                                             Notes notes) {
  constexpr const char* kUse = "how the leaf springs carry and move";
  const build::LeafPack& value = pack.value;
  if (value.rate.known()) return value.rate.si;
  if (!value.leaves) {
    notes.missing.push_back({pack.path + "/rate", "rate of the leaf pack, or its leaves", kUse});
    return std::nullopt;
  }
  const build::Leaves& leaves = *value.leaves;
  const std::string path = pack.path + "/leaves";
  bool known = true;
  const auto need = [&](bool given, const char* key, const char* what) {
    if (given) return;
    known = false;
    notes.missing.push_back({path + key, what, "the pack's rate from its leaves"});
  };
  need(leaves.width.known(), "/width", "width of the leaves");
  need(leaves.thickness.known(), "/thickness", "thickness of the leaves");
  if (leaves.full_length_leaves > leaves.count) {
    add_fault(notes, "suspension.impossible_leaves", path + "/full_length_leaves",
              fmt::format("{} leaves of full length in a pack of {}", leaves.full_length_leaves,
                          leaves.count),
              "count every leaf, and of those the ones that reach from eye to eye");
    return std::nullopt;
  }
  // Eyes and seat that are not known are listed by the pack itself.
  if (!known || !value.front_eye.known() || !value.rear_eye.known() || !value.seat.known()) {
    return std::nullopt;
  }
  const double a = std::abs(value.front_eye.station.si - value.seat.station.si);
  const double b = std::abs(value.rear_eye.station.si - value.seat.station.si);
  if (!(a > 0) || !(b > 0)) {
    add_fault(notes, "suspension.impossible_leaves", pack.path + "/seat/station",
              fmt::format("{}: the seat stands under an eye", pack.id),
              "the seat is between the two eyes");
    return std::nullopt;
  }
  const LeafStack stack = make_leaf_stack(leaves.count, leaves.full_length_leaves, leaves.width.si,
                                          leaves.thickness.si);
  const double rate = calc_leaf_pack_rate_N_per_m(stack, a, b);
  const auto count = [&](const char* symbol, const char* key, int number) {
    return WorkedOutInput{symbol, path + key, static_cast<double>(number),
                          units::Dimension::kRatio};
  };
  const auto length = [&](const char* symbol, std::string at, double si) {
    return WorkedOutInput{symbol, std::move(at), si, units::Dimension::kLength};
  };
  notes.worked_out.push_back(
      {.path = pack.path + "/rate",
       .what = "rate of the leaf pack",
       .from_what = "leaves",
       .si = rate,
       .dimension = units::Dimension::kStiffness,
       .formula =
           fmt::format("k_a = E n w t^3 SF / (6 a^3), k_b likewise, "
                       "R = k_a k_b (a + b)^2 / (k_a a^2 + k_b b^2), E = 207 GPa, SF = {:.3f}",
                       calc_leaf_stiffening_factor(stack)),
       .source = "SAE HS-788 (SF at its ends, from memory); Bhandari Ex. 10.25 (between)",
       .inputs = {count("n", "/count", leaves.count),
                  count("full length", "/full_length_leaves", leaves.full_length_leaves),
                  length("w", path + "/width", leaves.width.si),
                  length("t", path + "/thickness", leaves.thickness.si),
                  length("a", pack.path + "/front_eye/station", a),
                  length("b", pack.path + "/rear_eye/station", b)},
       .cautions = {}});
  return rate;
}

}  // namespace rig::suspension
