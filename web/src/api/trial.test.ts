import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { makeState } from "../../mock/shop.mjs";
import { edit, sendNow } from "./entries";
import { casterNow, documentNow, heightNow, kBuild, kHeight, taken } from "./hollow-creek";
import { at } from "./pointer";
import { openBuild } from "./session";
import { getState, resetState, setState } from "./store";
import { stubNetwork } from "./stub-network";
import { editShown, endTrial, tryOut } from "./trial";
import { reportWith, sameAsShown } from "./trial-report";
import type { Report } from "./types";

let server = makeState();

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

describe("a trial", () => {
  it("is answered and leaves no trace", async () => {
    setState({ work: "axles" });
    const before = getState().answers;
    tryOut([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(casterNow()?.verdict).toBe("look"));
    expect(getState().trying).toBe("axles");
    expect(getState().pending[kHeight]).toBe("21 in");
    expect(heightNow()).toBe("21 3/4 in");
    endTrial();
    expect(getState().answers?.report).toBe(before?.report);
    expect(getState().trying).toBeNull();
    expect(getState().pending).toEqual({});
  });

  it("tells of the open work only, and leaves the rest as it stood", () => {
    const report = getState().answers?.report as Report;
    const { axles, articulation, frame } = report;
    const findings = report.findings.filter((f) => f.work === "axles").slice(1);
    const told = reportWith(report, {
      work: "axles",
      summary: ["Other words."],
      axles: axles.slice(1),
      articulation,
      findings,
    });
    // The other axle is not shown and stays as it was.
    expect(told.axles).toHaveLength(axles.length);
    expect(told.axles[0]).toBe(axles[0]);
    expect(told.summary.axles).toEqual(["Other words."]);
    expect(told.summary.weigh).toBe(report.summary.weigh);
    expect(told.states).toBe(report.states);
    expect(told.frame).toBe(frame);
    expect(told.findings).toHaveLength(report.findings.length - 1);
  });

  it("of the frame has its stages as they stood, and no findings of them", () => {
    const report = getState().answers?.report as Report;
    const { frame } = report;
    if (!frame) throw new Error("The mock has no frame.");
    const told = reportWith(report, {
      work: "frame",
      frame: { ...frame, worst: [], stages: [] },
      findings: [],
    });
    expect(told.frame?.worst).toEqual([]);
    expect(told.frame?.stages).toBe(frame.stages);
    expect(told.findings.some((f) => f.work === "frame")).toBe(false);
    expect(told.summary).toBe(report.summary);
  });

  it("has no workings, and leaves those that stood", () => {
    const report = getState().answers?.report as Report;
    const [axle] = report.axles as [Report["axles"][number]];
    const rows = axle.rows.map((row) => ({ ...row, working: [] }));
    const findings = report.findings.filter((f) => f.work === "axles");
    const told = reportWith(report, {
      work: "axles",
      axles: [{ ...axle, rows, links_working: [] }],
      findings: findings.map((f) => ({ ...f, working: [] })),
    });
    expect(told.axles[0]).toEqual(axle);
    expect(told.findings.filter((f) => f.work === "axles")).toEqual(findings);
  });

  it("keeps a number that still reads the same", () => {
    expect(sameAsShown({ si: 1.0001, text: "1 m" }, { si: 1.0002, text: "1 m" })).toBe(true);
    expect(sameAsShown({ si: 1, text: "1 m" }, { si: 2, text: "2 m" })).toBe(false);
    expect(sameAsShown({ si: null, text: "unknown" }, { si: 1, text: "unknown" })).toBe(false);
  });

  it("is over when the hand comes back to where the point was", async () => {
    setState({ work: "axles" });
    const before = getState().answers?.report;
    tryOut([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(casterNow()?.verdict).toBe("look"));
    edit([{ path: kHeight, value: "21 3/4 in" }]);
    await taken();
    expect(getState().trying).toBeNull();
    expect(getState().answers?.report).toEqual(before);
  });
});

describe("an edit of what is shown", () => {
  const routes: string[] = [];
  beforeEach(() => {
    routes.length = 0;
    const answered = fetch;
    vi.stubGlobal("fetch", (route: string, init?: RequestInit) => {
      routes.push(`${init?.method ?? "GET"} ${route.replace(/^.*hollow_creek/, "")}`);
      return answered(route, init);
    });
  });

  it("is tried out for the open sheet, and made", async () => {
    setState({ work: "axles" });
    editShown([{ path: kHeight, value: "21 in" }]);
    expect(getState().trying).toBe("axles");
    await taken();
    expect(routes.filter((r) => r.startsWith("POST /trial?work=axles"))).toHaveLength(1);
    expect(heightNow()).toBe("21 in");
    expect(casterNow()?.verdict).toBe("look");
    expect(getState().trying).toBeNull();
  });

  it("is only made where another is on its way, or the sheet tells no numbers", async () => {
    setState({ work: "build" });
    editShown([{ path: "/name", value: "Other" }]);
    await taken();
    setState({ work: "axles" });
    edit([{ path: "/name", value: "Other 2" }]);
    editShown([{ path: kHeight, value: "21 in" }]);
    await taken();
    expect(routes.some((r) => r.startsWith("POST /trial"))).toBe(false);
    expect(heightNow()).toBe("21 in");
    expect(at(documentNow(), "/name")).toBe("Other 2");
  });

  it("that waits for the program to answer leaves what stood till then", async () => {
    setState({ work: "axles" });
    const before = getState().answers?.report;
    vi.stubGlobal("fetch", () => Promise.reject(new TypeError("no network")));
    editShown([{ path: kHeight, value: "21 in" }]);
    await vi.waitFor(() => expect(getState().offline).toBe(true));
    expect(getState().trying).toBeNull();
    expect(getState().answers?.report).toBe(before);
    expect(getState().pending[kHeight]).toBe("21 in");
    stubNetwork(server);
    sendNow();
    await taken();
    expect(heightNow()).toBe("21 in");
  });

  it("that is not taken leaves what stood", async () => {
    setState({ work: "axles" });
    const before = getState().answers?.report;
    editShown([{ path: kHeight, value: "a good bit" }]);
    await vi.waitFor(() => expect(getState().refused[kHeight]).toBeDefined());
    expect(getState().answers?.report).toEqual(before);
    expect(getState().trying).toBeNull();
  });
});
