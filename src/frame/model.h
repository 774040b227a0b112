#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <set>
#include <string>
#include <vector>

#include "base/nan.h"
#include "base/result.h"
#include "build/frame_lookup.h"
#include "build/types.h"
#include "frame/structure.h"

/// A build's frame as a structure of beams, and the way back to the shop's words.
namespace rig::frame {

/// Ids of the crossmembers and plates that are in: `build::donor_parts`, `planned_parts`,
/// `parts_after`.
using Selection = build::PartsIn;

/// What one beam of the structure is. Stations and offsets say where on its part it lies.
struct BeamPlace {
  std::string path;                 ///< Of the rail or crossmember: "/frame/rails/main".
  std::string section_path;         ///< Of the sizes it has here.
  std::vector<std::string> plates;  ///< Paths of the plates that close it.
  int sign = 0;                     ///< Of a rail: +1 left, -1 right.
  double begin_m =
      0;             ///< Of a rail: station of its front end. Of a crossmember: offset of its left.
  double end_m = 0;  ///< Of a rail: station of its rear end. Of a crossmember: offset of its right.
  /// The beam runs from its end to its begin (rails: forward).
  bool runs_back = false;
  double yield_Pa = kNaN;  ///< Of the part; NaN: not known.
  double ultimate_Pa = kNaN;
  double plate_yield_Pa = kNaN;  ///< Of wall "plate".
};

enum class AttachmentKind {
  link,
  arm,
  coil,
  leaf_pack,
  shock,
  bump_stop,
  hitch,
  pull,
  mount,
  stand,
  axle_line,  ///< Where an axle's wheel line passes a rail.
  middle      ///< Of a rail, halfway between the axle lines.
};

/// A place where something pushes or pulls on the frame: rigidly on the joint that carries it.
struct Attachment {
  AttachmentKind kind = AttachmentKind::link;
  std::string path;  ///< Of the point, mount, pull or stand in the file.
  std::string words;
  int sign = 0;  ///< +1 left, -1 right; 0: neither.
  Vec3 p_VoP_V = Vec3::Zero();
  int joint = -1;
  Vec3 p_VoC_V = Vec3::Zero();  ///< Where it is carried: on the carrier's reference line.
  int carrier = -1;             ///< Index into `Structure::members`.
  bool in_box = false;          ///< Carried by a boxed stretch of rail.

  double arm_m() const { return (p_VoP_V - p_VoC_V).norm(); }
};

/// What was taken as so because the file does not tell it, or because only a rule is known.
struct Assumption {
  std::string path;
  std::string words;
};

struct Model {
  Structure structure;
  std::vector<BeamPlace> beams;  ///< By beam of the structure.
  std::vector<Attachment> attachments;
  std::vector<Assumption> assumptions;
};

/// Its structure, which lives as long as either is held.
Shared<Structure> structure_of(const Shared<Model>& model);

/// All that makes a section: shape and sizes, how it lies, what closes it, steel.
using SectionKey = std::vector<double>;

/// Sections that have been solved: several models share them, and add to them at the same time. So
/// do copies.
class SectionBook {
 public:
  /// Null: not solved yet.
  std::shared_ptr<const BeamSection> find(const SectionKey& key) const;
  /// The section that is kept from now on: of several that are solved at once the first.
  std::shared_ptr<const BeamSection> keep(const SectionKey& key,
                                          std::shared_ptr<const BeamSection> section);
  /// Whether sizes alone have been found to make a section.
  bool is_sound(const SectionKey& sizes) const;
  void keep_sound(const SectionKey& sizes);
  std::size_t size() const;

 private:
  struct Pages {
    std::mutex mutex;
    std::map<SectionKey, std::shared_ptr<const BeamSection>> solved;
    std::set<SectionKey> sound;
  };
  std::shared_ptr<Pages> pages_ = std::make_shared<Pages>();
};

/// The frame with what is in of its crossmembers and plates, as beams.
///
/// Rails run along their reference lines (middle of the web at mid-depth), beams forward, one from
/// each change to the next: corner, stretch, taper step, plate end, crossmember, and whatever is
/// carried. Their warping runs on through joints. Crossmembers run from the left rail to the
/// right one. How they are joined: docs/design/frame-model.md. Chassis-side suspension points,
/// hitch, pulls and mounts hang by rigid arms on the nearest rail or crossmember.
///
/// @errors  frame.no_rails, frame.unknown_size, frame.unknown_place, frame.unknown_section,
///          frame.unknown_opening, frame.unknown_station, frame.short_line, frame.not_between_rails
///          (a crossmember without a rail on either side), frame.two_rails (several on one side),
///          frame.no_room (between the rails), frame.opens_sideways (an angle), and those of
///          section/shapes.h at the file's places. All in one pass.
/// @param book  What is solved for this model is added.
/// @accuracy  Against shell models: docs/design/frame-model.md.
Result<Model> make_model(const build::Build& build, const Selection& in, SectionBook& book);
Result<Model> make_model(const build::Build& build, const Selection& in);

/// Mass of each member's beams, kg.
std::vector<double> calc_member_masses_kg(const Structure& structure);

}  // namespace rig::frame
