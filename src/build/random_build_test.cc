#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "build/fixture_internal.h"
#include "build/random_build_internal.h"

namespace rig::build {
namespace {

/// A value is divided by its unit, printed to 17 digits, read and multiplied again: a handful of
/// roundings of half a unit in the last place (1.1e-16) each.
constexpr double kRounding = 1e-15;

void assert_same(const Listing& a, const Listing& b) {
  RC_ASSERT(a.words == b.words);
  RC_ASSERT(a.numbers.size() == b.numbers.size());
  for (std::size_t i = 0; i < a.numbers.size(); ++i) {
    RC_ASSERT(a.numbers[i].first == b.numbers[i].first);
    const double x = a.numbers[i].second;
    const double y = b.numbers[i].second;
    if (std::isnan(x) && std::isnan(y)) continue;
    if (!(std::abs(x - y) <= kRounding * std::abs(x))) {
      RC_FAIL(fmt::format("{}: {:.17g} and {:.17g}", a.numbers[i].first, x, y));
    }
  }
}

ReadBuild read_whole(const std::string& text) {
  auto read = read_build(text);
  if (!read) RC_FAIL(faults_of(read) + "\n" + read.error().front().message);
  return std::move(read).value();
}

RC_GTEST_PROP(RandomBuild, IsTheSameWhenItsFileIsReadInEitherSystemOfUnits, ()) {
  const Build build = RandomFill::make();
  const Listing listing = Listing::of(build);
  assert_same(listing, Listing::of(read_whole(FileWriter::write(build, /*metric=*/false)).build));
  assert_same(listing, Listing::of(read_whole(FileWriter::write(build, /*metric=*/true)).build));
}

RC_GTEST_PROP(RandomBuild, IsWrittenBackByteForByte, ()) {
  const std::string text = FileWriter::write(RandomFill::make(), toss(50)) + "\n";
  RC_ASSERT(write_build(*read_whole(text).document) == text);
}

RC_GTEST_PROP(RandomBuild, IsTheSameAfterAnyValueIsSetToItself, ()) {
  const std::string text = FileWriter::write(RandomFill::make(), toss(50)) + "\n";
  const ReadBuild read = read_whole(text);
  const auto json = nlohmann::ordered_json::parse(text);
  const auto flat = json.flatten();
  const auto index = *rc::gen::inRange<std::size_t>(0, flat.size());
  const auto at = std::next(flat.items().begin(), static_cast<std::ptrdiff_t>(index));
  const auto& value = json.at(nlohmann::ordered_json::json_pointer(at.key()));
  const auto after = edit_build(*read.document, {{at.key(), value.dump()}});
  RC_ASSERT(after.has_value());
  assert_same(Listing::of(read.build), Listing::of(after->build));
}

}  // namespace
}  // namespace rig::build
