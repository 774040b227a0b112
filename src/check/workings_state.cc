#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/workings.h"

namespace rig::check {
namespace {

class StateWorking {
 public:
  StateWorking(const Printer& print, const StateReport& state)
      : print_(print), state_(state), standing_(*state.standing()) {}

  std::vector<Explained> all() const {
    std::vector<Explained> told{weight(), place()};
    if (standing_.axle_loads && state_.weigh.footing) told.push_back(loads());
    if (standing_.sprung) told.push_back(sprung());
    if (standing_.stability) {
      told.push_back(stability_factor());
      told.push_back(side_slope());
      told.push_back(grade());
    }
    return told;
  }

 private:
  bool by_scales() const { return state_.weigh.scaled && state_.weigh.scaled->standing; }

  std::vector<std::string> mass_paths() const {
    std::vector<std::string> paths;
    if (by_scales()) {
      for (const auto& id : state_.weigh.scaled->weighing_ids) {
        paths.push_back("/corner_weighings/" + id);
      }
    }
    paths.emplace_back("/masses");
    return paths;
  }

  Explained weight() const {
    WorkingStep step{"W = sum of everything aboard",
                     fmt::format("{} things, {}", state_.weigh.items.size(),
                                 print_.mass(standing_.truck.mass_kg)),
                     "statics", mass_paths()};
    if (by_scales()) {
      step.formula = "W = the four scale readings, and what is aboard beyond what was weighed";
      step.with_values = print_.mass(standing_.truck.mass_kg);
      step.source = "statics; the scales come before the list";
    }
    return {"total",
            "Total weight",
            "Everything aboard in this load state, trailer apart.",
            "Under the maker's gross weight rating, with the load you really carry.",
            {step}};
  }

  Explained place() const {
    const Vec3& p = standing_.truck.p_VoBcm_V;
    std::string where =
        fmt::format("{} {} the front axle, {} {} of the middle", print_.length(std::abs(p.x())),
                    p.x() > 0 ? "ahead of" : "behind", print_.length(std::abs(p.y())),
                    p.y() < 0 ? "right" : "left");
    if (!std::isnan(p.z())) where += fmt::format(", {} up", print_.length(p.z()));
    WorkingStep step{"place = sum of (weight x place) / W", std::move(where), "statics",
                     mass_paths()};
    std::vector<WorkingStep> steps{step};
    steps.push_back(by_scales() ? station_by_scales() : station_by_list());
    if (state_.weigh.height_correction) {
      steps.push_back({"height from one axle lifted: h = r + L (W2 - W1) / (W tan(angle))",
                       print_.length(p.z()),
                       "ISO 10392",
                       {"/lifted_weighings"}});
    }
    return {"cg", "Balance point", "Where the truck would balance on a finger.",
            "40 to 50 % of the wheelbase behind the front axle when empty, and as low as it goes.",
            std::move(steps)};
  }

  WorkingStep station_by_scales() const {
    const auto& weighed = state_.weigh.scaled->weighed;
    const auto& footing = *state_.weigh.footing;
    const double behind_front_m = footing.front_x_m - weighed.x_m;
    const double L = footing.wheelbase_m();
    return {"on the scales: behind the front axle = wheelbase x rear axle / W",
            fmt::format("{} x {} / {} = {}", print_.length(L),
                        print_.mass(weighed.mass_kg * behind_front_m / L),
                        print_.mass(weighed.mass_kg), print_.length(behind_front_m)),
            "statics: moments about the front axle; offset by the two sides alike", mass_paths()};
  }

  /// The things that weigh most at their distances, and the rest together.
  WorkingStep station_by_list() const {
    constexpr std::size_t kMostTold = 4;
    std::vector<const weigh::Item*> items;
    for (const auto& item : state_.weigh.items) items.push_back(&item);
    std::stable_sort(items.begin(), items.end(),
                     [](const auto* a, const auto* b) { return a->mass_kg() > b->mass_kg(); });
    std::string words;
    double rest_kg = 0, rest_kg_m = 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
      const double m = items[i]->mass_kg(), behind_m = -items[i]->properties.p_VoBcm_V.x();
      if (i < kMostTold) {
        words += fmt::format("{} x {} + ", print_.mass(m), print_.length(behind_m));
      } else {
        rest_kg += m;
        rest_kg_m += m * behind_m;
      }
    }
    if (rest_kg > 0) {
      words += fmt::format("{} others: {} x {}", items.size() - kMostTold, print_.mass(rest_kg),
                           print_.length(rest_kg_m / rest_kg));
    } else if (!words.empty()) {
      words.erase(words.size() - 3);
    }
    const auto& truck = standing_.truck;
    return {"station = sum of (weight x station) / W",
            fmt::format("({}) / {} = {}", words, print_.mass(truck.mass_kg),
                        print_.length(-truck.p_VoBcm_V.x())),
            "statics: moments about the front-axle line", mass_paths()};
  }

  Explained loads() const {
    const double wheelbase_m = state_.weigh.footing->wheelbase_m();
    const double total_N = standing_.axle_loads->front_N + standing_.axle_loads->rear_N;
    const double rear_m = standing_.axle_loads->rear_N / total_N * wheelbase_m;
    return {"loads",
            "Load on each axle",
            "What each axle stands on the ground with, the tongue's load included.",
            "55 to 60 % on the front when empty, near half each when loaded.",
            {{"rear = (W x distance of all that weighs from the front axle) / wheelbase",
              fmt::format("{} x {} / {} = {}", scale(total_N), print_.length(rear_m),
                          print_.length(wheelbase_m), scale(standing_.axle_loads->rear_N)),
              "statics: moments about the front axle",
              {"/masses", "/axles/" + state_.weigh.rear_axle_id + "/station"}},
             {"front = W - rear",
              fmt::format("{} - {} = {}", scale(total_N), scale(standing_.axle_loads->rear_N),
                          scale(standing_.axle_loads->front_N)),
              "statics",
              {}}}};
  }

  Explained sprung() const {
    std::string less = print_.mass(standing_.truck.mass_kg);
    std::vector<std::string> paths;
    for (const auto& unsprung : state_.weigh.unsprung) {
      less += fmt::format(" - {}", print_.mass(unsprung.properties.mass_kg));
      paths.push_back("/axles/" + unsprung.axle_id);
    }
    paths.emplace_back("/masses");
    return {"sprung",
            "Weight on the springs",
            "The truck less what the axles carry themselves.",
            "75 to 85 % of the whole.",
            {{"sprung = W - axles with their wheels",
              fmt::format("{} = {}", less, print_.mass(standing_.sprung->mass_kg)), "statics",
              std::move(paths)}}};
  }

  Explained stability_factor() const {
    const auto& s = *standing_.stability;
    return {
        "factor",
        "Static stability factor",
        "Half the track over the height of the balance point: how hard it is to tip over.",
        "Up to 1.03 is one star, to 1.12 two, to 1.24 three, above that four or five (NHTSA 2001 "
        "to 2003, from memory).",
        {{"SSF = T / 2h",
          fmt::format("{} / (2 x {}) = {}", print_.length(s.track_at_cg_m),
                      print_.length(s.cg_height_m),
                      print_.plain(s.static_stability_factor, 2).text),
          "NHTSA; rigid truck", track_paths()}}};
  }

  Explained side_slope() const {
    const auto& s = *standing_.stability;
    return {"side_slope",
            "Side slope at which it tips",
            "Standing still, tyres and springs rigid; a real truck leans and goes over sooner.",
            "30 deg and more; drive on half of it.",
            {{"tan(slope) = distance of the balance point from the downhill tyres / its height",
              fmt::format(
                  "{} side: {} / {} = {} = tan({})", s.to_left_m < s.to_right_m ? "left" : "right",
                  print_.length(std::min(s.to_left_m, s.to_right_m)), print_.length(s.cg_height_m),
                  print_.plain(std::tan(s.side_slope_rad), 2).text, print_.angle(s.side_slope_rad)),
              "statics of a rigid truck", track_paths()}}};
  }

  Explained grade() const {
    const auto& s = *standing_.stability;
    return {"grade",
            "Grade at which it tips",
            "Facing straight up or down, standing still, if the tyres held.",
            "Tyres slip near 35 deg on dry rock: above that they let go first.",
            {grade_step("up", s.ahead_of_rear_m, s.up_grade_rad),
             grade_step("down", s.behind_front_m, s.down_grade_rad)}};
  }

  WorkingStep grade_step(const char* way, double distance_m, double grade_rad) const {
    const auto& s = *standing_.stability;
    WorkingStep step{
        fmt::format("{}: tan(grade) = distance of the balance point from the lower "
                    "axle / its height",
                    way),
        fmt::format("{} / {} = {} = tan({})", print_.length(distance_m),
                    print_.length(s.cg_height_m), print_.plain(std::tan(grade_rad), 2).text,
                    print_.angle(grade_rad)),
        "statics of a rigid truck",
        {"/axles", "/masses"}};
    if (s.trailer_pull_Nm != 0) {
      step.formula = fmt::format(
          "{}: tan(grade) = W x distance of the balance point from the lower axle / (W x its "
          "height + trailer x height of the ball)",
          way);
      step.with_values =
          fmt::format("{} x {} / ({} x {} + {}) = {} = tan({})", scale(s.load_N),
                      print_.length(distance_m), scale(s.load_N), print_.length(s.cg_height_m),
                      print_.text(s.trailer_pull_Nm, units::Dimension::kTorque),
                      print_.plain(std::tan(grade_rad), 2).text, print_.angle(grade_rad));
      step.input_paths.emplace_back("/hitch");
    }
    return step;
  }

  std::vector<std::string> track_paths() const {
    return {"/axles/" + state_.weigh.front_axle_id + "/track",
            "/axles/" + state_.weigh.rear_axle_id + "/track", "/masses"};
  }
  std::string scale(double force_N) const { return print_.scale_reading(force_N).text; }

  const Printer& print_;
  const StateReport& state_;
  const weigh::Standing& standing_;
};

}  // namespace

void explain_state(const Printer& print, StateReport& state) {
  if (state.standing() != nullptr) state.explained = StateWorking(print, state).all();
}

}  // namespace rig::check
