#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "build/document_internal.h"
#include "build/faults_internal.h"
#include "build/types.h"
#include "units/quantity.h"

namespace rig::build {

/// What all checks of values that belong together share: the build, and how a fault is told.
class Checks {
 protected:
  Checks(const Node& root, const Build& build, Faults& faults)
      : root_(root), build_(build), faults_(faults) {}

  void report(std::string_view code, const std::string& path, std::string message,
              std::string remedy) {
    faults_.add(code, path, locate(root_, path).value, std::move(message), std::move(remedy));
  }
  void impossible(const std::string& path, std::string message, std::string remedy) {
    report("build.impossible", path, std::move(message), std::move(remedy));
  }

  template <units::Dimension D>
  std::string print(const Quantity<D>& quantity) const {
    return print(quantity.si, D);
  }
  std::string print(double si, units::Dimension dimension) const {
    return units::print_quantity(si, dimension,
                                 {build_.units.metric, build_.units.fraction_of_inch});
  }

  void report_side(const std::string& path) {
    impossible(path + "/both_sides", "it is given for both sides, and on the right",
               "give the left one, with offsets above 0; its mirror is made from it");
  }
  /// A thing given for the left and mirrored may not lie wholly on the right.
  void check_side(bool both_sides, std::initializer_list<const Point*> points,
                  const std::string& path) {
    if (!both_sides) return;
    for (const Point* point : points) {
      if (!(point->offset.si < 0)) return;
    }
    report_side(path);
  }

  void check_tube(const Length& outside_diameter, const Length& wall, const std::string& path) {
    if (!(2 * wall.si > outside_diameter.si)) return;
    impossible(path + "/wall",
               fmt::format("a wall of {} does not fit in a tube of {}", print(wall),
                           print(outside_diameter)),
               "the wall is at most half the outside diameter, which makes a solid bar");
  }
  void check_listed_once(const std::vector<Reference>& list, const std::string& path) {
    for (std::size_t i = 1; i < list.size(); ++i) {
      const auto same = [&](const Reference& use) { return use.id == list[i].id; };
      if (std::none_of(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(i), same)) continue;
      report("build.listed_twice", fmt::format("{}/{}", path, i),
             fmt::format("\"{}\" is already on this list", list[i].id), "name a thing once");
    }
  }

  const Node& root_;
  const Build& build_;
  Faults& faults_;
};

/// Reports what can't be true together in the drivetrain.
void check_drivetrain(const Node& root, const Build& build, Faults& faults);

/// Reports what can't be true together in the frame.
void check_frame(const Node& root, const Build& build, Faults& faults);

/// The same of the holes in its rails.
void check_holes(const Node& root, const Build& build, Faults& faults);

}  // namespace rig::build
