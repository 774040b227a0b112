import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { makeState } from "../../mock/shop.mjs";
import { client } from "./client";
import { edit, entriesTaken, sendNow, takeUpKept } from "./entries";
import type { Entry } from "./kept";
import { at } from "./pointer";
import { openBuild } from "./session";
import { getState, resetState } from "./store";
import { stubNetwork } from "./stub-network";

const tablet = vi.hoisted(() => new Map<string, Entry>());
vi.mock("./kept", () => ({
  keep: async (entry: Entry) => void tablet.set(entry.id, structuredClone(entry)),
  forget: async (id: string) => void tablet.delete(id),
  keptFor: async (build: string) => [...tablet.values()].filter((e) => e.build === build),
}));

const kBuild = "hollow_creek";
let server = makeState();
const nameNow = () => at(getState().answers?.document, "/name");
const settled = () => vi.waitFor(async () => expect(await entriesTaken()).toBe(true));

/** Every patch is refused with this status; the rest is answered. */
function refuseAll(status: number): void {
  stubNetwork(server);
  const answered = fetch;
  vi.stubGlobal("fetch", (route: string, init?: RequestInit) =>
    init?.method === "PATCH"
      ? Promise.resolve(new Response(JSON.stringify({ error: "not now" }), { status }))
      : answered(route, init),
  );
}

beforeEach(async () => {
  tablet.clear();
  server = makeState();
  resetState();
  stubNetwork(server);
  await openBuild({ build: kBuild, variant: null });
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

it.each([401, 403, 409, 500, 507])("refused by %i is kept and tried again", async (status) => {
  refuseAll(status);
  edit([{ path: "/name", value: "mine" }]);
  await settled();
  expect(tablet.size).toBe(1);
  expect(getState().waiting).toBe(1);
  expect(getState().refused["/name"]?.text).toBe("mine");
  expect(getState().trouble).toBe("Not now. It is kept on this screen and tried again.");
  stubNetwork(server);
  sendNow();
  await vi.waitFor(() => expect(getState().waiting).toBe(0));
  expect(nameNow()).toBe("mine");
  expect(tablet.size).toBe(0);
  expect(getState().refused).toEqual({});
});

it.each([400, 404, 413, 422])("refused by %i is not sent again", async (status) => {
  refuseAll(status);
  edit([{ path: "/name", value: "mine" }]);
  await vi.waitFor(() => expect(getState().waiting).toBe(0));
  expect(tablet.size).toBe(0);
  expect(getState().refused["/name"]?.text).toBe("mine");
});

it("is tried again by itself after a while", async () => {
  refuseAll(507);
  edit([{ path: "/name", value: "mine" }]);
  vi.useFakeTimers();
  await vi.waitFor(() => expect(getState().refused["/name"]).toBeDefined());
  await vi.advanceTimersByTimeAsync(0);
  stubNetwork(server);
  await vi.advanceTimersByTimeAsync(10_000);
  await vi.waitFor(() => expect(nameNow()).toBe("mine"));
});

it("follows one that was taken without an answer", async () => {
  const answered = fetch;
  vi.stubGlobal("fetch", async (route: string, init?: RequestInit) => {
    const answer = await answered(route, init);
    if (init?.method === "PATCH") throw new TypeError("cut off");
    return answer;
  });
  edit([{ path: "/name", value: "first" }]);
  await vi.waitFor(() => expect(getState().offline).toBe(true));
  edit([{ path: "/name", value: "second" }]);
  edit([{ path: "/name", value: "third" }]);
  expect(getState().waiting).toBe(2);
  vi.stubGlobal("fetch", answered);
  sendNow();
  await vi.waitFor(() => expect(getState().waiting).toBe(0));
  expect(getState().clashes).toEqual({});
  expect(nameNow()).toBe("third");
  expect(tablet.size).toBe(0);
});

it("of two that another screen's change meets, asks about the newer", async () => {
  const cutOff = () => Promise.reject(new TypeError("cut off"));
  const answered = fetch;
  vi.stubGlobal("fetch", cutOff);
  edit([{ path: "/name", value: "first" }]);
  await vi.waitFor(() => expect(getState().offline).toBe(true));
  edit([{ path: "/name", value: "second" }]);
  vi.stubGlobal("fetch", answered);
  const theirs = [{ op: "replace" as const, path: "/name", value: "theirs" }];
  const where = { build: kBuild, variant: null };
  await client.patch(where, getState().answers?.etag ?? "", theirs);
  sendNow();
  await vi.waitFor(() => expect(getState().waiting).toBe(0));
  expect(getState().clashes["/name"]?.yours).toBe("second");
  expect(tablet.size).toBe(1);
});

it("goes before what was entered after it, and is there after a reload", async () => {
  refuseAll(507);
  edit([{ path: "/name", value: "first" }]);
  await settled();
  stubNetwork(server);
  edit([{ path: "/name", value: "second" }]);
  await vi.waitFor(() => expect(getState().waiting).toBe(0));
  expect(nameNow()).toBe("second");
  const lost = { id: "0", build: kBuild, variant: null, edits: [], seen: {} };
  tablet.set("0", {
    ...lost,
    edits: [{ path: "/name", value: "old" }],
    seen: { "/name": '"second"' },
  });
  await takeUpKept(kBuild);
  await vi.waitFor(() => expect(nameNow()).toBe("old"));
});
