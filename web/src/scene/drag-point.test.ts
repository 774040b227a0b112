import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { makeState } from "../../mock/shop.mjs";
import { kBuild } from "../api/hollow-creek";
import { openBuild } from "../api/session";
import { getState, resetState, setState } from "../api/store";
import { stubNetwork } from "../api/stub-network";
import type { Part } from "../api/types";
import { dragPoint, stepPoint } from "./drag-point";
import { type Point, pointsOf } from "./points";

const kDot = { x: 0, y: 0 };
const kSegments = "/drivetrain/segments/";

let asked: [string, unknown][] = [];

beforeEach(async () => {
  resetState();
  stubNetwork(makeState());
  await openBuild({ build: kBuild, variant: null });
  setState({ work: "drivetrain" });
  asked = [];
  const answered = fetch;
  vi.stubGlobal("fetch", (route: string, init?: RequestInit) => {
    if (init?.method === "POST") asked.push([route, JSON.parse(String(init.body))]);
    return answered(route, init);
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

function lineOfCases(): Point {
  const parts = getState().answers?.scene.parts ?? [];
  const part = parts.find((p: Part) => p.kind === "case");
  const line = part && pointsOf(part).find((p) => p.holds === "line");
  if (!line) throw new Error("The mock draws no case.");
  return line;
}

it("tries out where a line of cases goes, and asks for it when it is let go", async () => {
  const line = lineOfCases();
  const drag = dragPoint(
    line,
    (dx, dy) => [-dx / 1000, 0, -dy / 1000],
    () => undefined,
  );
  drag.move({ x: 30, y: 0 }, kDot);
  await vi.waitFor(() => expect(asked).toHaveLength(1));
  const [route, tried] = asked[0] ?? [];
  expect(route).toContain("/trial?work=drivetrain");
  expect(tried).toEqual({ kind: "move_cases", path: line.path, rearward: "1 3/16 in" });
  expect(getState().trying).toBe("drivetrain");
  drag.end?.();
  await vi.waitFor(() => expect(getState().answers?.entry).toBe(2));
  expect(asked.find(([route]) => route.endsWith("/change"))?.[1]).toEqual(tried);
  expect(getState().trying).toBeNull();
});

it("is moved by the keyboard too, and puts back what is not taken", async () => {
  const line = lineOfCases();
  expect(line.path.startsWith(kSegments)).toBe(true);
  stepPoint(line, [0, 0, 0.0254]);
  await vi.waitFor(() => expect(getState().answers?.entry).toBe(2));
  const report = getState().answers?.report;
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("cut off")));
  stepPoint(line, [0, 0, 0.0254]);
  await vi.waitFor(() => expect(getState().offline).toBe(true));
  expect(getState().answers?.report).toBe(report);
});
