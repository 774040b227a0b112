#include "frame/stands.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/require.h"
#include "frame/contact_internal.h"
#include "frame/faults_internal.h"
#include "frame/rail_line.h"
#include "geometry/line.h"

namespace rig::frame {

namespace {

using Eigen::Index;

/// Stands nearer to each other than this are at one place, m.
constexpr double kSameStand_m = 1e-3;
/// Width over length below which stands are in line.
constexpr double kStandsInLine = 1e-3;
/// Of the weight: what is left over fore-and-aft or sideways counts as none below it.
constexpr double kVertical = 1e-6;

/// Stands at one place, as one.
struct Group {
  std::vector<std::size_t> stands;
  Vec2 p;
};

std::vector<Group> group(std::span<const StandPoint> stands) {
  std::vector<Group> groups;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    const Vec2 p = stands[i].p_VoP_V.head<2>();
    const auto same = std::find_if(groups.begin(), groups.end(),
                                   [&](const Group& g) { return (g.p - p).norm() < kSameStand_m; });
    if (same != groups.end()) {
      same->stands.push_back(i);
    } else {
      groups.push_back({{i}, p});
    }
  }
  return groups;
}

/// The edge of the stands' outline that a point is furthest outside of.
struct Edge {
  std::size_t a = 0, b = 0;      ///< Groups.
  Vec2 outwards = Vec2::Zero();  ///< Unit length.
  double beyond_m = -std::numeric_limits<double>::infinity();
};

/// Longest edge on whose one side all lie, of those the one that the point is furthest beyond.
Edge find_edge(const std::vector<Group>& groups, const Vec2& point) {
  Edge best;
  for (std::size_t a = 0; a < groups.size(); ++a) {
    for (std::size_t b = 0; b < groups.size(); ++b) {
      if (a == b) continue;
      const Vec2 along = (groups[b].p - groups[a].p).normalized();
      const Vec2 outwards(along.y(), -along.x());
      const bool outline = std::all_of(groups.begin(), groups.end(), [&](const Group& g) {
        return outwards.dot(g.p - groups[a].p) < kSameStand_m;
      });
      if (!outline) continue;
      const double beyond_m = outwards.dot(point - groups[a].p);
      const auto length = [&](const Edge& e) { return (groups[e.b].p - groups[e.a].p).norm(); };
      const Edge edge{a, b, outwards, beyond_m};
      const bool further = beyond_m > best.beyond_m + kSameStand_m;
      const bool longer =
          std::abs(beyond_m - best.beyond_m) <= kSameStand_m && length(edge) > length(best);
      if (further || longer) best = edge;
    }
  }
  return best;
}

/// Of the stands' outline, square to its longest side.
bool stands_in_line(const std::vector<Group>& groups) {
  double length = 0, width = 0;
  for (const Group& a : groups) {
    for (const Group& b : groups) {
      if (!((b.p - a.p).norm() > length)) continue;
      length = (b.p - a.p).norm();
      width = 0;
      for (const Group& c : groups) {
        width = std::max(width, std::abs(cross(b.p - a.p, c.p - a.p)) / length);
      }
    }
  }
  return !(width > kStandsInLine * length);
}

Failure tell_tipping(const std::vector<Group>& groups, std::span<const StandPoint> stands,
                     const Vec2& balance, const Edge& edge, const units::UnitChoices& units) {
  const auto length = [&](double m) {
    return units::print_quantity(m, units::Dimension::kLength, units);
  };
  const auto words = [&](std::size_t g) { return stands[groups[g].stands.front()].words; };
  const bool lengthwise = std::abs(edge.outwards.x()) > std::abs(edge.outwards.y());
  const char* way = lengthwise ? (edge.outwards.x() > 0 ? "forward" : "rearward")
                               : (edge.outwards.y() > 0 ? "to the left" : "to the right");
  const double reach = std::abs(lengthwise ? edge.outwards.x() : edge.outwards.y());
  const double beyond_m = std::max(edge.beyond_m, 0.0);
  return fail("frame.tips", "/stands",
              fmt::format("What stands there balances at station {}, offset {}: {} outside of the "
                          "line from the {} to the {}. It tips over them.",
                          length(-balance.x()), length(balance.y()), length(beyond_m),
                          words(edge.a), words(edge.b)),
              fmt::format("Move these stands {} by more than {}, or take weight off on that side.",
                          way, length(beyond_m / reach)));
}

/// Weight and point of balance.
struct Balance {
  double weight_N = 0;
  Vec2 p = Vec2::Zero();
};

Result<Balance> find_balance(const Structure& structure, const Loads& loads) {
  const Resultant all = calc_resultant(structure, loads);
  const double weight_N = -all.f_V.z();
  if (!(weight_N > 0)) {
    return fail("frame.no_weight", "/stands", "Nothing weighs on the stands.",
                "Give what is aboard at this stage, with its masses.");
  }
  const Vec2 balance(all.t_Vo_V.y() / weight_N, -all.t_Vo_V.x() / weight_N);
  double size_m = 1;
  for (const Joint& joint : structure.joints) {
    size_m = std::max(size_m, (joint.p_VoJ_V.head<2>() - balance).norm());
  }
  const double yaw_Nm = all.t_Vo_V.z() - cross(balance, Vec2(all.f_V.head<2>()));
  if (all.f_V.head<2>().norm() > kVertical * weight_N ||
      std::abs(yaw_Nm) > kVertical * weight_N * size_m) {
    return fail("frame.load_not_vertical", "/stands",
                fmt::format("Stands carry upwards only, and the loads push the frame by {:.3g} N "
                            "forward and {:.3g} N to the left, and turn it in plan by {:.3g} N m.",
                            all.f_V.x(), all.f_V.y(), yaw_Nm),
                "Loads that only weigh, or that hold each other in balance in plan.");
  }
  return Balance{weight_N, balance};
}

/// Takes out how the stands have moved in plan, on the mean.
void centre(const Structure& structure, std::span<const StandPoint> stands, Response& response) {
  Vec3 middle = Vec3::Zero(), moved = Vec3::Zero();
  const auto count = static_cast<double>(stands.size());
  std::vector<Vec3> moves;
  for (const StandPoint& stand : stands) {
    moves.push_back(calc_displacement(structure, response, stand.joint, stand.p_VoP_V));
    middle += stand.p_VoP_V / count;
    moved += moves.back() / count;
  }
  double turned = 0, spread = 0;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    const Vec2 arm = (stands[i].p_VoP_V - middle).head<2>();
    turned += cross(arm, Vec2((moves[i] - moved).head<2>()));
    spread += arm.squaredNorm();
  }
  moved.z() = 0;
  add_rigid_motion(structure, middle, -moved, {0, 0, -turned / spread}, response);
}

}  // namespace

void add_response(Response& to, const Response& more, double share) {
  for (std::size_t i = 0; i < to.displacement_V.size(); ++i) {
    to.displacement_V[i] += share * more.displacement_V[i];
    to.rotation_V[i] += share * more.rotation_V[i];
  }
  for (std::size_t i = 0; i < to.scalar.size(); ++i) to.scalar[i] += share * more.scalar[i];
}

void add_rigid_motion(const Structure& structure, const Vec3& p_VoQ_V, const Vec3& displacement_V,
                      const Vec3& rotation_V, Response& response) {
  for (std::size_t i = 0; i < structure.joints.size(); ++i) {
    response.displacement_V[i] +=
        displacement_V + rotation_V.cross(structure.joints[i].p_VoJ_V - p_VoQ_V);
    response.rotation_V[i] += rotation_V;
  }
}

Result<std::vector<StandPoint>> find_stands(const build::Build& build, std::size_t stage,
                                            const Model& model) {
  RIG_REQUIRE(stage < build.frame.stages.size());
  const auto& entry = build.frame.stages[stage];
  std::vector<StandPoint> found;
  Diagnostics faults;
  if (entry.value.stands.empty()) {
    add_fault(faults, "frame.no_stands", entry.path + "/stands",
              fmt::format("The stage \"{}\" has no stands.", entry.id),
              "Say where they stand: four at least, under the rails.");
  }
  for (const auto& stand : entry.value.stands) {
    const std::string words = fmt::format("{} stand", shop_words("", stand.id));
    if (!stand.value.station.known()) {
      add_fault(faults, "frame.unknown_station", stand.path + "/station",
                fmt::format("The station of the {} is not known.", words),
                "Measure it, or take the stand out.");
      continue;
    }
    for (const int sign : {1, -1}) {
      if (!build::is_on(stand.value.side, sign)) continue;
      const auto at_stand = std::find_if(
          model.attachments.begin(), model.attachments.end(), [&](const Attachment& one) {
            return one.kind == AttachmentKind::stand && one.path == stand.path && one.sign == sign;
          });
      if (at_stand == model.attachments.end()) {
        add_fault(
            faults, "frame.no_rail_above", stand.path + "/station",
            fmt::format("No rail is above the {} on the {}.", words, sign > 0 ? "left" : "right"),
            "Put it under a rail: between the stations of its ends.");
        continue;
      }
      found.push_back({stand.path, at_stand->words, at_stand->joint, at_stand->p_VoP_V});
    }
  }
  if (!faults.empty()) return Failure{std::move(faults)};
  return found;
}

Result<Standing> solve_stands(const Solver& solver, const Loads& loads,
                              std::span<const StandPoint> stands, const units::UnitChoices& units) {
  const Structure& structure = solver.structure();
  const std::vector<Group> groups = group(stands);
  if (groups.size() < 3 || stands_in_line(groups)) {
    return fail("frame.too_few_stands", "/stands",
                fmt::format("It takes three stands that are not in line; there {} {}.",
                            groups.size() == 1 ? "is" : "are", groups.size()),
                "Put stands under both rails, two of them under one at least.");
  }
  std::vector<Loads> cases{loads};
  for (const Group& g : groups) {
    Loads unit;
    for (const std::size_t i : g.stands) {
      unit.points.push_back({.joint = stands[i].joint,
                             .p_VoP_V = stands[i].p_VoP_V,
                             .f_P_V = Vec3(0, 0, 1.0 / static_cast<double>(g.stands.size()))});
    }
    cases.push_back(std::move(unit));
  }
  // Before the balance, as it finds what is no number or on no joint.
  auto responses = solver.solve_held(cases);
  if (!responses) return Failure{responses.error()};
  const auto balance = find_balance(structure, loads);
  if (!balance) return Failure{balance.error()};
  const Edge edge = find_edge(groups, balance->p);
  if (edge.beyond_m > -kSameStand_m) {
    return tell_tipping(groups, stands, balance->p, edge, units);
  }

  const auto n = static_cast<Index>(groups.size());
  const auto height = [&](const Group& g, const Response& response) {
    const StandPoint& stand = stands[g.stands.front()];
    return calc_displacement(structure, response, stand.joint, stand.p_VoP_V).z();
  };
  Eigen::MatrixXd flexibility(n, n);
  Eigen::VectorXd heights(n);
  std::vector<Vec2> places;
  for (Index i = 0; i < n; ++i) {
    const Group& g = groups[static_cast<std::size_t>(i)];
    heights[i] = height(g, (*responses)[0]);
    for (Index j = 0; j < n; ++j) {
      flexibility(i, j) = height(g, (*responses)[static_cast<std::size_t>(j + 1)]);
    }
    places.emplace_back(g.p - balance->p);
  }
  flexibility = (flexibility + flexibility.transpose()).eval() / 2;
  const ContactAnswer answer = solve_contact(flexibility, heights, places, balance->weight_N);
  if (!answer.found) {
    return fail("frame.stands_not_found", "/stands", "Rounding hides which of the stands carry.",
                "Take out stands that stand close together.");
  }

  Standing out{.stands = std::vector<StandForce>(stands.size()),
               .loads = loads,
               .response = std::move((*responses)[0])};
  for (Index i = 0; i < n; ++i) {
    const Group& g = groups[static_cast<std::size_t>(i)];
    const bool resting = answer.resting[static_cast<std::size_t>(i)] != 0;
    for (const std::size_t k : g.stands) {
      const double force_N = answer.forces_N[i] / static_cast<double>(g.stands.size());
      out.stands[k] = {.force_N = force_N, .lifted = !resting, .gap_m = answer.gaps_m[i]};
      if (force_N == 0) continue;
      out.loads.points.push_back(
          {.joint = stands[k].joint, .p_VoP_V = stands[k].p_VoP_V, .f_P_V = Vec3(0, 0, force_N)});
    }
    add_response(out.response, (*responses)[static_cast<std::size_t>(i + 1)], answer.forces_N[i]);
  }
  const Vec3 origin(balance->p.x(), balance->p.y(), 0);
  add_rigid_motion(structure, origin, {0, 0, answer.plane.x()},
                   {answer.plane.z(), -answer.plane.y(), 0}, out.response);
  centre(structure, stands, out.response);
  return out;
}

}  // namespace rig::frame
