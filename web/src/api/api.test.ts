import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { answer, makeState } from "../../mock/server.mjs";
import { askPose, edit, open, undoLast } from "./actions";
import { changedPaths } from "./changed";
import { at, inverseOf, isWithin, join, keysOf, sharedDepth, thingOf } from "./pointer";
import { newestWins } from "./queue";
import { shareUnchanged } from "./share";
import { getState, resetState } from "./store";

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
    expect(sharedDepth("/axles/front/links/a", "/axles/front/coils/b")).toBe(2);
  });
  it("leads to the thing it belongs to", () => {
    expect(thingOf("/axles/front/links/upper/axle/at/height")).toBe("/axles/front/links/upper");
    expect(thingOf("/axles/front/track")).toBe("/axles/front");
    expect(thingOf("/masses/cab/at")).toBe("/masses/cab");
    expect(thingOf("/frame/rail/points/0")).toBe("/frame");
  });
  it("can be put back", () => {
    expect(inverseOf(document, { path: "/axles/a~1b/track", value: "1 in" })).toEqual({
      path: "/axles/a~1b/track",
      value: "62 in",
    });
    expect(inverseOf(document, { path: "/name", value: "x" })).toEqual({
      path: "/name",
      remove: true,
    });
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
});

describe("the build", () => {
  let server = makeState();
  const kHeight = "/axles/front/links/upper/axle/at/height";

  beforeEach(async () => {
    server = makeState();
    resetState();
    vi.stubGlobal("fetch", async (route: string, init?: { method?: string; body?: string }) => {
      const body = init?.body ? JSON.parse(init.body) : null;
      const [status, reply] =
        route === "api/schema"
          ? [200, {}]
          : answer(server, init?.method ?? "GET", `/${route}`, body);
      return new Response(JSON.stringify(reply), { status });
    });
    await open();
  });
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.useRealTimers();
  });

  const heightNow = () => at(getState().answers?.document, kHeight);
  const casterNow = () => getState().answers?.report.findings.find((f) => f.id === "caster.front");

  it("is answered anew by an edit, and only what changed is another object", async () => {
    const before = getState().answers;
    expect(casterNow()?.verdict).toBe("stop");
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(heightNow()).toBe("21 in"));
    const after = getState().answers;
    expect(casterNow()?.verdict).toBe("look");
    expect(after?.report.states).toBe(before?.report.states);
    expect(after?.scene).not.toBe(before?.scene);
    expect(after?.scene.parts[0]).toBe(before?.scene.parts[0]);
  });

  it("sends the newest of entries made one upon another in a field", async () => {
    for (const text of ["21 in", "21 1/16 in", "21 1/8 in"]) edit([{ path: kHeight, value: text }]);
    await vi.waitFor(() => expect(heightNow()).toBe("21 1/8 in"));
    expect(getState().answers?.revision).toBe(3);
    expect(getState().pending).toEqual({});
    edit([{ path: kHeight, value: "21 in" }]);
    expect(getState().pending).toEqual({ [kHeight]: "21 in" });
    edit([{ path: "/name", value: "No. 3" }]);
    await vi.waitFor(() => expect(getState().answers?.report.name).toBe("No. 3"));
    expect(heightNow()).toBe("21 in");
  });

  it("is put back by undo", async () => {
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(heightNow()).toBe("21 in"));
    undoLast();
    await vi.waitFor(() => expect(heightNow()).toBe("21 3/4 in"));
    expect(getState().undo).toEqual([]);
  });

  it("is put back step by step by undo pressed faster than it is answered", async () => {
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(heightNow()).toBe("21 in"));
    edit([{ path: "/name", value: "No. 3" }]);
    await vi.waitFor(() => expect(getState().undo).toHaveLength(2));
    undoLast();
    undoLast();
    await vi.waitFor(() => expect(getState().pending).toEqual({}));
    expect(heightNow()).toBe("21 3/4 in");
    expect(getState().answers?.report.name).toBe("Hollow Creek No. 2");
    expect(getState().undo).toEqual([]);
  });

  it("says at the field why an entry was not taken, and keeps what was typed", async () => {
    edit([{ path: kHeight, value: "?!" }]);
    await vi.waitFor(() => expect(getState().refused[kHeight]).toBeDefined());
    expect(getState().refused[kHeight]?.text).toBe("?!");
    expect(getState().refused[kHeight]?.diagnostics[0]?.code).toBe("units.not_a_number");
    expect(heightNow()).toBe("21 3/4 in");
  });

  it("follows another screen's change and makes the entry on top of it", async () => {
    vi.useFakeTimers();
    answer(server, "POST", "/api/edit", {
      revision: 1,
      edits: [{ path: "/name", value: "Other 2" }],
    });
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.runAllTimersAsync();
    expect(heightNow()).toBe("21 in");
    expect(getState().answers?.report.name).toBe("Other 2");
  });

  it("does not overrule another screen's change of the same value", async () => {
    answer(server, "POST", "/api/edit", {
      revision: 1,
      edits: [{ path: kHeight, value: "20 in" }],
    });
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(getState().refused[kHeight]).toBeDefined());
    expect(heightNow()).toBe("20 in");
    expect(getState().refused[kHeight]?.diagnostics[0]?.message).toContain("20 in");
  });

  it("keeps an entry while the program does not answer", async () => {
    vi.useFakeTimers();
    const working = globalThis.fetch;
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("down")));
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.advanceTimersByTimeAsync(100);
    expect(getState().trouble).toContain("kept");
    vi.stubGlobal("fetch", working);
    await vi.advanceTimersByTimeAsync(2500);
    expect(heightNow()).toBe("21 in");
    expect(getState().trouble).toBeNull();
  });

  it("moves with the newest question", async () => {
    askPose({ state: null, heave: { front: 0.02 }, roll: {} });
    await vi.waitFor(() => expect(getState().pose?.bodies.front?.p[2]).toBeCloseTo(0.02));
  });
});
