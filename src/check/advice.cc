#include "check/advice.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/require.h"
#include "base/side_by_side.h"
#include "suspension/from_build.h"

namespace rig::check {
namespace {

/// Moves refined in full; those behind them would be larger still.
constexpr std::size_t kRefined = 4;
/// A guess this much larger than a cure that is found will not turn out smaller.
constexpr double kHopeless = 1.5;
constexpr int kSecantSteps = 4;
constexpr double kProbe_m = 0.001;
/// Share of the way to go that rounding to the fraction makes good.
constexpr double kCloseEnough = 0.01;
/// Steps of the build's fraction that rounding may add.
constexpr int kRoundingSteps = 4;

std::vector<double> evaluate_axle(const build::Entry<build::Axle>& axle, const Evaluate& evaluate,
                                  bool fine) {
  const auto model = suspension::axle_from_build(axle);
  if (!model || !model->has_linkage) return {};
  return evaluate(model->model, fine);
}

/// How far outside its band a value is; 0 inside.
double outside(double value, const Band& band) {
  if (std::isnan(value)) return std::numeric_limits<double>::infinity();
  return std::max({0.0, band.low - value, value - band.high});
}

/// Out of its band, and further than before.
bool is_worse(double then, double before, const Band& band) {
  return outside(then, band) > outside(before, band) * (1 + 1e-6) + 1e-9;
}

class Search {
 public:
  Search(const build::Entry<build::Axle>& axle, const Evaluate& evaluate,
         const Sensitivities& sensitivities, std::size_t number, std::span<const Band> bands)
      : axle_(axle),
        evaluate_(evaluate),
        sensitivities_(sensitivities),
        start_(sensitivities.start),
        number_(number),
        bands_(bands) {}

  std::optional<Advice> run(const Printer& print) {
    if (start_.empty() || std::isnan(start_[number_])) return std::nullopt;
    RIG_REQUIRE(start_.size() == bands_.size());
    const Band& band = bands_[number_];
    if (outside(start_[number_], band) == 0) return std::nullopt;
    aim_ = start_[number_] > band.high ? band.high : band.low;

    std::optional<Advice> best;
    const auto guesses = rank_moves();
    for (std::size_t i = 0; i < std::min(kRefined, guesses.size()); ++i) {
      const Guess& guess = guesses[i];
      if (best && best->cures && !best->harmed &&
          std::abs(guess.amount_m) > kHopeless * std::abs(best->amount_m)) {
        break;
      }
      const auto amount = refine(guess);
      if (!amount) continue;
      const auto advice = settle_on(guess.move, *amount, print);
      if (advice && (!best || better(*advice, *best))) best = advice;
    }
    if (best) best->words = "Move " + move_words(axle_, best->move, best->amount_m, print);
    return best;
  }

 private:
  struct Guess {
    Move move;
    double amount_m = 0;
    double left_out = 0;  ///< What a move as far as allowed leaves outside the band.
    bool harms = false;
  };

  /// To first order: those that cure before those that can't, those that harm nothing before
  /// others, smallest first.
  std::vector<Guess> rank_moves() const {
    std::vector<Guess> guesses;
    for (std::size_t m = 0; m < sensitivities_.moves.size(); ++m) {
      const auto& slopes = sensitivities_.slopes[m];
      if (slopes.empty() || !(std::abs(slopes[number_]) > 0)) continue;
      Guess guess{sensitivities_.moves[m], (aim_ - start_[number_]) / slopes[number_]};
      const double tried_m = std::clamp(guess.amount_m, -kFurthestMove_m, kFurthestMove_m);
      if (tried_m != guess.amount_m) {
        guess.left_out = outside(start_[number_] + slopes[number_] * tried_m, bands_[number_]);
      }
      for (std::size_t i = 0; i < start_.size(); ++i) {
        if (i == number_) continue;
        guess.harms =
            guess.harms || is_worse(start_[i] + slopes[i] * tried_m, start_[i], bands_[i]);
      }
      guesses.push_back(guess);
    }
    const auto rank = [](const Guess& guess) {
      return std::tuple(guess.left_out, guess.harms, std::abs(guess.amount_m));
    };
    std::stable_sort(guesses.begin(), guesses.end(),
                     [&](const Guess& a, const Guess& b) { return rank(a) < rank(b); });
    return guesses;
  }

  std::vector<double> at(const Move& move, double amount_m, bool fine) const {
    return evaluate_axle(moved(axle_, move, amount_m), evaluate_, fine);
  }

  /// The amount at which the number meets its edge, or the furthest allowed one.
  std::optional<double> refine(const Guess& guess) const {
    const double most = kFurthestMove_m;
    double x0 = 0, y0 = start_[number_] - aim_;
    double x1 = std::clamp(guess.amount_m, -most, most);
    for (int step = 0; step < kSecantSteps; ++step) {
      const auto numbers = at(guess.move, x1, false);
      if (numbers.empty() || std::isnan(numbers[number_])) return std::nullopt;
      const double y1 = numbers[number_] - aim_;
      if (std::abs(y1) <= kCloseEnough * std::abs(start_[number_] - aim_) || y1 == y0) break;
      const double x2 = std::clamp(x1 - y1 * (x1 - x0) / (y1 - y0), -most, most);
      x0 = x1;
      y0 = y1;
      if (x2 == x1) break;
      x1 = x2;
    }
    return x1;
  }

  /// Rounded away from zero, further until it is in the band, and tried on the fine grid.
  std::optional<Advice> settle_on(const Move& move, double amount_m, const Printer& print) const {
    const double step_m = print.length_step_m();
    const double sense = amount_m < 0 ? -1 : 1;
    double steps = std::ceil(std::abs(amount_m) / step_m - 1e-6);
    std::optional<Advice> nearest;
    for (int more = 0; more <= kRoundingSteps; ++more, ++steps) {
      const double rounded_m = sense * steps * step_m;
      const auto numbers = at(move, rounded_m, true);
      if (numbers.empty() || std::isnan(numbers[number_])) break;
      Advice advice{.move = move, .amount_m = rounded_m, .value = numbers[number_]};
      advice.cures = outside(advice.value, bands_[number_]) == 0;
      for (std::size_t i = 0; i < numbers.size(); ++i) {
        if (i == number_) continue;
        if (advice.harmed || !is_worse(numbers[i], start_[i], bands_[i])) continue;
        advice.harmed = i;
        advice.harmed_value = numbers[i];
      }
      if (advice.cures) return advice;
      if (!nearest) nearest = advice;
    }
    if (!nearest ||
        outside(nearest->value, bands_[number_]) >= outside(start_[number_], bands_[number_])) {
      return std::nullopt;
    }
    return nearest;
  }

  bool better(const Advice& a, const Advice& b) const {
    if (a.cures != b.cures) return a.cures;
    if (a.harmed.has_value() != b.harmed.has_value()) return b.harmed.has_value();
    if (a.cures) return std::abs(a.amount_m) < std::abs(b.amount_m);
    return outside(a.value, bands_[number_]) < outside(b.value, bands_[number_]);
  }

  const build::Entry<build::Axle>& axle_;
  const Evaluate& evaluate_;
  const Sensitivities& sensitivities_;
  const std::vector<double>& start_;
  std::size_t number_;
  std::span<const Band> bands_;
  double aim_ = 0;
};

}  // namespace

Sensitivities calc_sensitivities(const build::Entry<build::Axle>& axle, const Evaluate& evaluate,
                                 std::vector<Move> moves) {
  Sensitivities found{.start = evaluate_axle(axle, evaluate, false), .moves = std::move(moves)};
  found.slopes = make_side_by_side(found.moves.size(), [&](std::size_t m) {
    auto slopes = evaluate_axle(moved(axle, found.moves[m], kProbe_m), evaluate, false);
    for (std::size_t i = 0; i < slopes.size(); ++i) {
      slopes[i] = (slopes[i] - found.start[i]) / kProbe_m;
    }
    return slopes;
  });
  return found;
}

std::optional<Advice> find_advice(const build::Entry<build::Axle>& axle, const Evaluate& evaluate,
                                  const Sensitivities& sensitivities, std::size_t number,
                                  std::span<const Band> bands, const Printer& print) {
  return Search(axle, evaluate, sensitivities, number, bands).run(print);
}

PlaceDoubt calc_place_doubt(const build::Entry<build::Axle>& axle, const Evaluate& evaluate) {
  PlaceDoubt doubt;
  std::vector<double> start, squares;
  for (Move move : list_moves(axle.value)) {
    if (move.way != Way::kUp) continue;
    for (const Way way : {Way::kUp, Way::kAft, Way::kLeft}) {
      move.way = way;
      build::Axle copy = axle.value;
      const build::Length& place = coordinate_of(copy, move);
      const double half = place_half_width(place);
      if (half == 0) continue;
      if (start.empty()) {
        start = evaluate_axle(axle, evaluate, false);
        squares.assign(start.size(), 0);
      }
      const auto probed = evaluate_axle(moved(axle, move, half), evaluate, false);
      if (probed.size() != start.size()) continue;
      for (std::size_t i = 0; i < start.size(); ++i) {
        squares[i] += (probed[i] - start[i]) * (probed[i] - start[i]);
      }
      doubt.paths.push_back(coordinate_path(axle, move));
    }
  }
  for (const double square : squares) doubt.half_widths.push_back(std::sqrt(square));
  return doubt;
}

}  // namespace rig::check
