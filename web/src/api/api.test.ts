import { describe, expect, it, vi } from "vitest";
import { addressOf, hashOf } from "./address";
import { changedPaths } from "./changed";
import { workOf } from "./choose";
import { eventsIn } from "./events";
import { at, isWithin, join, keysOf, thingOf } from "./pointer";
import { newestWins } from "./queue";
import { shareUnchanged } from "./share";
import { initialsFrom } from "./who";

describe("a path", () => {
  const document = { axles: { "a/b": { track: "62 in", points: ["1 in", "2 in"] } } };
  it("is cut into keys and joined again", () => {
    expect(keysOf("/axles/a~1b/track")).toEqual(["axles", "a/b", "track"]);
    expect(join("/axles", "a/b", "points", 1)).toBe("/axles/a~1b/points/1");
  });
  it("finds what stands there", () => {
    expect(at(document, "/axles/a~1b/points/1")).toBe("2 in");
    expect(at(document, "/axles/none/track")).toBeUndefined();
  });
  it("knows what lies within what", () => {
    expect(isWithin("/axles/front/track", "/axles/front")).toBe(true);
    expect(isWithin("/axles/frontal", "/axles/front")).toBe(false);
  });
  it("leads to the thing it belongs to", () => {
    expect(thingOf("/axles/front/links/upper/axle/at/height")).toBe("/axles/front/links/upper");
    expect(thingOf("/axles/front/track")).toBe("/axles/front");
    expect(thingOf("/masses/cab/at")).toBe("/masses/cab");
    expect(thingOf("/frame/twist_stiffness")).toBe("/frame");
    expect(thingOf("/frame/rails/main/line/0")).toBe("/frame/rails/main");
    expect(thingOf("/drivetrain/shafts/rear/end_joint/height")).toBe("/drivetrain/shafts/rear");
    expect(thingOf("/drivetrain/engine/torque")).toBe("/drivetrain/engine");
    expect(thingOf("/drivetrain/grip")).toBe("/drivetrain");
  });
  it("leads to the work whose sheet holds it", () => {
    expect(workOf("/drivetrain/segments/engine/length")).toBe("drivetrain");
    expect(workOf("/axles/front/gear_ratio")).toBe("axles");
  });
  it("tells what has changed", () => {
    const after = { axles: { "a/b": { track: "63 in", points: ["1 in", "2 in"] } }, name: "x" };
    expect(changedPaths(document, after)).toEqual(["/axles/a~1b/track", "/name"]);
  });
});

describe("an answer", () => {
  it("keeps the identity of what did not change", () => {
    const before = { rows: [{ id: 1 }, { id: 2 }], name: "x" };
    const after = shareUnchanged(before, { rows: [{ id: 1 }, { id: 3 }], name: "x" });
    expect(after.rows[0]).toBe(before.rows[0]);
    expect(after.rows[1]).toEqual({ id: 3 });
    expect(shareUnchanged(before, structuredClone(before))).toBe(before);
    expect(shareUnchanged<unknown>([1, 2], [1])).toEqual([1]);
    expect(shareUnchanged<unknown>({ a: 1 }, { b: undefined })).toEqual({ b: undefined });
    expect(shareUnchanged<unknown>([Number.NaN], [Number.NaN, 2])).toEqual([Number.NaN, 2]);
    expect(shareUnchanged<unknown>({ a: 1, b: 2 }, { a: 1 })).toEqual({ a: 1 });
  });
});

describe("the queue", () => {
  it("has one on its way and keeps only the newest of the rest", async () => {
    const sent: number[] = [];
    const ends: (() => void)[] = [];
    const ask = newestWins<number>((n) => {
      sent.push(n);
      return new Promise((resolve) => ends.push(resolve));
    });
    for (const n of [1, 2, 3]) ask(n);
    expect(sent).toEqual([1]);
    ends[0]?.();
    await vi.waitFor(() => expect(sent).toEqual([1, 3]));
  });
  it("has as many on their way as it is told", async () => {
    const sent: number[] = [];
    const ask = newestWins<number>((n) => {
      sent.push(n);
      return new Promise(() => undefined);
    }, 2);
    for (const n of [1, 2, 3]) ask(n);
    expect(sent).toEqual([1, 2]);
  });
});

describe("an address", () => {
  it.each([
    ["", null],
    ["#shop", { page: "shop" }],
    ["#shop/new", { page: "start" }],
    ["#tow_rig", { page: "bench", build: "tow_rig", variant: null }],
    ["#tow_rig/lift", { page: "bench", build: "tow_rig", variant: "lift" }],
  ])("%s leads somewhere and back", (hash, leads) => {
    const address = addressOf(hash);
    expect(address).toEqual(leads);
    if (address) expect(hashOf(address)).toBe(hash);
  });
});

describe("a stream of events", () => {
  it("is cut into whole ones; comments are none", () => {
    expect(eventsIn(': here\n\nevent: head\ndata: {"entry":3}\n\nevent: he')).toEqual({
      events: [{ event: "head", data: '{"entry":3}' }],
      rest: "event: he",
    });
    expect(eventsIn(": here\r\n\r\n").events).toEqual([]);
  });
});

describe("initials", () => {
  it.each([
    ["jd", "JD"],
    [" j. d. ", "JD"],
    ["Sorrel", "SOR"],
    ["7", ""],
  ])("of %s", (typed, kept) => expect(initialsFrom(typed)).toBe(kept));
});
