#include "frame/attachment_points.h"

#include <fmt/format.h>

#include <cmath>

#include "base/nan.h"
#include "frame/rail_line.h"

namespace rig::frame {
namespace {

class Lister {
 public:
  explicit Lister(const build::Build& build) : build_(build) {}

  std::vector<Attachment> list() {
    for (const auto& axle : build_.axles) list_axle(axle);
    list_middle();
    const auto& frame = build_.frame;
    if (build_.hitch) add_point(AttachmentKind::hitch, "/hitch/ball", "hitch", build_.hitch->ball);
    for (const auto& pull : frame.pulls) {
      add_point(AttachmentKind::pull, pull.path, shop_words(pull.value.label, pull.id),
                pull.value.at);
    }
    for (const auto& mount : frame.mounts) list_mount(mount);
    for (const auto& mount : build_.drivetrain.mounts) {
      add_sides(AttachmentKind::mount, mount.path, shop_words(mount.value.label, mount.id),
                mount.value.both_sides, mount.value.at);
    }
    for (const auto& stage : frame.stages) {
      for (const auto& stand : stage.value.stands) list_stand(stand);
    }
    return std::move(found_);
  }

 private:
  static constexpr double kOpen = kNaN;

  void add(AttachmentKind kind, const std::string& path, const std::string& words, int sign,
           const Vec3& p_VoP_V) {
    found_.push_back(
        {.kind = kind, .path = path, .words = words, .sign = sign, .p_VoP_V = p_VoP_V});
  }

  /// A point by itself: its side is told where it is off the centreline.
  void add_point(AttachmentKind kind, const std::string& path, const std::string& words,
                 const build::Point& at) {
    if (!at.known()) return;
    const int sign = at.offset.si > 0 ? 1 : at.offset.si < 0 ? -1 : 0;
    add(kind, path, words, sign, at.p_VP());
  }

  void add_sides(AttachmentKind kind, const std::string& path, const std::string& words,
                 bool both_sides, const build::Point& at) {
    if (!at.known()) return;
    if (!both_sides) {
      add_point(kind, path, words, at);
      return;
    }
    for (const int sign : {1, -1}) {
      Vec3 p = at.p_VP();
      p.y() *= sign;
      add(kind, path, side_words(true, sign, words), sign, p);
    }
  }

  void list_axle(const build::Entry<build::Axle>& entry) {
    const build::Axle& axle = entry.value;
    const char* end = axle.end == build::End::kFront ? "front" : "rear";
    const auto words = [&](const auto& part, const char* which) {
      return fmt::format("{}{} of the {} axle", shop_words(part.value.label, part.id), which, end);
    };
    for (const auto& link : axle.links) {
      add_sides(AttachmentKind::link, link.path + "/frame/at", words(link, ""),
                link.value.both_sides, link.value.frame.at);
    }
    for (const auto& arm : axle.arms) {
      const auto& [id, path, value] = arm;
      if (value.kind == build::ArmKind::kRadiusArm) {
        add_sides(AttachmentKind::arm, path + "/apex/at", words(arm, ""), value.both_sides,
                  value.apex.at);
        continue;
      }
      add_sides(AttachmentKind::arm, path + "/first/at", words(arm, ", first foot,"),
                value.both_sides, value.first.at);
      add_sides(AttachmentKind::arm, path + "/second/at", words(arm, ", second foot,"),
                value.both_sides, value.second.at);
    }
    for (const auto& coil : axle.coils) {
      add_sides(AttachmentKind::coil, coil.path + "/upper", words(coil, ""), coil.value.both_sides,
                coil.value.upper);
    }
    for (const auto& pack : axle.leaf_packs) {
      add_sides(AttachmentKind::leaf_pack, pack.path + "/front_eye", words(pack, ", front eye,"),
                pack.value.both_sides, pack.value.front_eye);
      add_sides(AttachmentKind::leaf_pack, pack.path + "/rear_eye", words(pack, ", rear eye,"),
                pack.value.both_sides, pack.value.rear_eye);
    }
    for (const auto& stop : axle.bump_stops) {
      add_sides(AttachmentKind::bump_stop, stop.path + "/frame", words(stop, ""),
                stop.value.both_sides, stop.value.frame);
    }
    for (const auto& shock : axle.dampers) {
      add_sides(AttachmentKind::shock, shock.path + "/frame", words(shock, ""),
                shock.value.both_sides, shock.value.frame);
    }
    if (!axle.station.known()) return;
    for (const int sign : {1, -1}) {
      add(AttachmentKind::axle_line, entry.path,
          side_words(true, sign, fmt::format("{} axle", end)), sign,
          {-axle.station.si, kOpen, kOpen});
    }
  }

  void list_middle() {
    double station_m = 0;
    std::size_t axles = 0;
    for (const auto& axle : build_.axles) {
      if (!axle.value.station.known()) return;
      station_m += axle.value.station.si / 2;
      ++axles;
    }
    if (axles != 2) return;
    for (const int sign : {1, -1}) {
      add(AttachmentKind::middle, "/axles", side_words(true, sign, "middle of the wheelbase"), sign,
          {-station_m, kOpen, kOpen});
    }
  }

  void list_mount(const build::Entry<build::Mount>& mount) {
    const build::Mount& value = mount.value;
    if (!value.station.known() || !value.offset.known()) return;
    const std::string words = shop_words(value.label, mount.id);
    const double offset_m = value.offset.si;
    if (!value.both_sides) {
      const int sign = offset_m > 0 ? 1 : offset_m < 0 ? -1 : 0;
      add(AttachmentKind::mount, mount.path, words, sign, {-value.station.si, offset_m, kOpen});
      return;
    }
    for (const int sign : {1, -1}) {
      add(AttachmentKind::mount, mount.path, side_words(true, sign, words), sign,
          {-value.station.si, sign * offset_m, kOpen});
    }
  }

  void list_stand(const build::Entry<build::Stand>& stand) {
    if (!stand.value.station.known()) return;
    for (const int sign : {1, -1}) {
      if (!build::is_on(stand.value.side, sign)) continue;
      add(AttachmentKind::stand, stand.path,
          side_words(true, sign, fmt::format("{} stand", shop_words("", stand.id))), sign,
          {-stand.value.station.si, kOpen, kOpen});
    }
  }

  const build::Build& build_;
  std::vector<Attachment> found_;
};

}  // namespace

std::vector<Attachment> list_attachment_points(const build::Build& build) {
  return Lister(build).list();
}

}  // namespace rig::frame
