// An invented truck, for developing the page without the program. Every number is made up.
import { drivetrain } from "./document-drivetrain.mjs";

const at = (station, offset, height) => ({
  station: `${station} in`,
  offset: `${offset} in`,
  height: `${height} in`,
});
const link = (label, role, both_sides, frame, axle, more = {}) => ({
  label,
  role,
  both_sides,
  frame: { at: at(...frame), ...more },
  axle: { at: at(...axle), ...more },
});
const box = (label, mass, place, length, width, height, more = {}) => ({
  label,
  mass,
  at: at(...place),
  size: { shape: "box", length: `${length} in`, width: `${width} in`, height: `${height} in` },
  ...more,
});

export const document = {
  version: 1,
  name: "Hollow Creek No. 2",
  notice: "An invented truck: every number is made up.",
  units: { metric: false, fraction_of_inch: 16 },
  load_states: {
    bare: { label: "bare", aboard: [] },
    road: { label: "road", aboard: ["crew"] },
    towing: {
      label: "towing",
      aboard: ["crew", "tools"],
      trailer: { mass: "3600 lb", tongue_load: "360 lbf" },
    },
  },
  ride_state: "road",
  masses: {
    frame: box(
      "frame and crossmembers",
      { value: "430 lb", from: "estimate" },
      [62, 0, "24 1/2"],
      176,
      34,
      6,
    ),
    engine: box(
      "engine and gearbox",
      { value: "870 lb", from: "scale", plus_minus: "5 lb" },
      [8, 0, 33],
      46,
      22,
      26,
    ),
    cab: box("cab", "780 lb", [52, 0, 52], 58, 62, 46),
    bed: box("flat bed", { value: "340 lb", from: "estimate" }, [122, 0, 36], 78, 70, 8),
    fuel: {
      label: "fuel",
      fluid: { liquid: "gasoline", volume: "19 gal", fill: "80 %" },
      at: at(134, 0, 26),
      size: { shape: "cylinder", length: "34 in", diameter: "14 in", axis: "crosswise" },
    },
    crew: { label: "two aboard", mass: "370 lb", at: at(60, 0, 44), optional_load: true },
    tools: { label: "tools", mass: "260 lb", at: at(128, 12, 44), optional_load: true },
  },
  tyres: {
    trail: {
      label: "trail tyre",
      free_radius: "16 3/8 in",
      width: "11 in",
      rate: "1400 lbf/in",
      rating: "2755 lb",
    },
  },
  axles: {
    front: {
      label: "front axle",
      end: "front",
      station: "0 in",
      height: "15 3/4 in",
      track: { value: "62 1/4 in", plus_minus: "1/8 in", from: "tape" },
      tyre: "trail",
      gear_ratio: "4.56:1",
      steered: true,
      brake_share: "62 %",
      drive_share: "50 %",
      rating: "3600 lb",
      caster: "6 deg",
      bump_travel: "4 in",
      droop_travel: "5 in",
      links: {
        lower: link("lower link", "lower", true, [37, 15, 20], ["2", 19, "13 1/2"], {
          swing_limit: "22 deg",
        }),
        upper: link("upper link", "upper", false, [34, 10, 26], ["3 1/2", 12, "21 3/4"], {
          swing_limit: "22 deg",
        }),
        track_bar: link("track bar", "track_bar", false, ["-5 1/2", 17, 22], ["-5 1/2", -20, 19]),
      },
      coils: {
        coil: {
          label: "front coil",
          both_sides: true,
          upper: at(0, 17, "33 1/4"),
          lower: at(0, 17, 19),
          free_length: "19 in",
          rate: "250 lbf/in",
          solid_length: "8 1/4 in",
        },
      },
      bump_stops: {
        stop: {
          label: "front stop",
          both_sides: true,
          frame: at(4, 17, 28),
          axle: at(4, 17, 19),
          free_height: "4 in",
          rate: "300 lbf/in",
        },
      },
      dampers: {
        shock: {
          label: "front shock",
          both_sides: true,
          frame: at(8, 18, 38),
          axle: at(6, 21, 15),
          closed_length: "16 1/2 in",
          open_length: "26 1/2 in",
        },
      },
    },
    rear: {
      label: "rear axle",
      end: "rear",
      station: "115 in",
      height: "15 3/4 in",
      track: "62 1/4 in",
      tyre: "trail",
      gear_ratio: "4.56:1",
      brake_share: "38 %",
      drive_share: "50 %",
      rating: "4200 lb",
      bump_travel: "4 in",
      droop_travel: "4 in",
      leaf_packs: {
        pack: {
          label: "rear leaf pack",
          both_sides: true,
          front_eye: at(88, 20, 22),
          rear_eye: at(142, 20, "23 1/2"),
          seat: at(115, 20, "18 3/4"),
          rate: { value: "310 lbf/in", from: "catalogue" },
        },
      },
      dampers: {
        shock: {
          label: "rear shock",
          both_sides: true,
          frame: at(106, 15, 33),
          axle: at(113, 19, 15),
          closed_length: "15 in",
          open_length: "24 in",
        },
      },
    },
  },
  frame: {
    steels: { mild: { label: "mild steel", yield: "36 ksi" } },
    rails: {
      main: {
        label: "Frame rail",
        both_sides: true,
        steel: "mild",
        section: { shape: "channel", depth: "6 in", flange: "2 1/2 in", thickness: "3/16 in" },
        line: [
          at(-24, 15, 22),
          at(-10, 15, "24 1/2"),
          at(12, 15, "24 1/2"),
          at(28, 17, 23),
          at(96, 17, 23),
          at(110, 17, 29),
          at(124, 17, 29),
          at(152, 17, 26),
        ],
      },
    },
    crossmembers: {
      gearbox: {
        label: "gearbox crossmember",
        at: { station: "48 in" },
        section: { shape: "round_tube", outside_diameter: "2 in", thickness: "1/4 in" },
        joint: "through_web",
      },
    },
  },
  drivetrain,
  hitch: { ball: at(160, 0, 20), tongue_rating: "500 lbf", trailer_rating: "5000 lb" },
  ratings: { gross_vehicle: "7200 lb" },
  corner_weighings: {},
  limits: { side_slope: "30 deg", lateral_shift: "1/2 in" },
};
