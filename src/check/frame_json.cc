#include "check/frame_json.h"

namespace rig::check {
namespace {

using units::Dimension;

class FrameWriter {
 public:
  FrameWriter(const FrameReport& frame, const Printer& print) : frame_(frame), print_(print) {}

  Json write() const {
    Json json{{"states", Json::array()},
              {"cases", Json::array()},
              {"worst", Json::array()},
              {"left_out", Json::array()}};
    for (const auto& state : frame_.states) json["states"].push_back(write(state));
    for (const auto& of : frame_.cases) {
      json["cases"].push_back({{"id", of.id},
                               {"label", of.label},
                               {"basis", of.basis},
                               {"state", of.state},
                               {"worst", of.worst.empty() ? Json() : write(of.worst.front())}});
    }
    for (const auto& place : frame_.worst) json["worst"].push_back(write(place));
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
    double mass_kg = 0;
    for (const double member_kg : state.member_masses_kg) mass_kg += member_kg;
    const auto& whole = state.whole;
    Json json{
        {"id", state.id},
        {"label", state.label},
        {"path", state.path},
        {"mass", number(mass_kg, Dimension::kMass)},
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

  Json write(const StressPlace& place) const {
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

  const FrameReport& frame_;
  const Printer& print_;
};

}  // namespace

Json frame_json(const Report& report, const Printer& print) {
  return report.frame ? FrameWriter(*report.frame, print).write() : Json(nullptr);
}

}  // namespace rig::check
