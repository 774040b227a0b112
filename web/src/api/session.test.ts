import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { answer, makeState } from "../../mock/shop.mjs";
import { change, copyThing, redoLast, takeOut, undoLast } from "./changes";
import { edit, sendNow, settleClash } from "./entries";
import { casterNow, documentNow, heightNow, kBuild, kHeight, taken } from "./hollow-creek";
import { at } from "./pointer";
import { askPose } from "./pose";
import { openBuild, refresh } from "./session";
import { getState, resetState, setState } from "./store";
import { stubNetwork } from "./stub-network";

let server = makeState();

/** Another screen's edit. */
function elsewhere(path: string, value: string): void {
  const head = server.builds[0]?.head ?? 0;
  const patch = [{ op: "replace", path, value }];
  const [status] = answer(server, "PATCH", `/api/builds/${kBuild}`, patch, {
    "if-match": `"tag-${head}"`,
  });
  expect(status).toBe(200);
}

beforeEach(async () => {
  server = makeState();
  resetState();
  stubNetwork(server);
  await openBuild({ build: kBuild, variant: null });
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe("an entry", () => {
  it("is answered anew, and only what changed is another object", async () => {
    const before = getState().answers;
    expect(casterNow()?.verdict).toBe("stop");
    edit([{ path: kHeight, value: "21 in" }]);
    expect(getState().pending).toEqual({ [kHeight]: "21 in" });
    await taken();
    const after = getState().answers;
    expect(heightNow()).toBe("21 in");
    expect(casterNow()?.verdict).toBe("look");
    expect(after?.report.states).toBe(before?.report.states);
    expect(after?.scene).not.toBe(before?.scene);
    expect(after?.scene.parts[0]).toBe(before?.scene.parts[0]);
  });

  it("made upon another in the same field goes alone", async () => {
    for (const text of ["21 in", "21 1/16 in", "21 1/8 in"]) edit([{ path: kHeight, value: text }]);
    await taken();
    expect(heightNow()).toBe("21 1/8 in");
    expect(getState().answers?.entry).toBe(3);
    expect(getState().pending).toEqual({});
  });

  it("makes what must hold it", async () => {
    edit([{ path: "/lifted_weighings/may/lift", value: "20 in" }]);
    await taken();
    expect(at(documentNow(), "/lifted_weighings")).toEqual({ may: { lift: "20 in" } });
  });

  it("says at the field why it was not taken, and keeps what was typed", async () => {
    edit([{ path: kHeight, value: "?!" }]);
    await vi.waitFor(() => expect(getState().refused[kHeight]).toBeDefined());
    expect(getState().refused[kHeight]?.text).toBe("?!");
    expect(getState().refused[kHeight]?.diagnostics[0]?.code).toBe("units.not_a_number");
    expect(heightNow()).toBe("21 3/4 in");
  });

  it("stands beside another screen's edit of another value", async () => {
    elsewhere("/name", "Other 2");
    edit([{ path: kHeight, value: "21 in" }]);
    await taken();
    expect(heightNow()).toBe("21 in");
    expect(at(documentNow(), "/name")).toBe("Other 2");
  });

  it("asks when another screen changed the same value, and does as told", async () => {
    elsewhere(kHeight, "20 in");
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(getState().clashes[kHeight]).toBeDefined());
    expect(getState().clashes[kHeight]).toMatchObject({ theirs: "20 in", yours: "21 in" });
    expect(heightNow()).toBe("20 in");
    settleClash(kHeight, "yours");
    await taken();
    expect(heightNow()).toBe("21 in");
    expect(getState().clashes).toEqual({});
  });

  it("gives way when told so", async () => {
    elsewhere(kHeight, "20 in");
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(getState().clashes[kHeight]).toBeDefined());
    settleClash(kHeight, "theirs");
    expect(getState().clashes).toEqual({});
    expect(heightNow()).toBe("20 in");
  });

  it("waits while the program does not answer, and is merged on its return", async () => {
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("down")));
    edit([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(getState().offline).toBe(true));
    edit([{ path: "/notice", value: "mine" }]);
    elsewhere("/name", "Other 2");
    stubNetwork(server);
    sendNow();
    await taken();
    expect(getState().offline).toBe(false);
    expect(heightNow()).toBe("21 in");
    expect(at(documentNow(), "/notice")).toBe("mine");
    expect(at(documentNow(), "/name")).toBe("Other 2");
  });

  it("that waited is not laid over what another screen did meanwhile", async () => {
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("down")));
    edit([{ path: "/notice", value: "mine" }]);
    await vi.waitFor(() => expect(getState().offline).toBe(true));
    edit([{ path: kHeight, value: "21 in" }]);
    elsewhere(kHeight, "20 in");
    stubNetwork(server);
    sendNow();
    await taken();
    expect(at(documentNow(), "/notice")).toBe("mine");
    expect(heightNow()).toBe("20 in");
    expect(getState().clashes[kHeight]?.yours).toBe("21 in");
    settleClash(kHeight, "theirs");
  });
});

describe("the history", () => {
  it("goes back and forth, after what is on its way", async () => {
    edit([{ path: kHeight, value: "21 in" }]);
    edit([{ path: "/name", value: "No. 3" }]);
    undoLast();
    await vi.waitFor(() => expect(getState().answers?.canRedo).toBe(true));
    expect(heightNow()).toBe("21 in");
    expect(at(documentNow(), "/name")).toBe("Hollow Creek No. 2");
    undoLast();
    await vi.waitFor(() => expect(heightNow()).toBe("21 3/4 in"));
    expect(getState().answers?.canUndo).toBe(false);
    redoLast();
    await vi.waitFor(() => expect(heightNow()).toBe("21 in"));
  });

  it("does not undo what another screen has just done unseen", async () => {
    edit([{ path: kHeight, value: "21 in" }]);
    await taken();
    elsewhere("/name", "Other 2");
    undoLast();
    await vi.waitFor(() => expect(getState().trouble).toContain("Another screen"));
    expect(at(documentNow(), "/name")).toBe("Other 2");
  });
});

describe("a whole thing", () => {
  it("is copied under a label of its own, and undone in one step", async () => {
    const spare = "/masses/spare_tools";
    expect(await copyThing("/masses/tools", "spare_tools", "Tools, copy")).toBe(spare);
    expect(at(documentNow(), `${spare}/label`)).toBe("Tools, copy");
    expect(at(documentNow(), `${spare}/mass`)).toBe(at(documentNow(), "/masses/tools/mass"));
    undoLast();
    await vi.waitFor(() => expect(getState().answers?.canRedo).toBe(true));
    expect(at(documentNow(), spare)).toBeUndefined();
  });

  it("is copied, renamed and mirrored", async () => {
    const links = "/axles/front/links";
    expect(await copyThing(`${links}/upper`, "spare", "Spare")).toBe(`${links}/spare`);
    expect(at(documentNow(), `${links}/spare/role`)).toBe("upper");
    await change({ kind: "rename", path: `${links}/spare`, to: "second" });
    expect(at(documentNow(), `${links}/spare`)).toBeUndefined();
    expect(await change({ kind: "mirror", path: `${links}/second` })).toBe(
      `${links}/second_mirror`,
    );
  });

  it("is not taken out from under what depends on it without a word", async () => {
    expect(await takeOut("/masses/tools", false)).toHaveLength(1);
    expect(at(documentNow(), "/masses/tools")).toBeDefined();
    expect(await takeOut("/masses/tools", true)).toBeNull();
    expect(at(documentNow(), "/load_states/towing/aboard")).toBeUndefined();
  });
});

describe("a variant", () => {
  it("takes the edits and leaves the build as it is", async () => {
    edit([{ path: "/variants/lift", value: { label: "Lift", changes: {} } }]);
    await taken();
    await openBuild({ build: kBuild, variant: "lift" });
    edit([{ path: kHeight, value: "21 in" }]);
    await taken();
    expect(heightNow()).toBe("21 in");
    expect(at(getState().opened, kHeight)).toBe("21 3/4 in");
    await openBuild({ build: kBuild, variant: null });
    expect(heightNow()).toBe("21 3/4 in");
    expect(at(documentNow(), "/variants/lift/changes")).toEqual({ [kHeight]: "21 in" });
  });
});

describe("the answers", () => {
  /** Another screen's edit just before the report is asked for the n-th time. */
  function editBeforeReport(times: number): void {
    const answered = fetch;
    let left = times;
    vi.stubGlobal("fetch", (route: string, init?: RequestInit) => {
      if (route.endsWith("/report") && left-- > 0) elsewhere(kHeight, `2${left % 2} in`);
      return answered(route, init);
    });
  }

  it("are of one state, also when it changes while they are read", async () => {
    editBeforeReport(2);
    await refresh();
    expect(heightNow()).toBe("20 in");
    expect(getState().answers?.etag).toBe("tag-3");
    expect(casterNow()?.verdict).toBe("look");
  });

  it("stay as they were when it never stands still", async () => {
    const before = getState().answers;
    editBeforeReport(100);
    await refresh();
    expect(getState().answers).toBe(before);
  });

  it("are read anew when the stream of events has ended and is taken up again", async () => {
    const streams: ReadableStreamDefaultController[] = [];
    const answered = fetch;
    vi.stubGlobal("fetch", (route: string, init?: RequestInit) =>
      route.endsWith("/events")
        ? Promise.resolve(
            new Response(new ReadableStream({ start: (stream) => void streams.push(stream) })),
          )
        : answered(route, init),
    );
    await openBuild({ build: "elsewhere", variant: null });
    await openBuild({ build: kBuild, variant: null });
    await vi.waitFor(() => expect(streams).toHaveLength(1));
    streams[0]?.close();
    await vi.waitFor(() => expect(getState().offline).toBe(true));
    elsewhere("/name", "Other 2");
    // As an entry answered in between leaves it.
    setState({ offline: false });
    await vi.waitFor(() => expect(streams).toHaveLength(2), 3000);
    await vi.waitFor(() => expect(at(documentNow(), "/name")).toBe("Other 2"));
  });
});

describe("the motion", () => {
  it("follows the newest question", async () => {
    askPose({ state: null, heave: { front: 0.02 }, roll: {} });
    await vi.waitFor(() => expect(getState().pose?.bodies.front?.p[2]).toBeCloseTo(0.02));
  });
});
