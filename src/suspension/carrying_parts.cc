#include <cmath>

#include "suspension/axle_draft_internal.h"
#include "suspension/leaf_internal.h"

namespace rig::suspension {

void AxleDraft::add_leaf(const build::Entry<build::LeafPack>& leaf) {
  const auto& value = leaf.value;
  const auto lacks = [&](bool known, const char* key, const char* what) {
    if (!known) lack(leaf.path + "/" + key, what, "how the leaf springs carry and move");
    return !known;
  };
  bool missing = lacks(value.front_eye.known(), "front_eye", "front eye");
  missing |= lacks(value.rear_eye.known(), "rear_eye", "rear eye");
  missing |= lacks(value.seat.known(), "seat", "seat on the axle");
  missing |= lacks(value.lateral_rate.known(), "lateral_rate", "sideways rate of the leaf pack");
  missing |= lacks(value.free_arch.known(), "free_arch", "arch without load");
  const auto rate_N_per_m = find_leaf_rate_N_per_m(leaf, notes());
  missing |= !rate_N_per_m;
  if (missing || !placed) {
    linkage_complete = springs_complete = false;
    return;
  }
  for (const Side& side : sides(value.both_sides)) {
    const LeafPlaces places{.front_eye = side.place(value.front_eye),
                            .rear_eye = side.place(value.rear_eye),
                            .seat = side.place(value.seat),
                            .p_VC = model().p_VC,
                            .free_arch_m = value.free_arch.si,
                            .rate_N_per_m = *rate_N_per_m,
                            .lateral_rate_N_per_m = value.lateral_rate.si,
                            .shackle_in_front = value.shackle_in_front};
    const LeafElements elements = calc_leaf_elements(places);
    if (!add_bar(leaf.id + side.suffix, leaf.path, elements.p_VEye, elements.p_VPivot)) continue;
    if (value.eye_radial_rate.known()) own_compliance.back() = 1 / value.eye_radial_rate.si;
    for (LeafHalf half : elements.halves) {
      half.name = leaf.id + side.suffix + half.name;
      half.path = leaf.path;
      half.side = side_of(places.seat);
      model().leaf_halves.push_back(std::move(half));
    }
  }
}

void AxleDraft::add_coil(const build::Entry<build::Coil>& coil) {
  const auto& value = coil.value;
  const bool points =
      have_point(value.upper, coil.path + "/upper", "upper seat of the coil", "how it sits") &&
      have_point(value.lower, coil.path + "/lower", "lower seat of the coil", "how it sits");
  const bool free =
      have(value.free_length, coil.path + "/free_length", "free length", "how it sits");
  const CoilNumbers numbers = find_coil_numbers(coil, notes());
  if (!points || !numbers.rate_N_per_m || !free || !placed) {
    springs_complete = false;
    return;
  }
  for (const Side& side : sides(value.both_sides)) {
    const Vec3 upper = side.place(value.upper), lower = side.place(value.lower);
    model().coils.push_back({.name = coil.id + side.suffix,
                             .path = coil.path,
                             .p_VP = upper,
                             .p_AQ = lower - model().p_VC,
                             .free_length_m = value.free_length.si,
                             .rate_N_per_m = *numbers.rate_N_per_m,
                             .solid_length_m = numbers.solid_length_m.value_or(0),
                             .drawn_length_m = (upper - lower).norm(),
                             .side = side_of(upper)});
  }
}

void AxleDraft::add_stop(const build::Entry<build::BumpStop>& stop) {
  const auto& value = stop.value;
  if (!value.frame.known() || !value.axle.known() || !value.free_height.known() ||
      !value.rate.known() || !placed) {
    lack(stop.path, "place, height or rate of the bump stop", "what stops the axle in bump");
    return;
  }
  for (const Side& side : sides(value.both_sides)) {
    const bool grows = value.end_rate.known() && value.end_travel.known();
    model().stops.push_back({.name = stop.id + side.suffix,
                             .path = stop.path,
                             .p_VP = side.place(value.frame),
                             .p_AQ = side.place(value.axle) - model().p_VC,
                             .free_height_m = value.free_height.si,
                             .rate_N_per_m = value.rate.si,
                             .end_rate_N_per_m = grows ? value.end_rate.si : value.rate.si,
                             .end_travel_m = grows ? value.end_travel.si : 1.0,
                             .side = side_of(side.place(value.frame))});
  }
}

void AxleDraft::add_shock(const build::Entry<build::Damper>& shock) {
  const auto& value = shock.value;
  if (!value.frame.known() || !value.axle.known() || !placed) {
    lack(shock.path, "both eyes of the shock", "shock travel");
    return;
  }
  have(value.closed_length, shock.path + "/closed_length", "closed length", "shock travel");
  have(value.open_length, shock.path + "/open_length", "open length", "shock travel");
  for (const Side& side : sides(value.both_sides)) {
    Shock s{.name = shock.id + side.suffix,
            .path = shock.path,
            .p_VP = side.place(value.frame),
            .p_AQ = side.place(value.axle) - model().p_VC,
            .side = side_of(side.place(value.frame))};
    if (value.closed_length.known()) s.closed_length_m = value.closed_length.si;
    if (value.open_length.known()) s.open_length_m = value.open_length.si;
    if (value.gas_force.known()) s.gas_force_N = value.gas_force.si;
    s.damping_Ns_per_m = value.damping.si;
    model().shocks.push_back(std::move(s));
  }
}

void AxleDraft::add_roll_bar(const build::Entry<build::AntiRollBar>& bar) {
  if (!bar.value.span.known() || !bar.value.rate.known()) {
    lack(bar.path, "span or rate of the anti-roll bar", "roll stiffness");
    return;
  }
  model().roll_bars.push_back({.name = bar.id,
                               .path = bar.path,
                               .span_m = bar.value.span.si,
                               .rate_N_per_m = bar.value.rate.si});
}

}  // namespace rig::suspension
