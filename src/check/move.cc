#include "check/move.h"

#include <fmt/format.h>

#include <cmath>

#include "check/words.h"

namespace rig::check {
namespace {

std::string_view end_words(PointKind kind) {
  switch (kind) {
    case PointKind::kLinkFrame:
      return "frame end";
    case PointKind::kLinkAxle:
      return "axle end";
    case PointKind::kArmApex:
      return "single end";
    case PointKind::kArmFirst:
      return "first of the two ends";
    case PointKind::kArmSecond:
      return "second of the two ends";
    case PointKind::kLeafFrontEye:
      return "front eye";
    case PointKind::kLeafRearEye:
      return "rear eye";
  }
  return "";
}

const char* point_key(PointKind kind) {
  switch (kind) {
    case PointKind::kLinkFrame:
      return "/frame/at";
    case PointKind::kLinkAxle:
      return "/axle/at";
    case PointKind::kArmApex:
      return "/apex/at";
    case PointKind::kArmFirst:
      return "/first/at";
    case PointKind::kArmSecond:
      return "/second/at";
    case PointKind::kLeafFrontEye:
      return "/front_eye";
    case PointKind::kLeafRearEye:
      return "/rear_eye";
  }
  return "";
}

bool is_arm(PointKind kind) {
  return kind == PointKind::kArmApex || kind == PointKind::kArmFirst ||
         kind == PointKind::kArmSecond;
}
bool is_leaf(PointKind kind) {
  return kind == PointKind::kLeafFrontEye || kind == PointKind::kLeafRearEye;
}

struct Thing {
  std::string path, label;
  bool both_sides = false;
};

Thing thing_of(const build::Entry<build::Axle>& axle, const Move& move) {
  const auto from = [](const auto& entry) {
    return Thing{entry.path,
                 uncapitalised(entry.value.label.empty() ? entry.id : entry.value.label),
                 entry.value.both_sides};
  };
  if (is_arm(move.point)) return from(axle.value.arms[move.index]);
  if (is_leaf(move.point)) return from(axle.value.leaf_packs[move.index]);
  return from(axle.value.links[move.index]);
}

const char* way_words(Way way, bool positive, bool both_sides) {
  switch (way) {
    case Way::kUp:
      return positive ? "up" : "down";
    case Way::kAft:
      return positive ? "rearward" : "forward";
    case Way::kLeft:
      if (both_sides) return positive ? "outward" : "inward";
      return positive ? "to the left" : "to the right";
  }
  return "";
}

}  // namespace

build::Point& point_of(build::Axle& axle, const Move& move) {
  switch (move.point) {
    case PointKind::kLinkFrame:
      return axle.links.at(move.index).value.frame.at;
    case PointKind::kLinkAxle:
      return axle.links.at(move.index).value.axle.at;
    case PointKind::kArmApex:
      return axle.arms.at(move.index).value.apex.at;
    case PointKind::kArmFirst:
      return axle.arms.at(move.index).value.first.at;
    case PointKind::kArmSecond:
      return axle.arms.at(move.index).value.second.at;
    case PointKind::kLeafFrontEye:
      return axle.leaf_packs.at(move.index).value.front_eye;
    case PointKind::kLeafRearEye:
      break;
  }
  return axle.leaf_packs.at(move.index).value.rear_eye;
}

build::Length& coordinate_of(build::Axle& axle, const Move& move) {
  build::Point& point = point_of(axle, move);
  if (move.way == Way::kUp) return point.height;
  return move.way == Way::kAft ? point.station : point.offset;
}

std::string coordinate_path(const build::Entry<build::Axle>& axle, const Move& move) {
  const char* key = move.way == Way::kUp    ? "/height"
                    : move.way == Way::kAft ? "/station"
                                            : "/offset";
  return thing_of(axle, move).path + point_key(move.point) + key;
}

std::string move_words(const build::Entry<build::Axle>& axle, const Move& move, double amount_m,
                       const Printer& print) {
  const Thing thing = thing_of(axle, move);
  std::string ends(end_words(move.point));
  if (thing.both_sides && ends.find("ends") == std::string::npos) ends += "s";
  return fmt::format("the {} of the {}{} {} {}", ends, thing.label, thing.both_sides ? "s" : "",
                     print.length(std::abs(amount_m)),
                     way_words(move.way, amount_m > 0, thing.both_sides));
}

std::vector<Move> list_moves(const build::Axle& axle) {
  std::vector<Move> moves;
  const auto add = [&](PointKind kind, std::size_t index, const build::Point& point,
                       bool sideways) {
    if (!point.known()) return;
    moves.push_back({kind, index, Way::kUp});
    moves.push_back({kind, index, sideways ? Way::kLeft : Way::kAft});
  };
  for (std::size_t i = 0; i < axle.links.size(); ++i) {
    const auto& link = axle.links[i].value;
    const bool track_bar = link.role == build::LinkRole::kTrackBar;
    add(PointKind::kLinkFrame, i, link.frame.at, track_bar);
    add(PointKind::kLinkAxle, i, link.axle.at, track_bar);
  }
  for (std::size_t i = 0; i < axle.arms.size(); ++i) {
    const auto& arm = axle.arms[i].value;
    add(PointKind::kArmApex, i, arm.apex.at, false);
    add(PointKind::kArmFirst, i, arm.first.at, false);
    add(PointKind::kArmSecond, i, arm.second.at, false);
  }
  for (std::size_t i = 0; i < axle.leaf_packs.size(); ++i) {
    const auto& leaf = axle.leaf_packs[i].value;
    if (leaf.front_eye.known()) moves.push_back({PointKind::kLeafFrontEye, i, Way::kUp});
    if (leaf.rear_eye.known()) moves.push_back({PointKind::kLeafRearEye, i, Way::kUp});
  }
  return moves;
}

build::Entry<build::Axle> moved(build::Entry<build::Axle> axle, const Move& move, double amount_m) {
  coordinate_of(axle.value, move).si += amount_m;
  return axle;
}

}  // namespace rig::check
