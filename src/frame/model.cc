#include "frame/model.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/require.h"
#include "frame/index_internal.h"
#include "frame/model_maker_internal.h"
#include "units/quantity.h"

namespace rig::frame {

std::shared_ptr<const BeamSection> SectionBook::find(const SectionKey& key) const {
  const std::scoped_lock lock(pages_->mutex);
  const auto found = pages_->solved.find(key);
  return found == pages_->solved.end() ? nullptr : found->second;
}

std::shared_ptr<const BeamSection> SectionBook::keep(const SectionKey& key,
                                                     std::shared_ptr<const BeamSection> section) {
  const std::scoped_lock lock(pages_->mutex);
  return pages_->solved.emplace(key, std::move(section)).first->second;
}

bool SectionBook::is_sound(const SectionKey& sizes) const {
  const std::scoped_lock lock(pages_->mutex);
  return pages_->sound.contains(sizes);
}

void SectionBook::keep_sound(const SectionKey& sizes) {
  const std::scoped_lock lock(pages_->mutex);
  pages_->sound.insert(sizes);
}

std::size_t SectionBook::size() const {
  const std::scoped_lock lock(pages_->mutex);
  return pages_->solved.size();
}

ModelMaker::ModelMaker(const build::Build& build, const Selection& in, SectionBook& book)
    : build_(build), in_(in), book_(book) {}

int ModelMaker::add_joint(Joint joint) {
  model_.structure.joints.push_back(std::move(joint));
  return static_cast<int>(model_.structure.joints.size()) - 1;
}

int ModelMaker::add_scalar(Scalar scalar) {
  model_.structure.scalars.push_back(std::move(scalar));
  return static_cast<int>(model_.structure.scalars.size()) - 1;
}

int ModelMaker::add_member(const std::string& id, const std::string& words) {
  model_.structure.members.push_back({id, words});
  return static_cast<int>(model_.structure.members.size()) - 1;
}

std::shared_ptr<const BeamSection> ModelMaker::solve(
    const SectionKey& key, const SteelNumbers& steel, const std::string& path,
    const std::function<Result<section::Section>()>& make) {
  if (auto known = book_.find(key)) return known;
  const auto section = make();
  if (!section) {
    take_faults(section.error());
    return nullptr;
  }
  auto made = make_beam_section(*section, steel.E_Pa, steel.G_Pa(), steel.density_kg_per_m3);
  if (!made) {
    for (Diagnostic d : made.error()) {
      d.path = path;
      faults_.push_back(std::move(d));
    }
    return nullptr;
  }
  return book_.keep(key, std::make_shared<const BeamSection>(*std::move(made)));
}

int ModelMaker::add_section(SectionKey key, const SteelNumbers& steel, const std::string& path,

                            const std::function<Result<section::Section>()>& make) {
  key.insert(key.end(), {steel.E_Pa, steel.poisson_ratio, steel.density_kg_per_m3});
  const auto found = sections_.find(key);
  if (found != sections_.end()) return found->second;
  auto made = solve(key, steel, path, make);
  if (made == nullptr) return -1;
  const int index = static_cast<int>(model_.structure.sections.size());
  model_.structure.sections.emplace_back(std::move(made));
  sections_.emplace(std::move(key), index);
  return index;
}

const section::SectionProperties& ModelMaker::properties_of(const build::SectionSizes& sizes,
                                                            const std::string& path) {
  // Sizes have been checked; no part of the properties depends on the steel.
  const auto made = solve(list_sizes(sizes), {}, path, [&] { return make_section(sizes, path); });
  RIG_REQUIRE(made != nullptr);
  return made->properties;  // The book keeps it.
}

void ModelMaker::check_shape(const build::SectionSizes& sizes, const std::string& path) {
  const SectionKey key = list_sizes(sizes);
  if (book_.is_sound(key)) return;
  if (const auto made = make_section(sizes, path)) {
    book_.keep_sound(key);
  } else {
    take_faults(made.error());
  }
}

void ModelMaker::add_scalar_spring(std::vector<int> scalars, Eigen::MatrixXd stiffness,
                                   std::string place) {
  model_.structure.scalar_springs.push_back({.scalars = std::move(scalars),
                                             .stiffness = std::move(stiffness),
                                             .place = std::move(place)});
}

void ModelMaker::assume(const std::string& path, std::string words) {
  const auto same = [&](const Assumption& told) {
    return told.path == path && told.words == words;
  };
  auto& told = model_.assumptions;
  if (std::any_of(told.begin(), told.end(), same)) return;
  told.push_back({path, std::move(words)});
}

void ModelMaker::fault(std::string code, std::string path, std::string message,
                       std::string remedy) {
  take_faults({{.code = std::move(code),
                .path = std::move(path),
                .message = std::move(message),
                .remedy = std::move(remedy),
                .at = {}}});
}

void ModelMaker::take_faults(const Diagnostics& faults) {
  for (const Diagnostic& d : faults) {
    // A rail is made on either side: what is wrong with it is told once.
    const bool known = std::any_of(faults_.begin(), faults_.end(), [&](const Diagnostic& told) {
      return told.code == d.code && told.path == d.path;
    });
    if (!known) faults_.push_back(d);
  }
}

std::string ModelMaker::place(const std::string& words, double station_m) const {
  return fmt::format("{} at {}", words,
                     units::print_quantity(station_m, units::Dimension::kLength,
                                           {build_.units.metric, build_.units.fraction_of_inch}));
}

SteelNumbers ModelMaker::steel_of(const build::Reference& steel, const std::string& path,
                                  const std::string& words) {
  if (steel.id.empty()) {
    assume(path, fmt::format("What the {} is made of is not told: taken as any structural steel, "
                             "of unknown yield stress.",
                             words));
  }
  return find_steel(build_.frame, steel.id);
}

bool ModelMaker::prepare() {
  if (is_prepared_) return faults_.empty();
  is_prepared_ = true;
  auto plan = make_plan(build_, in_);
  if (plan) {
    plan_ = *std::move(plan);
  } else {
    take_faults(plan.error());
  }
  for (const auto& rail : build_.frame.rails) check_rail_sizes(rail);
  for (const auto& part : build_.frame.crossmembers) {
    if (in_.contains(part.id)) check_crossmember_sizes(part);
  }
  return faults_.empty();
}

Result<std::vector<RailMark>> ModelMaker::list_places() {
  if (!prepare()) return Failure{faults_};
  std::vector<RailMark> out;
  for (int i = 0; i < static_cast<int>(plan_.rails.size()); ++i) {
    const RailLine& line = plan_.rails[at(i)];
    for (const double station_m : stations_of(line, i)) {
      out.push_back({i, line.rail->path, line.sign, station_m, line.at(station_m)});
    }
  }
  return out;
}

Result<MarkedModel> ModelMaker::make(std::span<const RailMark> marks) {
  marks_ = marks;
  if (!prepare()) return Failure{std::move(faults_)};
  rails_.reserve(plan_.rails.size());
  for (int i = 0; i < static_cast<int>(plan_.rails.size()); ++i) add_rail(i);
  if (!faults_.empty()) return Failure{std::move(faults_)};
  for (int i = 0; i < static_cast<int>(plan_.crossmembers.size()); ++i) add_crossmember(i);
  if (!faults_.empty()) return Failure{std::move(faults_)};
  add_attachments();
  std::vector<int> mark_joints;
  mark_joints.reserve(marks.size());
  for (const RailMark& mark : marks) {
    MadeRail& rail = rails_[at(mark.rail)];
    mark_joints.push_back(carrying_joint(rail, rail.node_at(mark.station_m)));
  }
  return MarkedModel{std::move(model_), std::move(mark_joints)};
}

Shared<Structure> structure_of(const Shared<Model>& model) {
  return Shared<Structure>(std::shared_ptr<const Structure>(model.pointer(), &model->structure));
}

Result<Model> make_model(const build::Build& build, const Selection& in, SectionBook& book) {
  auto made = ModelMaker(build, in, book).make({});
  if (!made) return Failure{made.error()};
  return std::move(made->model);
}

Result<Model> make_model(const build::Build& build, const Selection& in) {
  SectionBook book;
  return make_model(build, in, book);
}

std::vector<double> calc_member_masses_kg(const Structure& structure) {
  std::vector<double> masses(structure.members.size());
  for (const Beam& beam : structure.beams) {
    const BeamSection& section = structure.sections[at(beam.section)];
    masses[at(beam.member)] += section.density_kg_per_m3 * section.properties.area_m2 *
                               (beam.p_VoT_V - beam.p_VoF_V).norm();
  }
  return masses;
}

}  // namespace rig::frame
