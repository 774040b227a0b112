#include "check/frame_json.h"

#include "check/words.h"

namespace rig::check {
namespace {

using units::Dimension;

class FrameWriter {
 public:
  FrameWriter(const FrameReport& frame, const Printer& print) : frame_(frame), print_(print) {}

  Json write() const {
    Json json{{"states", Json::array()}, {"stages", Json::array()}, {"cases", Json::array()},
              {"worst", Json::array()},  {"points", Json::array()}, {"left_out", Json::array()}};
    for (const auto& state : frame_.states) json["states"].push_back(write(state));
    for (const auto& stage : frame_.stages) json["stages"].push_back(write(stage));
    for (const auto& of : frame_.cases) {
      json["cases"].push_back(
          {{"id", of.id},
           {"label", of.label},
           {"basis", of.basis},
           {"state", of.state},
           {"worst", of.worst.empty() ? Json() : stress_place_json(of.worst.front(), print_)}});
    }
    for (const auto& place : frame_.worst)
      json["worst"].push_back(stress_place_json(place, print_));
    for (const auto& point : frame_.points) json["points"].push_back(write(point));
    for (const auto& [label, why] : frame_.left_out) {
      json["left_out"].push_back({{"label", label}, {"why", why}});
    }
    return json;
  }

 private:
  Json number(double si, Dimension dimension) const {
    return json_from(print_.number(si, dimension));
  }

  Json write(const FrameState& state) const {
    const auto& whole = state.whole;
    Json json{
        {"id", state.id},
        {"label", state.label},
        {"path", state.path},
        {"mass", number(state.mass_kg(), Dimension::kMass)},
        {"twist",
         number(whole ? whole->torsion.stiffness_Nm_per_rad : kNaN, Dimension::kAngularStiffness)},
        {"bending", number(whole ? whole->bending.stiffness_N_per_m : kNaN, Dimension::kStiffness)},
        {"lozenging",
         number(whole ? whole->lozenging.stiffness_N_per_m : kNaN, Dimension::kStiffness)},
        {"members", Json::array()},
        {"assumptions", Json::array()}};
    for (std::size_t m = 0; m < state.members.size(); ++m) {
      const auto share = [&](const std::vector<double> frame::WholeFrame::*shares) {
        return number(whole ? ((*whole).*shares)[m] : kNaN, Dimension::kRatio);
      };
      json["members"].push_back({{"id", state.members[m].id},
                                 {"label", state.members[m].words},
                                 {"mass", number(state.member_masses_kg[m], Dimension::kMass)},
                                 {"twist_share", share(&frame::WholeFrame::torsion_shares)},
                                 {"bending_share", share(&frame::WholeFrame::bending_shares)},
                                 {"lozenging_share", share(&frame::WholeFrame::lozenging_shares)}});
    }
    for (const auto& assumption : state.assumptions) {
      json["assumptions"].push_back({{"path", assumption.path}, {"words", assumption.words}});
    }
    return json;
  }

  Json write(const FixedPoint& point) const {
    const StressPlace& at = point.stress;
    return {{"label", point.label},
            {"path", point.path},
            {"side", side_words(point.sign)},
            {"where", at.where},
            {"case", at.case_id},
            {"von_mises", number(at.von_mises_Pa, Dimension::kStress)},
            {"yield", number(at.yield_Pa, Dimension::kStress)},
            {"share_of_yield", number(at.von_mises_Pa / at.yield_Pa, Dimension::kRatio)},
            {"near_joint", at.near_joint},
            {"distorts", at.distorts}};
  }

  Json write(const StageReport& stage) const {
    Json json{{"id", stage.id}, {"label", stage.label}, {"path", stage.path}, {"cut", nullptr}};
    if (!stage.cut) return json;
    const frame::StageCut& cut = *stage.cut;
    Json told{{"stands", Json::array()},
              {"parts", Json::array()},
              {"braces", cut.braces},
              {"before", write(cut.stress_before.worst)},
              {"after", write(cut.change)},
              {"without_brace", cut.without_brace ? write(*cut.without_brace) : Json(nullptr)}};
    for (std::size_t i = 0; i < cut.stands.size(); ++i) {
      told["stands"].push_back({{"label", cut.stands[i].words},
                                {"before", number(cut.stands_before[i].force_N, Dimension::kForce)},
                                {"after", number(cut.change.stands[i].force_N, Dimension::kForce)},
                                {"lifted", cut.change.stands[i].lifted}});
    }
    for (const auto& part : cut.parts) {
      Json spring(nullptr);
      if (part.spring) {
        spring = {{"apart", number(part.spring->apart_m, Dimension::kLength)},
                  {"height", number(part.spring->height_m, Dimension::kLength)},
                  {"ahead", number(part.spring->ahead_m, Dimension::kLength)}};
      }
      told["parts"].push_back({{"path", part.path},
                               {"label", part.words},
                               {"first", part.first.words},
                               {"second", part.second.words},
                               {"spring", std::move(spring)}});
    }
    json["cut"] = std::move(told);
    return json;
  }

  Json write(const frame::StageChange& change) const {
    return {{"height", number(change.height.change_m, Dimension::kLength)},
            {"height_at", change.height.words},
            {"diagonals", number(change.diagonals ? change.diagonals->difference_m() : kNaN,
                                 Dimension::kLength)},
            {"stress", write(change.stress.worst)}};
  }

  Json write(const frame::StressPlace& place) const {
    return {{"where", place.words},
            {"path", place.path},
            {"von_mises", number(place.von_mises_Pa, Dimension::kStress)},
            {"yield", number(place.yield_Pa, Dimension::kStress)}};
  }

  const FrameReport& frame_;
  const Printer& print_;
};

}  // namespace

Json stress_place_json(const StressPlace& place, const Printer& print) {
  const auto number = [&](double si, Dimension dimension) {
    return json_from(print.number(si, dimension));
  };
  return {{"where", place.where},
          {"path", place.path},
          {"case", place.case_id},
          {"von_mises", number(place.von_mises_Pa, Dimension::kStress)},
          {"axial", number(place.axial_Pa, Dimension::kStress)},
          {"yield", number(place.yield_Pa, Dimension::kStress)},
          {"share_of_yield", number(place.von_mises_Pa / place.yield_Pa, Dimension::kRatio)},
          {"near_joint", place.near_joint},
          {"distorts", place.distorts}};
}

Json frame_json(const Report& report, const Printer& print) {
  return report.frame ? FrameWriter(*report.frame, print).write() : Json(nullptr);
}

}  // namespace rig::check
