#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/nan.h"
#include "check/axles.h"
#include "check/findings.h"
#include "check/lengths.h"
#include "check/ride_bands.h"
#include "check/words.h"
#include "suspension/ride.h"
#include "units/factors.h"

namespace rig::check {
namespace {

using units::Dimension;
using units::g;

/// Body roll per sideways acceleration that a tall truck is still steady at, rad per g.
constexpr double kRollGradient_rad = 8 * units::kDegree_rad;

/// The relative half-width of a value, and whether it is one that an estimate is given.
struct RideDoubt {
  double share = 0;
  bool estimate = false;

  template <Dimension D>
  void add(const build::Quantity<D>& quantity) {
    if (!quantity.known()) return;
    const double here = half_width(quantity) / quantity.si;
    if (!(here > share)) return;
    share = here;
    estimate = std::isnan(quantity.plus_minus_si);
  }
  /// "known to 10 %" or "an estimate, taken as ±20 %".
  std::string words(const Printer& print) const {
    return fmt::format("{}{}", estimate ? "an estimate, taken as ±" : "known to ",
                       print.percent(share));
  }
};

RideDoubt rate_doubt(const build::Axle& axle) {
  RideDoubt doubt;
  for (const auto& coil : axle.coils) doubt.add(coil.value.rate);
  for (const auto& leaf : axle.leaf_packs) doubt.add(leaf.value.rate);
  return doubt;
}

bool is_inside(double value, const Band& band) { return value >= band.low && value <= band.high; }

/// What else a changed rate asks for.
const char* seat_words(const AxleReport& axle) {
  return axle.model.coils.empty() ? "" : " Then the free length must change too: reset the seats.";
}

/// The springs of an axle as one word, their path and the rate of the first.
struct Springs {
  std::string words, path;
  double rate_N_per_m = kNaN;
};
Springs springs_of(const build::Axle& axle, const AxleReport& report) {
  if (!report.model.coils.empty()) {
    const auto& coil = report.model.coils.front();
    return {"coils", coil.path + "/rate", coil.rate_N_per_m};
  }
  if (axle.leaf_packs.empty()) return {};
  const auto& leaf = axle.leaf_packs.front();
  const double rate =
      leaf.value.rate.known() ? leaf.value.rate.si : report.drawn->numbers.wheel_rate_N_per_m;
  return {"leaf packs", leaf.path + "/rate", rate};
}

/// The spring rate that gives a frequency, the tyre in series and the wheel rate in proportion.
double rate_for_frequency(const AxleReport& axle, const Springs& springs, double frequency_Hz,
                          double tyre_rate_N_per_m) {
  const double ride_rate =
      std::pow(2 * std::numbers::pi * frequency_Hz, 2) * axle.sprung_per_wheel_kg;
  const double wheel_rate = ride_rate * tyre_rate_N_per_m / (tyre_rate_N_per_m - ride_rate);
  return springs.rate_N_per_m * wheel_rate / axle.drawn->numbers.wheel_rate_N_per_m;
}

double tyre_rate_of(const Subject& subject, const AxleReport& axle) {
  const StateReport* ride = subject.report.ride();
  for (std::size_t a = 0; a < ride->truck->axles.size(); ++a) {
    if (ride->truck->axles[a].id == axle.id) return ride->truck->tyres[a].rate_N_per_m;
  }
  return kNaN;
}

void add_frequency(const Subject& subject, const AxleReport& axle) {
  const Printer& print = subject.print;
  const auto& entry = *build::find(subject.build.axles, axle.id);
  const Springs springs = springs_of(entry.value, axle);
  const double f = axle.ride_frequency_Hz;
  const RideDoubt doubt = rate_doubt(entry.value);
  const double half = f * doubt.share / 2;
  const Judgement judgement = judge(f, kFrequency_Hz, half);
  Finding finding;
  finding.id = "frequency." + axle.id;
  finding.work = "axles";
  finding.verdict = judgement.verdict;
  finding.subject = fmt::format("Ride frequency, {}", axle_words(axle));
  finding.path = springs.path;
  finding.value = print.frequency(f);
  const bool slow = f < 1.6;
  finding.limit = print.frequency(slow ? kFrequency_Hz.low : kFrequency_Hz.high);
  finding.edge = slow ? Edge::kLeast : Edge::kMost;
  finding.basis = "1.2 to 2.0 Hz for a light truck or off-road: Gillespie ch. 5 (from memory)";
  finding.sentence = fmt::format("Bounces at {} on springs and tyres, {} sprung per wheel.",
                                 finding.value->text, print.mass(axle.sprung_per_wheel_kg));
  finding.advice = "Nothing to do.";
  const double tyre_rate = tyre_rate_of(subject, axle);
  const bool inside = is_inside(f, kFrequency_Hz);
  if (judgement.in_doubt) {
    assume(finding, fmt::format("The rate of the {} is {}, which leaves it between {:.2f} and "
                                "{:.2f} Hz.",
                                springs.words, doubt.words(print), f - half, f + half));
  }
  if (judgement.in_doubt && inside) {
    finding.advice =
        fmt::format("Inside as it is: measure the rate of the {} to be sure.", springs.words);
  } else if (finding.verdict != Verdict::kGood && inside) {
    finding.advice = kInside;
  } else if (finding.verdict != Verdict::kGood) {
    const double aim_Hz = slow ? 1.25 : 1.9;
    finding.advice = fmt::format(
        "{} of {} make it {:.2f} Hz.{}", capitalised(springs.words),
        print.text(rate_for_frequency(axle, springs, aim_Hz, tyre_rate), Dimension::kStiffness),
        aim_Hz, seat_words(axle));
  }
  finding.working.push_back(
      {.formula = "k = wheel rate x tyre rate / (wheel rate + tyre rate)",
       .with_values =
           fmt::format("{} with {} = {}",
                       print.text(axle.drawn->numbers.wheel_rate_N_per_m, Dimension::kStiffness),
                       print.text(tyre_rate, Dimension::kStiffness),
                       print.text(axle.ride_rate_N_per_m, Dimension::kStiffness)),
       .source = "Gillespie Eq. 5-1",
       .input_paths = {springs.path, axle.path + "/tyre"}});
  finding.working.push_back(
      {.formula = "f = sqrt(k / m) / 2 pi",
       .with_values = fmt::format("sqrt({} / {}) / 2 pi = {}",
                                  print.text(axle.ride_rate_N_per_m, Dimension::kStiffness),
                                  print.mass(axle.sprung_per_wheel_kg), finding.value->text),
       .source = "Gillespie ch. 5",
       .input_paths = {springs.path, "/masses"}});
  subject.findings.push_back(std::move(finding));
}

void add_flat_ride(const Subject& subject, const AxleReport& front, const AxleReport& rear) {
  const Printer& print = subject.print;
  const auto& entry = *build::find(subject.build.axles, rear.id);
  const Springs springs = springs_of(entry.value, rear);
  const double ratio =
      suspension::calc_flat_ride_ratio(front.ride_frequency_Hz, rear.ride_frequency_Hz);
  const auto& front_entry = *build::find(subject.build.axles, front.id);
  const double half =
      ratio / 2 * std::hypot(rate_doubt(entry.value).share, rate_doubt(front_entry.value).share);
  const Judgement judgement = judge(ratio, kFlatRide, half);
  Finding finding;
  finding.id = "flat_ride";
  finding.work = "axles";
  finding.verdict = judgement.verdict;
  finding.subject = "Rear against front ride frequency";
  finding.path = springs.path;
  finding.value = print.plain(ratio, 2);
  const bool slow = ratio < 1.15;
  finding.limit = print.plain(slow ? kFlatRide.low : kFlatRide.high, 2);
  finding.edge = slow ? Edge::kLeast : Edge::kMost;
  finding.basis = "rear 10 to 20 % quicker than front rides flat: Gillespie ch. 5 (from memory)";
  finding.sentence = fmt::format("The rear bounces {} times as fast as the front: {} against {}.",
                                 finding.value->text, print.frequency(rear.ride_frequency_Hz).text,
                                 print.frequency(front.ride_frequency_Hz).text);
  finding.advice = "Nothing to do.";
  const bool inside = is_inside(ratio, kFlatRide);
  if (judgement.in_doubt && inside) {
    finding.advice = "Inside as it is: measure the spring rates to be sure.";
  } else if (finding.verdict != Verdict::kGood && inside) {
    finding.advice = kInside;
  } else if (finding.verdict != Verdict::kGood) {
    const double rate = rate_for_frequency(rear, springs, 1.15 * front.ride_frequency_Hz,
                                           tyre_rate_of(subject, rear));
    const bool tows =
        std::any_of(subject.build.load_states.begin(), subject.build.load_states.end(),
                    [](const auto& state) { return state.value.trailer.has_value(); });
    finding.advice = fmt::format(
        "Rear {} of {} make it 1.15{}.{}", springs.words, print.text(rate, Dimension::kStiffness),
        tows && rate < springs.rate_N_per_m ? "; a truck that tows may need its stiffer rear" : "",
        seat_words(rear));
  }
  if (judgement.in_doubt) {
    assume(finding, fmt::format("The spring rates leave it between {:.2f} and {:.2f}.",
                                ratio - half, ratio + half));
  }
  finding.working.push_back(
      {.formula = "ratio = rear frequency / front frequency",
       .with_values = fmt::format("{:.3f} / {:.3f} = {}", rear.ride_frequency_Hz,
                                  front.ride_frequency_Hz, finding.value->text),
       .source = "Gillespie ch. 5",
       .input_paths = {springs.path, springs_of(front_entry.value, front).path}});
  subject.findings.push_back(std::move(finding));
}

void add_damping(const Subject& subject, const AxleReport& axle) {
  if (std::isnan(axle.damping_ratio)) return;
  const Printer& print = subject.print;
  const auto& entry = *build::find(subject.build.axles, axle.id);
  RideDoubt doubt;
  double damping = 0;
  std::string path;
  for (const auto& shock : entry.value.dampers) {
    if (!shock.value.damping.known()) continue;
    doubt.add(shock.value.damping);
    damping = shock.value.damping.si;
    path = shock.path + "/damping";
  }
  const double value = axle.damping_ratio;
  const double half = value * doubt.share;
  const Judgement judgement = judge(value, kDamping, half);
  Finding finding;
  finding.id = "damping." + axle.id;
  finding.work = "axles";
  finding.verdict = judgement.verdict;
  finding.subject = fmt::format("Damping, {}", axle_words(axle));
  finding.path = path;
  finding.value = print.number(value, Dimension::kRatio);
  finding.limit = print.number(value < 0.3 ? kDamping.low : kDamping.high, Dimension::kRatio);
  finding.edge = value < 0.3 ? Edge::kLeast : Edge::kMost;
  finding.basis = "20 to 40 % of critical: Gillespie ch. 5 (from memory)";
  finding.sentence = fmt::format("The shocks damp {} of critical.", finding.value->text);
  finding.advice = finding.verdict == Verdict::kGood ? std::string("Nothing to do.")
                   : judgement.in_doubt && is_inside(value, kDamping)
                       ? std::string("Inside as it is: have a shock measured to be sure.")
                   : is_inside(value, kDamping)
                       ? std::string(kInside)
                       : fmt::format("Valve each shock to {}, which makes it 30 %.",
                                     print.text(damping * 0.3 / value, Dimension::kDamping));
  if (judgement.in_doubt) {
    assume(finding,
           fmt::format("The damping is {}, which leaves it between {} and {}.", doubt.words(print),
                       print.bound(value - half, Dimension::kRatio, Toward::kNearest),
                       print.bound(value + half, Dimension::kRatio, Toward::kNearest)));
  }
  const double wheel_rate = axle.drawn->numbers.wheel_rate_N_per_m;
  const double critical =
      suspension::calc_critical_damping_Ns_per_m(wheel_rate, axle.sprung_per_wheel_kg);
  finding.working.push_back(
      {.formula = "ratio = c x motion ratio^2 / (2 sqrt(k m))",
       .with_values = fmt::format("{} / {} = {}", print.text(value * critical, Dimension::kDamping),
                                  print.text(critical, Dimension::kDamping), finding.value->text),
       .source = "Gillespie ch. 5",
       .input_paths = {path, "/masses"}});
  subject.findings.push_back(std::move(finding));
}

/// Body roll per g through the solved roll centres, tyres rigid.
void add_roll_gradient(const Subject& subject, const StateReport& ride) {
  const auto& axles = subject.report.axles;
  if (axles.size() != 2 || !axles[0].drawn || !axles[1].drawn) return;
  const weigh::Standing* standing = ride.standing();
  if (standing == nullptr || !standing->sprung) return;
  const auto &front = axles[0].drawn->numbers, &rear = axles[1].drawn->numbers;
  const double K = front.roll_rate_Nm_per_rad + rear.roll_rate_Nm_per_rad;
  if (!(K > 0)) return;
  const Printer& print = subject.print;
  const double m = standing->sprung->mass_kg;
  const Vec3& cg = standing->sprung->p_VoBcm_V;
  const double L = axles[0].truck.wheelbase_m;
  const double share_rear = (axles[0].model.p_VC.x() - cg.x()) / L;
  const double axis_m = front.roll_centre_height_m +
                        share_rear * (rear.roll_centre_height_m - front.roll_centre_height_m);
  const double d = cg.z() - axis_m;
  if (!(K > m * g * d)) return;
  const double gradient_rad =
      g * suspension::calc_roll_gradient(
              {.sprung_kg = m, .cg_above_roll_axis_m = d, .roll_rate_Nm_per_rad = K});
  Finding finding;
  finding.id = "roll_gradient";
  finding.work = "axles";
  // d(gradient)/dd = m g K / (K - m g d)^2; what is out by in the truck's moment is in its sprung
  // part.
  const double height_m =
      ride.weigh.height_plus_minus_m() * standing->truck.mass_kg / standing->sprung->mass_kg;
  const double half = height_m * m * g * K / ((K - m * g * d) * (K - m * g * d));
  const Judgement judgement = judge(gradient_rad, at_most(kRollGradient_rad, false), half);
  finding.verdict = judgement.verdict;
  finding.subject = "Body roll in a bend";
  finding.path = "/axles";
  finding.value = print.number(gradient_rad, Dimension::kAngle);
  finding.limit = print.number(kRollGradient_rad, Dimension::kAngle);
  finding.edge = Edge::kMost;
  finding.basis = "per g of side force, for a tall truck (common practice)";
  finding.sentence = fmt::format(
      "The body rolls {} per g of side force; its balance point is {} above the roll axis.",
      finding.value->text, print.length(d));
  const double wanted = m * g * d * (1 + 1 / (0.9 * kRollGradient_rad));
  finding.advice = finding.verdict == Verdict::kGood ? std::string("Nothing to do.")
                   : gradient_rad <= kRollGradient_rad
                       ? std::string(kInside)
                       : fmt::format("Add {} of roll stiffness with an anti-roll bar (it has {}).",
                                     print.text(wanted - K, Dimension::kAngularStiffness),
                                     print.text(K, Dimension::kAngularStiffness));
  if (judgement.in_doubt) {
    assume(finding,
           fmt::format("The balance point's height is known to {}, which leaves it at {} "
                       "to {} per g.",
                       print.length(ride.weigh.height_plus_minus_m()),
                       print.bound(gradient_rad - half, Dimension::kAngle, Toward::kNearest),
                       print.bound(gradient_rad + half, Dimension::kAngle, Toward::kNearest)));
  }
  finding.working.push_back(
      {.formula = "roll per g = m g d / (K - m g d)",
       .with_values =
           fmt::format("m {}, d {}, K {} + {} = {}", print.mass(m), print.length(d),
                       print.text(front.roll_rate_Nm_per_rad, Dimension::kAngularStiffness),
                       print.text(rear.roll_rate_Nm_per_rad, Dimension::kAngularStiffness),
                       print.text(K, Dimension::kAngularStiffness)),
       .source = "Barton & Fieldhouse Eq. 3.18; roll centres solved",
       .input_paths = {"/axles", "/masses"}});
  subject.findings.push_back(std::move(finding));
}

}  // namespace

void add_ride_findings(const Subject& subject) {
  const StateReport* ride = subject.report.ride();
  if (ride == nullptr || !ride->truck) return;
  const AxleReport* front = nullptr;
  const AxleReport* rear = nullptr;
  for (const auto& axle : subject.report.axles) {
    if (std::isnan(axle.ride_frequency_Hz) || is_loose_as_drawn(axle)) continue;
    (axle.front ? front : rear) = &axle;
    add_frequency(subject, axle);
    add_damping(subject, axle);
  }
  if (front != nullptr && rear != nullptr) add_flat_ride(subject, *front, *rear);
  add_roll_gradient(subject, *ride);
}

}  // namespace rig::check
