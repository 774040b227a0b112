#include "driveline/support.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "build/drivetrain_lookup.h"

namespace rig::driveline {
namespace {

/// Tried along a range before closing in.
constexpr int kTries = 24;
constexpr int kRounds = 16;             ///< Of the golden section: to a thousandth of a step.
constexpr double kWorthSupport = 0.95;  ///< Of the moment without: less gain is none.
constexpr double kWorthRate = 0.9;

/// Where f is least from `low` to `high`: the best of evenly spread tries, closed in on between its
/// neighbours.
double find_least(const std::function<double(double)>& f, double low, double high) {
  const double step = (high - low) / kTries;
  double best = low, least = f(low);
  for (int i = 1; i <= kTries; ++i) {
    const double here = f(low + i * step);
    if (here < least) best = low + i * step, least = here;
  }
  constexpr double kGolden = 0.6180339887498949;
  double a = std::max(low, best - step), b = std::min(high, best + step);
  double c = b - kGolden * (b - a), d = a + kGolden * (b - a);
  double fc = f(c), fd = f(d);
  for (int i = 0; i < kRounds; ++i) {
    if (fc < fd) {
      b = d, d = c, fd = fc;
      c = b - kGolden * (b - a), fc = f(c);
    } else {
      a = c, c = d, fc = fd;
      d = a + kGolden * (b - a), fd = f(d);
    }
  }
  return (a + b) / 2;
}

/// Bending moment of the worst flange; 0 without a flange.
double worst_Nm(const CaseLine& line, std::span<const CaseLoads> loads) {
  const auto worst = find_worst_flange(line, loads);
  return worst && *worst ? (*worst)->cut.bending_Nm : 0;
}

/// The line from the front face of `first` back, by length.
class Back {
 public:
  Back(const CaseLine& line, std::size_t first) : line_(line), first_(first) {
    for (std::size_t i = first; i < line.cases.size(); ++i) length_m_ += length_m(i);
  }
  double length_m() const { return length_m_; }
  std::pair<std::size_t, Vec3> at(double from_m) const {
    std::size_t i = first_;
    while (i + 1 < line_.cases.size() && from_m > length_m(i)) from_m -= length_m(i++);
    const Case& one = line_.cases[i];
    return {i, one.p_VoF_V + from_m / length_m(i) * (one.p_VoR_V - one.p_VoF_V)};
  }

 private:
  double length_m(std::size_t i) const {
    return (line_.cases[i].p_VoR_V - line_.cases[i].p_VoF_V).norm();
  }
  const CaseLine& line_;
  std::size_t first_;
  double length_m_ = 0;
};

}  // namespace

Result<std::optional<WorstFlange>> find_worst_flange(const CaseLine& line,
                                                     std::span<const CaseLoads> loads) {
  const auto solved = solve_loads(line, loads);
  if (!solved) return Failure{solved.error()};
  std::optional<WorstFlange> worst;
  for (std::size_t load = 0; load < loads.size(); ++load) {
    const auto& flanges = (*solved)[load].flanges;
    for (std::size_t i = 0; i < flanges.size(); ++i) {
      if (worst && flanges[i].bending_Nm <= worst->cut.bending_Nm) continue;
      worst = WorstFlange{i, load, flanges[i]};
    }
  }
  return worst;
}

Result<std::optional<SupportPlace>> find_support_place(const CaseLine& line,
                                                       std::span<const CaseLoads> loads,
                                                       double rate_N_per_m) {
  const auto without = find_worst_flange(line, loads);
  if (!without) return Failure{without.error()};
  if (!*without) return std::optional<SupportPlace>();
  std::size_t last = 0;
  for (const CaseMount& mount : line.mounts) last = std::max(last, mount.on);
  if (last + 1 >= line.cases.size()) return std::optional<SupportPlace>();
  const Back back(line, last + 1);
  const auto with_support = [&](double from_m) {
    CaseLine supported = line;
    const auto [on, place] = back.at(from_m);
    CaseMount support{.label = "support", .on = on, .p_VoM_V = place};
    support.K_V =
        build::mount_stiffness(Vec3::UnitZ(), rate_N_per_m, rate_N_per_m / 3, rate_N_per_m / 3);
    supported.mounts.push_back(std::move(support));
    // The frame stands still under it: there is no crossmember there yet.
    if (line.frame_m_per_N.size() > 0) {
      const Eigen::Index n = line.frame_m_per_N.rows();
      supported.frame_m_per_N = Eigen::MatrixXd::Zero(n + 3, n + 3);
      supported.frame_m_per_N.topLeftCorner(n, n) = line.frame_m_per_N;
    }
    return supported;
  };
  const double best_m = find_least(
      [&](double from_m) { return worst_Nm(with_support(from_m), loads); }, 0, back.length_m());
  const CaseLine supported = with_support(best_m);
  const auto worst = find_worst_flange(supported, loads);
  if (!worst) return Failure{worst.error()};
  if ((*worst)->cut.bending_Nm > kWorthSupport * (*without)->cut.bending_Nm) {
    return std::optional<SupportPlace>();
  }
  SupportPlace out{.on = supported.mounts.back().on,
                   .p_VoM_V = supported.mounts.back().p_VoM_V,
                   .worst = **worst};
  const auto carried = solve_loads(supported, loads);
  if (!carried) return Failure{carried.error()};
  for (const CasesAtRest& one : *carried) {
    out.greatest_load_N = std::max(out.greatest_load_N, std::abs(one.mounts.back().along_N));
  }
  return std::optional(out);
}

Result<std::optional<MountRate>> find_better_rate(const CaseLine& line,
                                                  std::span<const CaseLoads> loads) {
  const auto now = find_worst_flange(line, loads);
  if (!now) return Failure{now.error()};
  if (!*now) return std::optional<MountRate>();
  std::optional<MountRate> best;
  std::set<std::string> tried;
  for (std::size_t m = 0; m < line.mounts.size(); ++m) {
    if (!tried.insert(line.mounts[m].path).second) continue;
    const auto scaled = [&](double power) {
      CaseLine changed = line;
      for (CaseMount& mount : changed.mounts) {
        if (mount.path == line.mounts[m].path) mount.K_V *= std::pow(30.0, power);
      }
      return changed;
    };
    const double power = find_least([&](double p) { return worst_Nm(scaled(p), loads); }, -1, 1);
    const auto worst = find_worst_flange(scaled(power), loads);
    if (!worst || !*worst) continue;
    if ((*worst)->cut.bending_Nm > kWorthRate * (*now)->cut.bending_Nm) continue;
    if (best && (*worst)->cut.bending_Nm >= best->worst.cut.bending_Nm) continue;
    best = MountRate{.mount = m, .factor = std::pow(30.0, power), .worst = **worst};
  }
  return best;
}

}  // namespace rig::driveline
