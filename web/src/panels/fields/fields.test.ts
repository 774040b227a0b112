import { describe, expect, it } from "vitest";
import published from "../../../../docs/schema/build-1.schema.json";
import type { Json, Units } from "../../api/types";
import { whenText } from "../../format/when";
import { ticksBetween } from "../compare/ticks-between";
import { idFrom, knownAs, knownOf } from "./known";
import { editsFor, kindAt, membersShown, requiredAt } from "./schema";
import { withUnit } from "./understand";

const schema = published as unknown as Json;
const inch: Units = {
  metric: false,
  fraction_of_inch: 16,
  per_si: { length: { unit: "in", factor: 39.37 }, gear_ratio: { unit: ":1", factor: 1 } },
};

describe("what is known about a quantity", () => {
  it("makes the short form long, and short again", () => {
    const long = knownAs("41 in", { from: "tape" });
    expect(long).toEqual({ value: "41 in", from: "tape" });
    expect(knownAs(long, { plus_minus: "1/16 in" })).toEqual({
      value: "41 in",
      from: "tape",
      plus_minus: "1/16 in",
    });
    expect(knownAs(long, { from: null })).toBe("41 in");
    expect(knownOf(long)).toMatchObject({ text: "41 in", long: true, from: "tape" });
  });
});

describe("a new thing", () => {
  it("has what it can't be without, unlike its neighbours where it may be", () => {
    expect(requiredAt(schema, "/axles/a")).toEqual({ end: "front" });
    expect(requiredAt(schema, "/axles/b", [{ end: "front" }])).toEqual({ end: "rear" });
    expect(requiredAt(schema, "/masses/a")).toEqual({});
  });
  it("is made with it when one of its values is typed first", () => {
    const leaves = "/axles/rear/leaf_packs/leaf/leaves";
    const document = { axles: { rear: { leaf_packs: { leaf: {} } } } };
    expect(editsFor(schema, document, `${leaves}/width`, "2 1/2 in")).toEqual([
      { path: `${leaves}/count`, value: 1 },
      { path: `${leaves}/width`, value: "2 1/2 in" },
    ]);
    expect(editsFor(schema, document, `${leaves}/count`, 5)).toEqual([
      { path: `${leaves}/count`, value: 5 },
    ]);
  });
  it("gets an id of its name that is free", () => {
    expect(idFrom("Spare wheel", [])).toBe("spare_wheel");
    expect(idFrom("Spare wheel", ["spare_wheel"])).toBe("spare_wheel_2");
    expect(idFrom("35 in tyre", [])).toBe("in_tyre");
    expect(idFrom("35", [])).toBeNull();
  });
});

describe("a section", () => {
  const section = "/frame/rails/main/section";
  const channel = { shape: "channel", depth: "6 in", flange: "2 in", thickness: "3/16 in" };
  const document = { frame: { rails: { main: { section: channel } } } };
  it("is asked for the sizes of its shape, and shows what does not go with it", () => {
    const keys = (thing: Json) => membersShown(schema, section, thing).map((m) => m.key);
    expect(keys({ shape: "round_tube" })).toEqual(["shape", "outside_diameter", "thickness"]);
    expect(keys({ shape: "round_tube", depth: "6 in" })).toContain("depth");
    expect(keys({ shape: "plate", depth: null })).toEqual(["shape", "width", "thickness"]);
  });
  it("loses the sizes that another shape does not have", () => {
    expect(editsFor(schema, document, `${section}/shape`, "rectangular_tube")).toEqual([
      { path: `${section}/flange`, remove: true },
      { path: `${section}/shape`, value: "rectangular_tube" },
    ]);
    expect(editsFor(schema, document, `${section}/depth`, "7 in")).toEqual([
      { path: `${section}/depth`, value: "7 in" },
    ]);
  });
});

describe("the schema", () => {
  it("tells what a word is when it is left out", () => {
    expect(kindAt(schema, "/frame/plates/a/fate")).toMatchObject({ usual: "stays" });
    expect(kindAt(schema, "/frame/crossmembers/a/joint")).toMatchObject({ usual: null });
  });
  it("tells what there may be several of", () => {
    expect(kindAt(schema, "/frame/rails/a/line")).toMatchObject({ one: "point" });
    expect(kindAt(schema, "/frame/rails/a/stretches")).toMatchObject({ one: "stretch" });
  });
  it("tells whose ids a map is keyed by", () => {
    expect(kindAt(schema, "/load_states/a/fills")).toMatchObject({ kind: "map", names: "masses" });
    expect(kindAt(schema, "/masses")).toMatchObject({ kind: "map", names: null });
  });
});

describe("a number without its unit", () => {
  it.each([
    ["41 5/8", "41 5/8 in"],
    ["41 ½", "41 ½ in"],
    ["41 mm", "41 mm"],
    ["", ""],
  ])("%s goes out with the build's own", (typed, written) =>
    expect(withUnit(typed, "length", inch)).toBe(written),
  );
  it.each(["4.56", "4.56:1"])("%s is a ratio to one", (typed) =>
    expect(withUnit(typed, "gear_ratio", inch)).toBe("4.56:1"),
  );
});

describe("a time", () => {
  const now = new Date("2026-05-03T15:00:00");
  it.each([
    ["2026-05-03T09:05:00", "today, 09:05"],
    ["2026-05-02T23:59:00", "yesterday, 23:59"],
    ["2026-01-09T08:00:00", "9 Jan, 08:00"],
    ["2025-12-31T08:00:00", "31 Dec 2025"],
  ])("%s", (iso, text) => expect(whenText(iso, now)).toBe(text));
});

describe("the ticks of a small chart", () => {
  it("are round and within its ends", () => {
    expect(ticksBetween(-4.2, 5.1)).toEqual([-4, -2, 0, 2, 4]);
    expect(ticksBetween(0, 1)).toEqual([0, 0.2, 0.4, 0.6, 0.8, 1]);
    expect(ticksBetween(3, 3)).toEqual([]);
  });
});
