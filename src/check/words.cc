#include "check/words.h"

#include <cctype>

namespace rig::check {
namespace {

bool is_capital(char c) { return std::isupper(static_cast<unsigned char>(c)) != 0; }

template <typename T>
void add_labels(const build::Map<T>& map, std::vector<PartLabel>& labels) {
  for (const auto& entry : map) {
    labels.push_back({entry.path, entry.value.label.empty() ? entry.id : entry.value.label});
  }
}

}  // namespace

std::vector<PartLabel> collect_labels(const build::Axle& axle) {
  std::vector<PartLabel> labels;
  add_labels(axle.links, labels);
  add_labels(axle.arms, labels);
  add_labels(axle.coils, labels);
  add_labels(axle.leaf_packs, labels);
  add_labels(axle.bump_stops, labels);
  add_labels(axle.dampers, labels);
  add_labels(axle.anti_roll_bars, labels);
  return labels;
}

std::string part_words(const AxleReport& axle, const std::string& path, const std::string& name) {
  std::string label = name.substr(0, name.find('.'));
  for (const auto& known : axle.labels) {
    if (known.path == path) label = uncapitalised(known.label);
  }
  for (const char* side : {"left", "right"}) {
    if (name.find(std::string(".") + side) != std::string::npos)
      label.insert(0, std::string(side) + " ");
  }
  if (name.ends_with(".first")) label += ", first leg";
  if (name.ends_with(".second")) label += ", second leg";
  return label;
}

std::string capitalised(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

std::string uncapitalised(std::string text) {
  if (text.size() > 1 && is_capital(text[0]) && !is_capital(text[1])) {
    text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
  }
  return text;
}

std::string axle_words(const AxleReport& axle) { return axle.front ? "front axle" : "rear axle"; }

std::string lifted_wheel_words(const suspension::TruckModel& truck,
                               const suspension::Articulation& found) {
  if (found.limited) return "none: every wheel still carries";
  if (found.tips_over) return "none: the truck tips over first";
  const bool front = truck.axles[found.first_lifted_axle].front;
  return std::string(side_words(found.first_lifted_side)) +
         (front ? " front wheel" : " rear wheel");
}

std::string join_words(const std::vector<std::string>& words) {
  std::string joined;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) joined += i + 1 == words.size() ? " and " : ", ";
    joined += words[i];
  }
  return joined;
}

}  // namespace rig::check
