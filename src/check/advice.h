#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "check/finding.h"
#include "check/move.h"
#include "suspension/model.h"

/// Which bracket to move, which way and how far: from sensitivities, then solved and tried out.
namespace rig::check {

/// All numbers of a model that are asked about; NaN where there is none. `fine` asks for the grid
/// that findings are judged on.
using Evaluate = std::function<std::vector<double>(const suspension::AxleModel&, bool fine)>;

/// How every number answers to every move.
struct Sensitivities {
  std::vector<double> start;  ///< On the coarse grid.
  std::vector<Move> moves;
  std::vector<std::vector<double>>
      slopes;  ///< Per move: d number / d metre; empty: it can't move so.
};

/// From models solved again with a point moved by 1 mm.
Sensitivities calc_sensitivities(const build::Entry<build::Axle>& axle, const Evaluate& evaluate,
                                 std::vector<Move> moves);

struct Advice {
  Move move;
  double amount_m = 0;  ///< Along the way; rounded to the build's fraction.
  double value = 0;     ///< Of the number to cure, then.
  bool cures = false;   ///< It is then within its band; else this is only as far as moves go.
  /// Another number that then leaves its band or goes further out of it, and what it is then.
  std::optional<std::size_t> harmed;
  double harmed_value = 0;
  std::string words;  ///< "Move the axle end of the upper link 3/4 in down".
};

/// A move past this is another design, m (4 in).
inline constexpr double kFurthestMove_m = 0.1016;

/// The smallest single move that brings one number into its band and keeps the others in theirs.
///
/// The most promising moves by their sensitivities are refined by the secant method, rounded away
/// from zero to the build's fraction and tried out on the fine grid. When none reaches, the one
/// that comes nearest is told with `cures` false.
/// @param number  Index of the number to cure.
/// @param bands   One per number.
/// @return        Nothing when no move helps.
std::optional<Advice> find_advice(const build::Entry<build::Axle>& axle, const Evaluate& evaluate,
                                  const Sensitivities& sensitivities, std::size_t number,
                                  std::span<const Band> bands, const Printer& print);

/// Half-widths of the numbers from the half-widths of the points' places (half an inch for an
/// estimate without one): first order, root sum square.
struct PlaceDoubt {
  std::vector<double> half_widths;
  std::vector<std::string> paths;  ///< Of the coordinates that are in doubt.
};
PlaceDoubt calc_place_doubt(const build::Entry<build::Axle>& axle, const Evaluate& evaluate);

}  // namespace rig::check
