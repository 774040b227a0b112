#pragma once

#include <string>
#include <vector>

#include "build/types.h"
#include "check/printer.h"

/// Moving one bracket of an axle.
namespace rig::check {

/// A point of an axle that a builder can move.
enum class PointKind {
  kLinkFrame,
  kLinkAxle,
  kArmApex,
  kArmFirst,
  kArmSecond,
  kLeafFrontEye,
  kLeafRearEye
};

/// The three ways it can go; positive is up, rearward, to the left (outward when given for both
/// sides).
enum class Way { kUp, kAft, kLeft };

struct Move {
  PointKind point = PointKind::kLinkFrame;
  std::size_t index = 0;  ///< Of the link, arm or leaf pack in the file's order.
  Way way = Way::kUp;
};

/// The point in an axle; the move must name one that is there.
build::Point& point_of(build::Axle& axle, const Move& move);
/// The coordinate that the move changes.
build::Length& coordinate_of(build::Axle& axle, const Move& move);
/// JSON pointer of that coordinate.
std::string coordinate_path(const build::Entry<build::Axle>& axle, const Move& move);
/// "the axle end of the upper link 3/4 in down".
std::string move_words(const build::Entry<build::Axle>& axle, const Move& move, double amount_m,
                       const Printer& print);

/// Moves of every link and arm end whose place is known (and the eyes of leaf packs): up and down,
/// fore and aft; track bars also sideways.
std::vector<Move> list_moves(const build::Axle& axle);

/// The axle with one point moved; everything that depends on it, lengths and bushes, follows.
build::Entry<build::Axle> moved(build::Entry<build::Axle> axle, const Move& move, double amount_m);

}  // namespace rig::check
