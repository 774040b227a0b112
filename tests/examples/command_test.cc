// The command: exit codes, error output, tables.

#include "command.h"

#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

namespace rig::testing {

namespace {

std::string read_back(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

Ran run(const std::string& arguments) {
  const std::string out = ::testing::TempDir() + "rig_out.txt";
  const std::string err = ::testing::TempDir() + "rig_err.txt";
  const std::string command =
      std::string(RIG_PROGRAM) + " " + arguments + " >" + out + " 2>" + err + " </dev/null";
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, read_back(out), read_back(err)};
}

std::string example(const std::string& name) {
  return std::string(RIG_SOURCE_DIR) + "/examples/" + name + ".rig.json";
}

std::string write_file(const std::string& name, const std::string& text) {
  const std::string path = ::testing::TempDir() + name;
  std::ofstream(path, std::ios::binary) << text;
  return path;
}

namespace {

const std::string kTowRig = example("01_tow_rig/tow_rig");

TEST(CheckCommand, ExitsOneWhenSomethingStopsAndZeroWhenNothingDoes) {
  EXPECT_EQ(run("check " + kTowRig).exit_code, 1);
  EXPECT_EQ(run("check " + example("03_shop_truck/shop_truck")).exit_code, 0);
  EXPECT_EQ(run("check --json " + example("03_shop_truck/shop_truck")).exit_code, 0);
}

TEST(CheckCommand, UnusableFileExitsTwoWithEveryFaultLocated) {
  const std::string path = write_file("wrong.rig.json", R"({
  "version": 1,
  "name": "Wrong",
  "axels": {},
  "tyres": {"a": {"free_radius": "17 lb", "with": "12 in"}}
})");
  const Ran ran = run("check " + path);
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find(path + ":4:3: "), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("axles"), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("[build.unknown_key]"), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("at /tyres/a/free_radius"), std::string::npos) << ran.err;
  EXPECT_NE(ran.err.find("[units.wrong_dimension]"), std::string::npos) << ran.err;
  const Ran json = run("check --json " + path);
  EXPECT_EQ(json.exit_code, 2);
  const auto faults = nlohmann::json::parse(json.out)["diagnostics"];
  EXPECT_EQ(faults.size(), 3U);
  EXPECT_EQ(faults[0]["line"], 4);
}

TEST(CheckCommand, NoSuchFileAndNoSuchOptionExitTwo) {
  const Ran missing = run("check /nowhere/at_all.rig.json");
  EXPECT_EQ(missing.exit_code, 2);
  EXPECT_NE(missing.err.find("/nowhere/at_all.rig.json can't be read"), std::string::npos)
      << missing.err;
  EXPECT_EQ(run("check " + kTowRig + " --loud").exit_code, 2);
  EXPECT_EQ(run("").exit_code, 2);
  EXPECT_EQ(run("--help").exit_code, 0);
  const Ran folder = run("check /dev");
  EXPECT_EQ(folder.exit_code, 2);
  EXPECT_EQ(folder.err.rfind("/dev is a folder\n", 0), 0U) << folder.err;
  const Ran unknown = run("frob x");
  EXPECT_EQ(unknown.exit_code, 2);
  EXPECT_NE(unknown.err.find("\"frob\""), std::string::npos) << unknown.err;
}

TEST(CheckCommand, AlmostEmptyBuildIsNoStop) {
  const std::string path = write_file("stub.rig.json", R"({"version": 1, "name": "Stub"})");
  const Ran ran = run("check " + path);
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_NE(ran.out.find("What to tell next"), std::string::npos);
  EXPECT_NE(ran.out.find("/load_states"), std::string::npos);
}

TEST(CheckCommand, LinksHeldTwiceExitOne) {
  const std::string path = write_file("twice.rig.json", R"({
  "version": 1,
  "axles": {"rear": {"end": "rear", "station": "100 in", "height": "16 in", "track": "60 in", "links": {
    "lower": {"role": "lower", "both_sides": true,
      "frame": {"at": {"station": "70 in", "offset": "18 in", "height": "20 in"}},
      "axle": {"at": {"station": "99 in", "offset": "18 in", "height": "14 in"}}},
    "upper": {"role": "upper", "both_sides": true,
      "frame": {"at": {"station": "74 in", "offset": "18 in", "height": "26 in"}},
      "axle": {"at": {"station": "99 in", "offset": "18 in", "height": "22 in"}}},
    "bar": {"role": "track_bar",
      "frame": {"at": {"station": "105 in", "offset": "18 in", "height": "22 in"}},
      "axle": {"at": {"station": "105 in", "offset": "-18 in", "height": "20 in"}}}}}}
})");
  const Ran ran = run("check " + path);
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_NE(ran.out.find("hold the rear axle more than once"), std::string::npos) << ran.out;
}

TEST(SweepCommand, WritesARowPerPose) {
  const Ran ran = run("sweep " + kTowRig +
                      " --axle front --heave '-3 in:3 in:13' --roll '-5 deg:5 deg:11' --csv");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(std::count(ran.out.begin(), ran.out.end(), '\n'), 1 + 13 * 11);
  EXPECT_EQ(ran.out.rfind("heave_m,roll_rad,p_VC_x_m,p_VC_y_m,p_VC_z_m,R_11,", 0), 0U);
  EXPECT_NE(ran.out.find("\n-0.0762,-0.0872664625997"), std::string::npos);
  EXPECT_EQ(ran.out.find("nan"), std::string::npos);
}

TEST(SweepCommand, SaysWhatIsWrongWithARange) {
  const auto err = [](const std::string& heave) {
    const Ran ran = run("sweep " + kTowRig + " --axle front --heave '" + heave + "' --csv");
    EXPECT_EQ(ran.exit_code, 2) << heave;
    EXPECT_EQ(ran.out, "");
    return ran.err;
  };
  EXPECT_NE(err("-3 in").find("two colons"), std::string::npos);
  EXPECT_NE(err("-3 in:3 in:many").find("whole number"), std::string::npos);
  EXPECT_NE(err("-3 in:3 in:0").find("whole number"), std::string::npos);
  EXPECT_NE(err("-3 deg:3 deg:5").find("cli.bad_range"), std::string::npos);
  EXPECT_NE(err("-3:3:5").find("cli.bad_range"), std::string::npos);
}

TEST(SweepCommand, UnknownAxleNamesThoseThereAre) {
  const Ran ran = run("sweep " + kTowRig + " --axle middle --csv");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err.find("it has: front, rear"), std::string::npos) << ran.err;
}

TEST(SweepCommand, WorksWithLinksAloneAndStopsWhereTheyEnd) {
  const std::string path = write_file("links.rig.json", R"({
  "version": 1,
  "axles": {"front": {"end": "front", "station": "0 in", "height": "16 in", "links": {
    "lower": {"role": "lower", "both_sides": true,
      "frame": {"at": {"station": "36 in", "offset": "15 in", "height": "20 in"}},
      "axle": {"at": {"station": "2 in", "offset": "18 in", "height": "14 in"}}},
    "upper": {"role": "upper",
      "frame": {"at": {"station": "32 in", "offset": "-12 in", "height": "27 in"}},
      "axle": {"at": {"station": "1 in", "offset": "-11 in", "height": "23 in"}}},
    "bar": {"role": "track_bar",
      "frame": {"at": {"station": "-6 in", "offset": "16 in", "height": "22 in"}},
      "axle": {"at": {"station": "-6 in", "offset": "-18 in", "height": "20 in"}}}}}}
})");
  const Ran near = run("sweep " + path + " --axle front --heave '-3 in:3 in:7' --csv");
  EXPECT_EQ(near.exit_code, 0) << near.err;
  EXPECT_EQ(near.out.find("force_N"), std::string::npos);
  EXPECT_EQ(near.out.find("anti_brake"), std::string::npos);
  EXPECT_NE(near.out.find("roll_steer"), std::string::npos);
  const Ran far = run("sweep " + path + " --axle front --heave '0:40 in:41' --csv");
  EXPECT_EQ(far.exit_code, 1);
  EXPECT_NE(far.err.find("can't be reached"), std::string::npos) << far.err;
  EXPECT_LT(std::count(far.out.begin(), far.out.end(), '\n'), 42);
}

}  // namespace
}  // namespace rig::testing
