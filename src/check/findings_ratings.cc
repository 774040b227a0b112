#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/findings.h"
#include "check/truck.h"
#include "check/words.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::g;

/// One rating, and the load on it in every state.
struct Rated {
  weigh::RatingCheck check;  ///< Of the worst state.
  const StateReport* worst = nullptr;
  std::string source;               ///< How the worst state's load is known.
  std::vector<std::string> values;  ///< "road 6,120 lb"
  std::vector<std::string> over;    ///< Labels of the states that pass it.
};

/// "axle.front", "tyre.rear", "gross" ...
std::string rating_key(const weigh::RatingCheck& check) {
  const std::string end = check.what.find("front") != std::string::npos ? ".front" : ".rear";
  switch (check.kind) {
    case weigh::RatingKind::kGrossVehicle:
      return "gross";
    case weigh::RatingKind::kGrossAxle:
      return "axle" + end;
    case weigh::RatingKind::kGrossCombination:
      return "combination";
    case weigh::RatingKind::kTyre:
      return "tyre" + end;
    case weigh::RatingKind::kWheel:
      return "wheel" + end;
    case weigh::RatingKind::kTongue:
      return "tongue";
    case weigh::RatingKind::kTrailer:
      return "trailer";
  }
  return "gross";
}

const char* rating_basis(weigh::RatingKind kind) {
  switch (kind) {
    case weigh::RatingKind::kGrossVehicle:
      return "gross vehicle weight rating in the file (49 CFR 567: the truck's weight may not pass "
             "it)";
    case weigh::RatingKind::kGrossAxle:
      return "gross axle weight rating in the file (49 CFR 567: no axle's load may pass it)";
    case weigh::RatingKind::kGrossCombination:
      return "gross combination rating in the file (SAE J2807: truck and trailer together)";
    case weigh::RatingKind::kTyre:
      return "the tyre's load rating in the file, one tyre";
    case weigh::RatingKind::kWheel:
      return "the wheel's load rating in the file, one wheel";
    case weigh::RatingKind::kTongue:
      return "the hitch's tongue rating in the file";
    case weigh::RatingKind::kTrailer:
      return "the hitch's trailer rating in the file";
  }
  return "";
}

bool is_front(const weigh::RatingCheck& check) {
  return check.what.find("front") != std::string::npos;
}

bool is_of_wheel(const weigh::RatingCheck& check) {
  return check.kind == weigh::RatingKind::kTyre || check.kind == weigh::RatingKind::kWheel;
}

/// How far the state's masses and its tongue load leave the load in doubt.
double load_half_width(const StateReport& state, const weigh::RatingCheck& check) {
  const bool front = is_front(check);
  const double tongue_N = state.weigh.hitch ? state.weigh.hitch->tongue_plus_minus_N : 0;
  switch (check.kind) {
    case weigh::RatingKind::kGrossVehicle:
      return std::hypot(state.mass_plus_minus_kg(), tongue_N / g);
    case weigh::RatingKind::kGrossCombination:
      return state.mass_plus_minus_kg();
    case weigh::RatingKind::kGrossAxle: {
      if (state.weigh.scaled && state.weigh.scaled->standing) {
        const auto& scaled = *state.weigh.scaled;
        return (front ? scaled.front_plus_minus_N : scaled.rear_plus_minus_N) / g;
      }
      const auto& spread = state.weigh.spread;
      return (front ? spread.front_plus_minus_N : spread.rear_plus_minus_N) / g;
    }
    case weigh::RatingKind::kTyre:
    case weigh::RatingKind::kWheel:
      return corner_load_half_width_N(state, front, 0) / g;
    case weigh::RatingKind::kTongue:
      return tongue_N;
    case weigh::RatingKind::kTrailer:
      return 0;
  }
  return 0;
}

/// One wheel's load is the greatest of what is weighed and what settles; returns how it is known.
std::string follow_wheels(const StateReport& state, weigh::RatingCheck& check) {
  if (!is_of_wheel(check)) return "statics of the loaded truck";
  const bool front = is_front(check);
  const auto wheel = find_greatest_wheel_load(state, front);
  if (!wheel) return "statics of the loaded truck";
  check.value_si = wheel->load_N / g;
  check.what = fmt::format("{} {} {}", side_words(wheel->side), front ? "front" : "rear",
                           check.kind == weigh::RatingKind::kTyre ? "tyre" : "wheel");
  return fmt::format("the heavier wheel, {}", wheel->source);
}

/// The heaviest thing that can be left behind, and what it puts on an axle.
struct Removable {
  const weigh::Item* item = nullptr;
  double share = 1;  ///< Of its weight that the rating feels.
};

Removable find_removable(const Subject& subject, const StateReport& state,
                         const weigh::RatingCheck& check) {
  Removable best;
  for (const auto& item : state.weigh.items) {
    const auto* entry = build::find(subject.build.masses, item.id);
    if (entry == nullptr || !entry->value.optional_load) continue;
    double share = 1;
    if (check.kind != weigh::RatingKind::kGrossVehicle &&
        check.kind != weigh::RatingKind::kGrossCombination && state.weigh.footing) {
      const auto& footing = *state.weigh.footing;
      const double front = (item.p_VoCm_V().x() - footing.rear_x_m) / footing.wheelbase_m();
      share = is_front(check) ? front : 1 - front;
    }
    if (best.item == nullptr || item.mass_kg() * share > best.item->mass_kg() * best.share) {
      best = {&item, share};
    }
  }
  return best;
}

/// What the tongue load does to a rear axle over its rating: rear = T (1 + c/L), c the ball's
/// distance behind the axle.
std::string hitch_words(const Subject& subject, const StateReport& state,
                        const weigh::RatingCheck& check, double over_kg) {
  if (check.kind != weigh::RatingKind::kGrossAxle || is_front(check) || over_kg <= 0) return "";
  if (!state.weigh.hitch || !state.weigh.footing) return "";
  const auto& hitch = *state.weigh.hitch;
  const double L = state.weigh.footing->wheelbase_m();
  const double c = state.weigh.footing->rear_x_m - hitch.p_VoBall_V.x();
  const double tongue_kg = hitch.tongue_N / g;
  if (!(tongue_kg > 0) || !(c > 0)) return "";
  const Printer& print = subject.print;
  std::string ways;
  const double off_kg = over_kg / (1 + c / L);
  const double least_kg =
      std::isnan(hitch.trailer_mass_kg) ? 0 : 0.10 * hitch.trailer_mass_kg;  // it sways below
  if (tongue_kg - off_kg > least_kg) {
    ways += fmt::format("; or move {} on the trailer from over the coupling back to over its axle",
                        print.mass(off_kg));
  }
  const double nearer_m = over_kg * L / tongue_kg;
  if (nearer_m < c) {
    ways +=
        fmt::format("; or bring the ball {} nearer to the rear axle", print.length_up(nearer_m));
  }
  return ways;
}

std::string rating_advice(const Subject& subject, const Rated& rated, Verdict verdict) {
  const Printer& print = subject.print;
  const auto& check = rated.check;
  const double over = check.value_si - check.limit_si;
  if (verdict == Verdict::kGood) {
    return fmt::format("Nothing to do: {} to spare.", print.text(-over, check.dimension));
  }
  switch (check.kind) {
    case weigh::RatingKind::kTongue: {
      const auto& hitch = *rated.worst->weigh.hitch;
      if (!(hitch.trailer_mass_kg > 0) || over <= 0) {
        return fmt::format("Add no more tongue load than {}.", print.text(-over, check.dimension));
      }
      const double least_N = 0.10 * hitch.trailer_mass_kg * g;
      const bool heavy = check.limit_si < least_N;
      return fmt::format(
          "Move {} on the trailer from over the coupling back to over its axle, or twice that half "
          "of the way{}.",
          print.mass(over / g),
          heavy ? fmt::format("; but 10 % of the trailer's weight is {}, so take a lighter trailer "
                              "or a hitch rated for it",
                              print.force(least_N))
                : "");
    }
    case weigh::RatingKind::kTrailer:
      return over > 0 ? fmt::format("Take {} off the trailer, or fit a hitch rated for it.",
                                    print.text(over, check.dimension))
                      : fmt::format("Load no more than {} more on the trailer.",
                                    print.text(-over, check.dimension));
    default:
      break;
  }
  const Removable removable = find_removable(subject, *rated.worst, check);
  const std::string what =
      over > 0 ? fmt::format("Take {} off", print.text(over, check.dimension))
               : fmt::format("Load no more than {} more", print.text(-over, check.dimension));
  const std::string hitched = hitch_words(subject, *rated.worst, check, over);
  if (over <= 0 || removable.item == nullptr || !(removable.share > 0)) return what + hitched + ".";
  return fmt::format("{}: leaving the {} ({}) behind takes off {}{}.", what,
                     uncapitalised(removable.item->label), print.mass(removable.item->mass_kg()),
                     print.mass(removable.item->mass_kg() * removable.share), hitched);
}

}  // namespace

void add_rating_findings(const Subject& subject) {
  std::vector<std::pair<std::string, Rated>> all;
  for (const auto& state : subject.report.states) {
    const auto* standing = state.standing();
    if (standing == nullptr) continue;
    for (weigh::RatingCheck check : standing->ratings) {
      const std::string source = follow_wheels(state, check);
      const std::string key = rating_key(check);
      auto found =
          std::find_if(all.begin(), all.end(), [&](const auto& r) { return r.first == key; });
      if (found == all.end()) {
        all.emplace_back(
            key,
            Rated{.check = check, .worst = &state, .source = source, .values = {}, .over = {}});
        found = all.end() - 1;
      }
      Rated& rated = found->second;
      if (check.value_si / check.limit_si > rated.check.value_si / rated.check.limit_si) {
        rated.check = check;
        rated.worst = &state;
        rated.source = source;
      }
      const auto value = subject.print.text(check.value_si, check.dimension);
      rated.values.push_back(fmt::format("{}: {}", state.label, value));
      if (check.value_si > check.limit_si) rated.over.push_back(state.label);
    }
  }
  for (const auto& [key, rated] : all) {
    const auto& check = rated.check;
    const Printer& print = subject.print;
    const double doubt = load_half_width(*rated.worst, check);
    Judgement judgement = judge(check.value_si, at_most(check.limit_si), doubt);
    // A rating passed as computed stops, however little is known: the safe side.
    if (check.value_si > check.limit_si) judgement = {Verdict::kStop, false};
    Finding finding;
    finding.id = "rating." + key;
    finding.work = "weigh";
    finding.verdict = judgement.verdict;
    finding.subject = capitalised(check.what);
    finding.path = check.path;
    finding.value = print.number(check.value_si, check.dimension);
    finding.limit = print.number(check.limit_si, check.dimension);
    finding.edge = Edge::kMost;
    finding.basis = rating_basis(check.kind);
    const double over = check.value_si - check.limit_si;
    finding.sentence =
        over > 0 ? fmt::format("Carries {} in \"{}\": {} over its rating of {}.",
                               finding.value->text, rated.worst->label,
                               print.text(over, check.dimension), finding.limit->text)
                 : fmt::format("Carries {} of {} in \"{}\", its heaviest state: {} to spare.",
                               finding.value->text, finding.limit->text, rated.worst->label,
                               print.text(-over, check.dimension));
    finding.advice = rating_advice(subject, rated, finding.verdict);
    if (judgement.in_doubt) {
      assume(finding,
             fmt::format("The masses are known to {} here, which is more than is to spare.",
                         print.text(doubt, check.dimension)));
    }
    finding.working.push_back(
        {.formula = "margin = rating - load",
         .with_values = fmt::format("{} - {} = {}", finding.limit->text, finding.value->text,
                                    print.text(-over, check.dimension)),
         .source = rated.source,
         .input_paths = {check.path, "/masses"}});
    finding.working.push_back({.formula = "load in each state",
                               .with_values = join_words(rated.values),
                               .source = "the load states of the file",
                               .input_paths = {"/load_states"}});
    subject.findings.push_back(std::move(finding));
  }
}

}  // namespace rig::check
