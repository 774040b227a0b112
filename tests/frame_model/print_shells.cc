// How the beams stand against the shells, case by case: print_shells [CASE...]
// What the beams say of one, to be kept before its shells are run: print_shells --predict CASE

#include <fmt/format.h>

#include "tests/frame_model/shell_cases.h"

namespace {

/// As tests/shells/results has it, stiffness and axial stress alone.
int predict(const std::string& name) {
  using namespace rig::frame;
  const auto shell_case = testing::read_case(name);
  const auto build = testing::make_build(shell_case);
  const auto model = make_model(build, rig::build::planned_parts(build.frame));
  if (!model) {
    fmt::print("{}\n", model.error().front().message);
    return 1;
  }
  const auto answers = testing::solve_load_cases(shell_case, *model);
  testing::Json out{{"case", name}};
  for (const auto& [load, stiffness] : answers.stiffness) out["stiffness"][load] = stiffness;
  for (const auto& point : shell_case["stress_points"]) {
    testing::Json row{{"id", point["id"]}};
    for (const auto& [load, stiffness] : answers.stiffness) {
      const auto stress = testing::stress_at(point, *model, answers, load);
      row[load + "_axial_Pa"] = stress.axial_Pa;
      row[load + "_von_mises_Pa"] = stress.von_mises_Pa;
    }
    out["stress"].push_back(row);
  }
  fmt::print("{}\n", out.dump(1));
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  using namespace rig::frame;
  std::vector<std::string> names(argv + 1, argv + argc);
  if (names.size() == 2 && names[0] == "--predict") return predict(names[1]);
  if (names.empty()) names = {"A", "A_bends", "B", "C", "C_bends", "D", "E", "F", "F_flanges", "G"};
  for (const std::string& name : names) {
    const auto shell_case = testing::read_case(name);
    const auto shells = testing::read_shells(name);
    const auto build = testing::make_build(shell_case);
    const auto model = make_model(build, rig::build::planned_parts(build.frame));
    if (!model) {
      fmt::print("{}: {} {}\n", name, model.error().front().path, model.error().front().message);
      return 1;
    }
    const auto answers = testing::solve_load_cases(shell_case, *model);
    fmt::print("{}: {}\n", name, shell_case["words"].get<std::string>());
    for (const auto& [load, unit] :
         {std::pair("torsion", "Nm_per_rad"), std::pair("bending", "N_per_m"),
          std::pair("lozenging", "N_per_m")}) {
      const double beams = answers.stiffness.at(load);
      fmt::print("  {:10} beams {:12.6g}", load, beams);
      if (!shells.is_null()) {
        const double theirs = shells[fmt::format("{}_{}", load, unit)];
        fmt::print("  shells {:12.6g}  {:+6.1f} %", theirs, 100 * (beams / theirs - 1));
      }
      fmt::print("\n");
    }
    if (shells.is_null() || !shells.contains("stress")) continue;
    for (std::size_t i = 0; i < shells["stress"].size(); ++i) {
      const auto& point = shell_case["stress_points"][i];
      const auto& theirs = shells["stress"][i];
      fmt::print("  {:26}", point["id"].get<std::string>());
      for (const char* load : {"torsion", "bending", "lozenging"}) {
        const auto ours = testing::stress_at(point, *model, answers, load);
        fmt::print(" {:9} {:7.2f} {:7.2f} ({:6.2f} {:6.2f}) MPa", load, ours.axial_Pa / 1e6,
                   theirs[fmt::format("{}_axial_Pa", load)].get<double>() / 1e6,
                   ours.von_mises_Pa / 1e6,
                   theirs[fmt::format("{}_von_mises_Pa", load)].get<double>() / 1e6);
      }
      fmt::print("\n");
    }
  }
  return 0;
}
