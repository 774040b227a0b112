#include "build/start.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "build/document_internal.h"
#include "build/faults_internal.h"
#include "build/start_layouts_internal.h"
#include "units/factors.h"

namespace rig::build {
namespace {

using units::Dimension;

// First guesses; common practice.
constexpr double kUnsprungShare = 0.2;  ///< Of what an axle weighs: housing, hubs, wheels, tyres.
constexpr double kTyreSquashShare = 0.045;  ///< Of the free radius under its load.
constexpr double kFrameAboveWheel_m = 0.2;  ///< Middle of the rail above the wheel centre.
constexpr double kBodyAboveFrame_m = 0.2;   ///< Balance point of body, frame and engine.
constexpr double kTripLoadAboveFrame_m = 0.3;

constexpr std::string_view kInches = "inches", kMillimetres = "millimetres";

Question quantity(std::string id, std::string label, std::string doc, std::string dimension,
                  std::string usual) {
  return {.id = std::move(id),
          .label = std::move(label),
          .doc = std::move(doc),
          .kind = "quantity",
          .dimension = std::move(dimension),
          .choices = {},
          .usual = std::move(usual),
          .needed = false};
}

Question choice(std::string id, std::string label, std::string doc,
                std::vector<std::pair<std::string, std::string>> choices, std::string usual) {
  return {.id = std::move(id),
          .label = std::move(label),
          .doc = std::move(doc),
          .kind = "word",
          .dimension = {},
          .choices = std::move(choices),
          .usual = std::move(usual),
          .needed = false};
}

/// What a truck can have: a span around the usual value, SI. A trip may carry nothing.
bool is_sensible(const std::string& id, double si, Dimension dimension) {
  if (id == "trip_load") return si >= 0 && si < 20e3;
  if (dimension == Dimension::kMass) return si > 20 && si < 20e3;
  if (id == "bump_travel" || id == "droop_travel") return si > 0 && si < 1;
  return si > 0.3 && si < 12;
}

/// The answers as typed and as understood; what is wrong with them is gathered.
class Answers {
 public:
  explicit Answers(const std::map<std::string, std::string>& typed) : typed_(typed) {
    for (const Question& question : start_questions()) questions_.emplace(question.id, question);
    for (const auto& [id, text] : typed) {
      if (!questions_.contains(id)) {
        report(id, fmt::format("nobody asked for {}", shown(id)), "answer the questions there are");
      }
    }
    for (const auto& [id, question] : questions_) {
      if (question.needed && !is_answered(id)) {
        report(id, fmt::format("\"{}\" has no answer", question.label), "type one");
      }
    }
    metric_ = word("units") == kMillimetres;
  }

  bool metric() const { return metric_; }
  Diagnostics& diagnostics() { return diagnostics_; }
  bool is_answered(const std::string& id) const { return typed_.contains(id) && !text(id).empty(); }

  std::string text(const std::string& id) const {
    const auto found = typed_.find(id);
    if (found == typed_.end()) return "";
    const std::string& typed = found->second;
    const auto first = typed.find_first_not_of(" \t\n");
    return first == std::string::npos ? "" : typed.substr(first);
  }

  std::string word(const std::string& id) {
    const Question& question = questions_.at(id);
    const std::string given = is_answered(id) ? text(id) : question.usual;
    for (const auto& [value, label] : question.choices) {
      if (value == given) return value;
    }
    report(id, fmt::format("{} is none of the choices", shown(given)), "choose one of the list");
    return question.usual;
  }

  /// An answer in SI, the usual value where there is none.
  double si(const std::string& id, Dimension dimension) {
    const std::string given = is_answered(id) ? text(id) : questions_.at(id).usual;
    const auto read = units::parse_quantity(given, dimension, unit_name(dimension));
    if (read && is_sensible(id, read->si, dimension)) return read->si;
    if (read) {
      report(id, fmt::format("{} is not what a truck can have", shown(given)), "measure it again");
    } else {
      for (const Diagnostic& d : read.error()) report(id, d.message, d.remedy);
    }
    return units::parse_quantity(questions_.at(id).usual, dimension)->si;
  }

  /// As it goes into the file: the answer in the shop's own writing, or the usual value as a guess.
  Json written(const StartWriter& write, const std::string& id, Dimension dimension,
               std::string_view from) {
    const double value_si = si(id, dimension);
    if (!is_answered(id)) return write.guess(value_si, dimension);
    return write.known(with_unit(id, dimension), from);
  }

  /// As it was typed, or is usual where it was not, with its unit.
  std::string taken(const std::string& id, Dimension dimension) const {
    return is_answered(id) ? with_unit(id, dimension)
                           : fmt::format("{} (usual)", questions_.at(id).usual);
  }

 private:
  std::string_view unit_name(Dimension dimension) const {
    return units::unit_name(dimension, {.metric = metric_, .fraction_of_inch = 16});
  }
  std::string with_unit(const std::string& id, Dimension dimension) const {
    std::string given = text(id);
    if (!units::parse_quantity(given, dimension)) given += fmt::format(" {}", unit_name(dimension));
    return given;
  }
  /// An answer that is used in several places is told of once.
  void report(const std::string& id, std::string message, std::string remedy) {
    if (std::any_of(diagnostics_.begin(), diagnostics_.end(),
                    [&](const Diagnostic& d) { return d.path == id; })) {
      return;
    }
    diagnostics_.push_back({.code = "build.bad_answer",
                            .path = id,
                            .message = sentence(std::move(message)),
                            .remedy = sentence(std::move(remedy)),
                            .at = {}});
  }

  const std::map<std::string, std::string>& typed_;
  std::map<std::string, Question> questions_;
  bool metric_ = false;
  Diagnostics diagnostics_;
};

Layout layout_of(const std::string& word) {
  const auto& words = layout_words();
  const auto found =
      std::find_if(words.begin(), words.end(), [&](const auto& one) { return one.first == word; });
  return static_cast<Layout>(found - words.begin());
}

/// What both axles and the body are made of.
struct Plan {
  double wheelbase_m, track_m, free_radius_m;
  double front_kg, rear_kg;
  StartAxle front, rear;

  double frame_height_m() const { return front.wheel_height_m + kFrameAboveWheel_m; }
};

Plan make_plan(Answers& answers) {
  Plan plan{.wheelbase_m = answers.si("wheelbase", Dimension::kLength),
            .track_m = answers.si("track", Dimension::kLength),
            .free_radius_m = answers.si("tyre_diameter", Dimension::kLength) / 2,
            .front_kg = answers.si("front_weight", Dimension::kMass),
            .rear_kg = answers.si("rear_weight", Dimension::kMass),
            .front = {},
            .rear = {}};
  // One kind of tyre all round: squashed by its share under the mean of the two axles.
  const double mean_kg = (plan.front_kg + plan.rear_kg) / 2;
  const auto axle = [&](End end, const char* layout, double station_m, double load_kg) {
    return StartAxle{
        .end = end,
        .layout = layout_of(answers.word(layout)),
        .station_m = station_m,
        .wheel_height_m = plan.free_radius_m * (1 - kTyreSquashShare * load_kg / mean_kg),
        .track_m = plan.track_m,
        .sprung_corner_kg = load_kg * (1 - kUnsprungShare) / 2};
  };
  plan.front = axle(End::kFront, "front_layout", 0, plan.front_kg);
  plan.rear = axle(End::kRear, "rear_layout", plan.wheelbase_m, plan.rear_kg);
  return plan;
}

Json masses_of(const StartWriter& write, const Plan& plan, Answers& answers) {
  const double front_axle_kg = kUnsprungShare * plan.front_kg;
  const double rear_axle_kg = kUnsprungShare * plan.rear_kg;
  const double sprung_kg = plan.front_kg + plan.rear_kg - front_axle_kg - rear_axle_kg;
  const double body_station_m = plan.wheelbase_m * (plan.rear_kg - rear_axle_kg) / sprung_kg;
  const double body_height_m = plan.frame_height_m() + kBodyAboveFrame_m;
  // The file has no weighing by the axle: what was typed stays beside what was made of it.
  const bool is_weighed = answers.is_answered("front_weight") || answers.is_answered("rear_weight");
  const std::string note = fmt::format("Of the axles' weights as told: front {}, rear {}",
                                       answers.taken("front_weight", Dimension::kMass),
                                       answers.taken("rear_weight", Dimension::kMass));
  const auto share = [&](double mass_kg) {
    Json guess = write.guess(mass_kg, Dimension::kMass);
    if (is_weighed) guess["note"] = note;
    return guess;
  };
  Json masses;
  masses["body"] = {{"label", "Body, frame and engine"},
                    {"mass", share(sprung_kg)},
                    {"at", write.point(body_station_m, 0, body_height_m)},
                    {"size",
                     {{"shape", "box"},
                      {"length", write.guess_m(1.3 * plan.wheelbase_m)},
                      {"width", write.guess_m(plan.track_m)},
                      {"height", write.guess_m(0.6 * plan.track_m)}}}};
  const auto axle = [&](const char* id, const char* label, const char* on, double mass_kg,
                        const StartAxle& at) {
    masses[id] = {{"label", label},
                  {"mass", share(mass_kg)},
                  {"at", write.point(at.station_m, 0, at.wheel_height_m)},
                  {"on", on}};
  };
  axle("front_axle", "Front axle, wheels and tyres", "front", front_axle_kg, plan.front);
  axle("rear_axle", "Rear axle, wheels and tyres", "rear", rear_axle_kg, plan.rear);
  masses["trip_load"] = {
      {"label", "Load for a trip"},
      {"mass", answers.written(write, "trip_load", Dimension::kMass, "scale")},
      {"at", write.point(0.9 * plan.wheelbase_m, 0, plan.frame_height_m() + kTripLoadAboveFrame_m)},
      {"optional_load", true}};
  return masses;
}

Json axle_of(const StartWriter& write, const StartAxle& axle, Answers& answers) {
  const bool front = axle.end == End::kFront;
  Json group{{"label", front ? "Front axle" : "Rear axle"},
             {"end", front ? "front" : "rear"},
             {"station", front ? Json("0 in")
                               : answers.written(write, "wheelbase", Dimension::kLength, "tape")},
             {"height", write.guess_m(axle.wheel_height_m)},
             {"track", answers.written(write, "track", Dimension::kLength, "tape")},
             {"tyre", "tyre"},
             {"steered", front}};
  // Braking throws weight forward: common practice.
  group["brake_share"] = write.guess(front ? 0.6 : 0.4, Dimension::kRatio);
  group["drive_share"] = write.guess(0.5, Dimension::kRatio);
  group["bump_travel"] = answers.written(write, "bump_travel", Dimension::kLength, "design");
  group["droop_travel"] = answers.written(write, "droop_travel", Dimension::kLength, "design");
  add_layout(write, axle, group);
  return group;
}

Json tyre_of(const StartWriter& write, const Plan& plan, const Answers& answers) {
  const double load_N = (plan.front_kg + plan.rear_kg) / 4 * units::kStandardGravity_m_per_s2;
  return {
      {"label", "Tyre"},
      {"free_radius", answers.is_answered("tyre_diameter") ? write.measured_m(plan.free_radius_m)
                                                           : write.guess_m(plan.free_radius_m)},
      {"width", write.guess_m(0.6 * plan.free_radius_m)},
      {"rate",
       write.guess(load_N / (kTyreSquashShare * plan.free_radius_m), Dimension::kStiffness)}};
}

Json frame_of(const StartWriter& write, const Plan& plan) {
  const double half_width_m = plan.track_m / 4;
  const double height_m = plan.frame_height_m();
  Json rail{{"label", "Frame rail"}, {"both_sides", true}};
  // The wall is left to be measured: no tape shows it and everything the frame does hangs on it.
  rail["section"] = {
      {"shape", "channel"}, {"depth", write.guess_m(0.15)}, {"flange", write.guess_m(0.065)}};
  rail["line"] = {write.point(-0.25 * plan.wheelbase_m, half_width_m, height_m),
                  write.point(1.3 * plan.wheelbase_m, half_width_m, height_m)};
  return {{"rails", {{"rail", std::move(rail)}}}};
}

/// Groups of plain values stand on one line, as a hand would write them.
void fold(Node& node) {
  bool plain = true;
  for (Member& member : node.members) {
    fold(member.value);
    plain = plain && (member.value.members.empty() || member.value.find("value") != nullptr) &&
            member.value.elements.empty();
  }
  for (Node& element : node.elements) fold(element);
  node.one_line = plain && node.kind == Kind::kObject;
}

}  // namespace

std::vector<Question> start_questions() {
  std::vector<Question> questions;
  questions.push_back({.id = "name",
                       .label = "What is it called?",
                       .doc = "Whatever the shop says.",
                       .kind = "text",
                       .dimension = {},
                       .choices = {},
                       .usual = "",
                       .needed = true});
  questions.push_back(choice("units", "Inches or millimetres?", "You can type either, any time.",
                             {{std::string(kInches), "Inches and pounds"},
                              {std::string(kMillimetres), "Millimetres and kilograms"}},
                             std::string(kInches)));
  questions.push_back(quantity("wheelbase", "Wheelbase", "Wheel centre to wheel centre, one side.",
                               "length", "110 in"));
  questions.push_back(
      quantity("track", "Track", "Middle of one front tyre to the other's.", "length", "62 in"));
  questions.push_back(
      quantity("tyre_diameter", "Tyre diameter", "With no weight on it.", "length", "33 in"));
  questions.push_back(quantity("front_weight", "Weight on the front axle",
                               "As it stands now, from a scale if you have one.", "mass",
                               "2600 lb"));
  questions.push_back(quantity("rear_weight", "Weight on the rear axle", "The same at the back.",
                               "mass", "2000 lb"));
  questions.push_back(choice("front_layout", "What will carry the front axle?",
                             "As you want to build it.", layout_words(), "three_links"));
  questions.push_back(choice("rear_layout", "What will carry the rear axle?",
                             "As you want to build it.", layout_words(), "leaves"));
  questions.push_back(quantity("bump_travel", "Wheel travel up, from where it sits",
                               "What you want.", "length", "4 in"));
  questions.push_back(quantity("droop_travel", "Wheel travel down, from where it sits",
                               "What you want.", "length", "4 in"));
  questions.push_back(quantity("trip_load", "Load for a trip",
                               "People, tools, fuel: what is not always aboard.", "mass",
                               "600 lb"));
  return questions;
}

Result<ReadBuild> start_build(const std::map<std::string, std::string>& typed) {
  Answers answers(typed);
  const StartWriter write(answers.metric());
  const Plan plan = make_plan(answers);
  Json file{{"version", 1}};
  file["name"] = answers.text("name");
  file["units"] = {{"metric", answers.metric()}, {"fraction_of_inch", 16}};
  file["load_states"] = {{"road", {{"label", "Road"}, {"aboard", Json::array()}}},
                         {"trip", {{"label", "Loaded for a trip"}, {"aboard", {"trip_load"}}}}};
  file["ride_state"] = "road";
  file["masses"] = masses_of(write, plan, answers);
  file["tyres"] = {{"tyre", tyre_of(write, plan, answers)}};
  file["axles"] = {{"front", axle_of(write, plan.front, answers)},
                   {"rear", axle_of(write, plan.rear, answers)}};
  file["frame"] = frame_of(write, plan);
  if (!answers.diagnostics().empty()) return Failure{answers.diagnostics()};

  const std::string text = file.dump(2, ' ', false, Json::error_handler_t::replace);
  Faults faults;
  std::optional<Node> root = parse_json(text, faults);
  if (!root || !faults.empty()) return Failure{faults.take()};
  fold(*root);
  return read_build(write_build(Document(*std::move(root))));
}

}  // namespace rig::build
