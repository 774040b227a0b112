#include "check/next.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <future>
#include <thread>

#include "build/describe.h"
#include "build/known_to.h"
#include "build/place_words.h"
#include "check/finding.h"

namespace rig::check {
namespace {

constexpr std::size_t kToldFindings = 3;
constexpr double kMostPerFinding = 2;
/// A change of less than this share of the room to the limit is not worth a tape measure.
constexpr double kNothing = 0.1;

/// The keys of places: where a thing is, not how large it is.
constexpr std::array<std::string_view, 4> kPlaces{"station", "offset", "height", "track"};

/// A value of the build that is not known exactly.
struct Unsure {
  std::string path;
  double* si = nullptr;  ///< In the build that was walked.
  double half_width = 0;
  units::Dimension dimension = units::Dimension::kLength;
};

/// The visitor that finds every doubtful value, in the order of the file's description.
class FindDoubts {
 public:
  static std::vector<Unsure> in(build::Build& build) {
    FindDoubts visitor;
    describe(visitor, build);
    return std::move(visitor.doubts_);
  }

  template <typename T, typename... Rule>
  void field(std::string_view key, T& member, std::string_view, const Rule&...) {
    is_place_ = std::find(kPlaces.begin(), kPlaces.end(), key) != kPlaces.end();
    at(fmt::format("/{}", key), member);
  }
  template <typename T>
  void reference(std::string_view, T&, std::string_view, std::string_view) {}

 private:
  template <typename T>
  void at(const std::string& step, T& member) {
    const std::size_t length = path_.size();
    path_ += step;
    visit(member);
    path_.resize(length);
  }
  template <units::Dimension D>
  void visit(build::Quantity<D>& quantity) {
    if (!quantity.known()) return;
    double half = build::half_width(quantity);
    if constexpr (D == units::Dimension::kLength) {
      if (is_place_) half = build::place_half_width(quantity);
    }
    if (half > 0) doubts_.push_back({path_, &quantity.si, half, D});
  }
  template <typename T>
  void visit(std::optional<T>& member) {
    if (member) visit(*member);
  }
  template <typename T>
  void visit(std::vector<T>& list) {
    for (std::size_t i = 0; i < list.size(); ++i) at(fmt::format("/{}", i), list[i]);
  }
  template <typename T>
  void visit(build::Map<T>& map) {
    for (auto& entry : map) at(fmt::format("/{}", entry.id), entry.value);
  }
  template <typename T>
  requires(!build::kStructName<T>.empty()) void visit(T& group) { describe(*this, group); }
  template <typename T>
  requires(build::kStructName<T>.empty()) void visit(T&) {}

  std::string path_;
  bool is_place_ = false;
  std::vector<Unsure> doubts_;
};

struct Change {
  std::string finding;   ///< Id.
  std::string sentence;  ///< As it stands now, or as it would come up.
  std::string by;        ///< Empty: too little to show in the fraction that is printed.
  double weight = 0;
};

double turn_weight(Verdict before, Verdict after) {
  if (before == after) return 0;
  return before == Verdict::kStop || after == Verdict::kStop ? 2 : 1;
}

/// How one finding answers to a change of the build.
Change compare(const Finding& before, const Report& changed) {
  Change change{
      .finding = before.id, .sentence = before.sentence, .by = "can't be told", .weight = 1};
  const Finding* after = changed.finding(before.id);
  if (after == nullptr) return change;
  change.weight = turn_weight(before.verdict, after->verdict);
  if (before.value && after->value && before.limit) {
    const double by = std::abs(after->value->si - before.value->si);
    const double room = std::abs(before.limit->si - before.value->si);
    if (std::isfinite(by) && by > 0)
      change.weight += std::min(by / std::max(room, by / 10), kMostPerFinding);
  }
  change.by = after->value ? after->value->text : after->sentence;
  if (before.value) {
    change.by = before.value->text == change.by
                    ? ""
                    : fmt::format("{} to {}", before.value->text, change.by);
  }
  return change;
}

NextReading weigh(const Report& report, const Report& changed) {
  std::vector<Change> changes;
  NextReading reading;
  const auto keep = [&](Change change) {
    if (change.weight < kNothing) return;
    reading.weight += change.weight;
    changes.push_back(std::move(change));
  };
  for (const Finding& finding : report.findings) keep(compare(finding, changed));
  for (const Finding& finding : changed.findings) {
    if (report.finding(finding.id) != nullptr) continue;
    keep({finding.id, finding.sentence, "comes up", turn_weight(Verdict::kGood, finding.verdict)});
  }
  std::stable_sort(changes.begin(), changes.end(),
                   [](const Change& a, const Change& b) { return a.weight > b.weight; });
  if (changes.size() > kToldFindings) changes.resize(kToldFindings);
  for (Change& change : changes) {
    if (change.by.empty()) continue;
    reading.moved.push_back(
        {std::move(change.finding), std::move(change.sentence), std::move(change.by)});
  }
  return reading;
}

/// Every `stride`-th doubt from `first`, put out either way in a build of its own.
void try_out(build::Build build, const Report& report, const std::function<bool()>& is_wanted,
             std::size_t first, std::size_t stride, std::vector<NextReading>& readings) {
  const auto doubts = FindDoubts::in(build);
  for (std::size_t i = first; i < doubts.size(); i += stride) {
    const Unsure& doubt = doubts[i];
    const double was = *doubt.si;
    for (const double way : {1.0, -1.0}) {
      if (!is_wanted()) return;
      *doubt.si = was + way * doubt.half_width;
      auto reading = weigh(report, check(build, Thorough::kVerdictsOnly, &report));
      if (way > 0 || reading.weight > readings[i].weight) readings[i] = std::move(reading);
    }
    *doubt.si = was;
  }
}

}  // namespace

std::optional<std::vector<NextReading>> find_next_readings(const build::ReadBuild& read,
                                                           const std::function<bool()>& is_wanted) {
  build::Build build = read.build;
  const auto doubts = FindDoubts::in(build);
  std::vector<NextReading> readings(doubts.size());
  // One core is left to the answers that somebody waits for.
  const std::size_t cores = std::max(2U, std::thread::hardware_concurrency()) - 1;
  std::vector<std::future<void>> shares;
  // Against the same as is tried: what only the whole report has has not moved.
  const Report now = check(build, Thorough::kVerdictsOnly);
  for (std::size_t first = 0; first < cores; ++first) {
    shares.push_back(std::async(std::launch::async, try_out, build, std::cref(now),
                                std::cref(is_wanted), first, cores, std::ref(readings)));
  }
  for (auto& share : shares) share.wait();
  for (auto& share : shares) share.get();
  if (!is_wanted()) return std::nullopt;

  const Printer print(read.build.units);
  for (std::size_t i = 0; i < doubts.size(); ++i) {
    readings[i].path = doubts[i].path;
    readings[i].label = build::place_words(*read.document, doubts[i].path);
    readings[i].now = print.text(*doubts[i].si, doubts[i].dimension);
    readings[i].plus_minus =
        print.plus_minus(doubts[i].half_width, *doubts[i].si, doubts[i].dimension);
  }
  std::erase_if(readings, [](const NextReading& reading) { return reading.moved.empty(); });
  std::stable_sort(readings.begin(), readings.end(),
                   [](const NextReading& a, const NextReading& b) { return a.weight > b.weight; });
  return readings;
}

}  // namespace rig::check
