#include "check/frame_sections.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "build/frame_lookup.h"
#include "check/words.h"
#include "frame/rail_line.h"

namespace rig::check {
namespace {

/// Coordinates of nodes that are nearer than this are the same, m.
constexpr double kSameNode_m = 1e-9;

/// Beams of a rail, one behind the other, that the file gives one section.
struct SectionRun {
  std::string path, section_path;
  std::vector<std::string> plates;
  std::string words;  ///< Of the member.
  int sign = 0;
  double begin_m = 0, end_m = 0;
  int first = -1, last = -1;  ///< Its sections; different ones: it tapers.

  bool same_part(const SectionRun& other) const {
    return path == other.path && section_path == other.section_path && plates == other.plates;
  }
};

std::vector<SectionRun> list_runs(const frame::Model& model) {
  std::vector<SectionRun> runs;
  for (std::size_t b = 0; b < model.beams.size(); ++b) {
    const frame::BeamPlace& place = model.beams[b];
    const frame::Beam& beam = model.structure.beams[b];
    SectionRun run{.path = place.path,
                   .section_path = place.section_path,
                   .plates = place.plates,
                   .words = model.structure.members[static_cast<std::size_t>(beam.member)].words,
                   .sign = place.sign,
                   .begin_m = place.begin_m,
                   .end_m = place.end_m,
                   .first = beam.section,
                   .last = beam.section};
    if (!runs.empty() && runs.back().same_part(run) && runs.back().sign == run.sign) {
      runs.back().end_m = run.end_m;
      runs.back().last = run.last;
    } else {
      runs.push_back(std::move(run));
    }
  }
  return runs;
}

std::vector<DrawnWalls> draw_walls(const section::Section& section) {
  std::vector<DrawnWalls> out;
  int last = -1;
  for (const section::Wall& wall : section.walls) {
    if (wall.from != last || out.back().thickness_m != wall.thickness_m) {
      out.push_back({wall.thickness_m, {section.p_ON[static_cast<std::size_t>(wall.from)]}});
    }
    out.back().p_OP.push_back(section.p_ON[static_cast<std::size_t>(wall.to)]);
    last = wall.to;
  }
  return out;
}

bool same_walls(const DrawnSection& a, const DrawnSection& b) {
  const auto same = [](const DrawnWalls& x, const DrawnWalls& y) {
    return x.thickness_m == y.thickness_m &&
           std::equal(x.p_OP.begin(), x.p_OP.end(), y.p_OP.begin(), y.p_OP.end(),
                      [](const Vec2& p, const Vec2& q) { return (p - q).norm() < kSameNode_m; });
  };
  return a.crossmember == b.crossmember && a.kg_per_m == b.kg_per_m &&
         std::equal(a.walls.begin(), a.walls.end(), b.walls.begin(), b.walls.end(), same);
}

class SectionList {
 public:
  SectionList(const build::Build& build, const frame::Model& model, const Printer& print)
      : build_(build), model_(model), print_(print), runs_(list_runs(model)) {}

  std::vector<DrawnSection> make() {
    for (auto run = runs_.begin(); run != runs_.end(); ++run) {
      const bool told = std::any_of(
          runs_.begin(), run, [&](const SectionRun& earlier) { return earlier.same_part(*run); });
      if (run->sign != 0 && !told) add_rail(*run);
    }
    for (const SectionRun& run : runs_) {
      if (run.sign == 0) add(run.first, run.path, capitalised(run.words));
    }
    return std::move(out_);
  }

 private:
  /// The runs of one part on one side, from the front back; the side that is drawn if zero.
  std::vector<const SectionRun*> runs_of(const SectionRun& part, int sign) const {
    std::vector<const SectionRun*> found;
    for (const SectionRun& run : runs_) {
      if (run.same_part(part) && run.sign == sign) found.push_back(&run);
    }
    return found;
  }

  void add_rail(const SectionRun& part) {
    const auto left = runs_of(part, 1), right = runs_of(part, -1);
    const auto& own = left.empty() ? right : left;
    std::string words = part.words;
    if (!left.empty() && !right.empty()) {
      const auto found = std::find_if(build_.frame.rails.begin(), build_.frame.rails.end(),
                                      [&](const auto& rail) { return rail.path == part.path; });
      words = frame::shop_words(found->value.label, found->id);
    }
    words = capitalised(words) + (part.plates.empty() ? "" : ", boxed");
    for (const SectionRun* run : own) {
      if (run->first == run->last) continue;
      add(run->first, part.path,
          fmt::format("{}, front of its taper, station {}", words, print_.length(run->begin_m)));
      add(run->last, part.path,
          fmt::format("{}, rear of its taper, station {}", words, print_.length(run->end_m)));
    }
    std::vector<std::string> stretches;
    int section = -1;
    for (const SectionRun* run : own) {
      if (run->first != run->last) continue;
      section = run->first;
      stretches.push_back(
          fmt::format("{} to {}", print_.length(run->begin_m), print_.length(run->end_m)));
    }
    if (section >= 0) {
      add(section, part.path, fmt::format("{}, station {}", words, fmt::join(stretches, " and ")));
    }
  }

  void add(int index, const std::string& path, std::string where) {
    const frame::BeamSection& of = model_.structure.sections[static_cast<std::size_t>(index)];
    DrawnSection drawn{.where = {std::move(where)},
                       .paths = {path},
                       .crossmember = path.starts_with("/frame/crossmembers/"),
                       .walls = draw_walls(of.section),
                       .properties = of.properties,
                       .kg_per_m = of.density_kg_per_m3 * of.properties.area_m2};
    const auto same = std::find_if(out_.begin(), out_.end(), [&](const DrawnSection& other) {
      return same_walls(drawn, other);
    });
    if (same == out_.end()) {
      out_.push_back(std::move(drawn));
      return;
    }
    same->where.push_back(std::move(drawn.where.front()));
    if (std::find(same->paths.begin(), same->paths.end(), path) == same->paths.end()) {
      same->paths.push_back(path);
    }
  }

  const build::Build& build_;
  const frame::Model& model_;
  const Printer& print_;
  std::vector<SectionRun> runs_;
  std::vector<DrawnSection> out_;
};

}  // namespace

std::vector<DrawnSection> list_sections(const build::Build& build, const frame::Model& model,
                                        const Printer& print) {
  return SectionList(build, model, print).make();
}

}  // namespace rig::check
