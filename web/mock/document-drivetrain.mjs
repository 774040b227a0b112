// The drivetrain of the invented truck. Every number is made up.
const at = (station, offset, height) => ({
  station: `${station} in`,
  offset: `${offset} in`,
  height: `${height} in`,
});
const joint = (kind) => ({ kind, bind: "28 deg", rating: "2400 lb-ft" });
const tube = (diameter) => ({ outside_diameter: `${diameter} in`, wall: "0.083 in" });

export const drivetrain = {
  segments: {
    engine: {
      label: "engine",
      kind: "engine",
      length: "30 in",
      mass: "engine",
      starts_at: at("-14", 0, 33),
      slope: "3 1/2 deg",
      flange_limit: "1900 lb-ft",
    },
    gearbox: {
      label: "gearbox",
      kind: "gearbox",
      length: "24 in",
      flange_limit: "1400 lb-ft",
      fate: "goes_in",
    },
    adapter: { label: "adapter", kind: "adapter", length: "5 in", fate: "goes_in" },
    case: { label: "transfer case", kind: "transfer_case", length: "14 in", fate: "goes_in" },
  },
  mounts: {
    engine: {
      label: "engine mount",
      both_sides: true,
      segment: "engine",
      at: at(3, 11, "25 1/2"),
      compression: "1800 lbf/in",
      shear: { value: "450 lbf/in", from: "estimate" },
      lean: "30 deg",
      rating: "900 lbf",
    },
    rear: {
      label: "gearbox mount",
      segment: "gearbox",
      at: at(37, 0, 24),
      compression: "1400 lbf/in",
      shear: "500 lbf/in",
      fate: "goes_in",
    },
  },
  outputs: {
    rear: { label: "rear output", segment: "case", end: "rear", joint: at(62, 0, 28) },
    front: { label: "front output", segment: "case", end: "front", joint: at(44, 9, 25) },
  },
  shafts: {
    rear: {
      label: "rear shaft",
      from: "rear",
      to: "rear",
      end_joint: at(105, 0, "18 1/2"),
      start: joint("double_cardan"),
      end: joint("cardan"),
      tube: tube(3),
      slip: { closed: "40 1/2 in", open: "46 in", least_engagement: "2 in" },
    },
    front: {
      label: "front shaft",
      from: "front",
      to: "front",
      end_joint: at(11, 9, "17 1/4"),
      start: joint("double_cardan"),
      end: joint("cardan"),
      tube: tube(2),
    },
  },
  engine: { torque: "350 lb-ft", torque_speed: "3200 rpm", idle: "650 rpm", top_speed: "5200 rpm" },
  gears: {
    first: { label: "first", ratio: "3.06:1" },
    second: { label: "second", ratio: "1.63:1" },
    third: { label: "third", ratio: "1:1" },
  },
  ranges: {
    high: { label: "high", ratio: "1:1" },
    low: { label: "low", ratio: "2.72:1" },
  },
  grip: "90 %",
  hoist: { capacity: "1000 lb", sling: "60 deg", legs: 2 },
  lifts: { all: { label: "all of it", takes: ["engine", "gearbox"], hook: "12 in" } },
};
