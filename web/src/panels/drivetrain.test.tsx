import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import published from "../../../docs/schema/build-1.schema.json";
import { makeState } from "../../mock/shop.mjs";
import { loadShown } from "../api/drive-look";
import { edit } from "../api/entries";
import { openBuild } from "../api/session";
import { getState, resetState, setState } from "../api/store";
import { stubNetwork } from "../api/stub-network";
import type { DrivetrainReport } from "../api/types";
import { Picture } from "../scene/picture";
import { AxlesSheet } from "./axles/axles-sheet";
import { DrivetrainSheet } from "./drivetrain/drivetrain-sheet";

let root: Root;
let box: HTMLElement;

beforeEach(async () => {
  vi.stubGlobal("IS_REACT_ACT_ENVIRONMENT", true);
  localStorage.clear();
  resetState();
  stubNetwork(makeState(), published);
  box = document.createElement("div");
  document.body.append(box);
  root = createRoot(box);
  await openBuild({ build: "hollow_creek", variant: null });
  act(() => setState({ work: "drivetrain" }));
});
afterEach(() => {
  act(() => root.unmount());
  box.remove();
  vi.unstubAllGlobals();
});

const show = (what: React.ReactNode) => act(() => root.render(what));
const key = (name: string) =>
  [...box.querySelectorAll("button")].find((b) => b.textContent === name);
const table = (caption: string) => box.querySelector(`.table-box[aria-label^="${caption}"]`);
const rowsOf = (caption: string) =>
  [...(table(caption)?.querySelectorAll("tbody tr") ?? [])].map((row) => row.textContent ?? "");

describe("the drivetrain's sheet", () => {
  it("opens a number to its working", () => {
    show(<DrivetrainSheet />);
    const row = [...box.querySelectorAll<HTMLButtonElement>("button.row-head")].find((b) =>
      b.textContent?.startsWith("Balance point"),
    );
    act(() => row?.click());
    expect(box.textContent).toContain("x = Σ m x / Σ m");
    expect(box.querySelector('[aria-label="Not known"]')).not.toBeNull();
  });

  it("shows one load at a time, on the sheet and on the truck", () => {
    show(
      <>
        <Picture />
        <DrivetrainSheet />
      </>,
    );
    const arrows = () =>
      [...box.querySelectorAll(".forces text")].map((t) => t.textContent).join(" ");
    expect(key("Standing")?.getAttribute("aria-pressed")).toBe("true");
    expect(rowsOf("Mounts")[1]).toMatch(/Right engine mount270/);
    expect(arrows()).toContain("270 lbf right");
    act(() => key("First, low range")?.click());
    expect(getState().driveLoad).toBe("first");
    expect(rowsOf("Mounts")[1]).toMatch(/−378/);
    expect(arrows()).toContain("−378 lbf right");
    expect(rowsOf("Flanges")[1]).toMatch(/1,290.lb-ft1,400.lb-ft/);
    expect(table("Flanges")?.querySelector('[aria-label="Look"]')).not.toBeNull();
    const bending = box.querySelector(".bending svg");
    expect(bending?.getAttribute("aria-label")).toContain("First, low range: least");
    expect(bending?.querySelectorAll(".support")).toHaveLength(3);
    expect(bending?.textContent).toContain("Transfer case");
    act(() => setState({ work: "axles" }));
    expect(box.querySelectorAll(".forces text")).toHaveLength(0);
  });

  it("leads from a flange to its case", () => {
    show(<DrivetrainSheet />);
    act(() => key("Rear face of the gearbox")?.click());
    expect(getState().chosen?.path).toBe("/drivetrain/segments/gearbox");
    const field = document.activeElement as HTMLElement;
    expect(field.dataset.path).toBe("/drivetrain/segments/gearbox/flange_limit");
    expect(getState().work).toBe("drivetrain");
  });

  it("tells shafts, gears, lifts and the order of the mock-up", () => {
    show(<DrivetrainSheet />);
    expect(box.querySelectorAll(".shaft-report")).toHaveLength(2);
    expect(box.querySelectorAll(".shaft-report .curve")).toHaveLength(6);
    expect(rowsOf("Gears")[0]).toMatch(/^Firstlow37\.95:1.*grip$/);
    expect(rowsOf("How it swings")[1]).toContain("bounce 82\u00a0%, pitch 14\u00a0%");
    expect(rowsOf("Lifts")[0]).toMatch(/^All of it760.lb10 1\/2/);
    expect(box.querySelectorAll(".mock-up li")).toHaveLength(4);
    expect(box.querySelectorAll(".mock-up .hold")).toHaveLength(2);
  });

  it("tells gaps, the room of a shaft in bump and roll, and what the loads make of it", () => {
    show(<DrivetrainSheet />);
    expect(rowsOf("Gaps")[0]).toMatch(
      /^Oil pan to the axle tube3 1\/2.*1\/4.*bump, 3 g1\/2.*5\/16.*bump, 3 g$/,
    );
    expect(table("Gaps")?.querySelector('[aria-label="Look"]')).not.toBeNull();
    const maps = box.querySelectorAll(".shaft-map > svg");
    expect(maps).toHaveLength(2);
    expect(maps[0]?.getAttribute("aria-label")).toMatch(/^Rear shaft: past its room in \d+ %/);
    expect(maps[0]?.querySelectorAll(".past rect").length).toBeGreaterThan(0);
    expect(rowsOf("At ride, with the cases moved")[1]).toMatch(/^Full torque/);
  });

  it("moves engine and cases as one piece by what was typed", async () => {
    show(<DrivetrainSheet />);
    const form = box.querySelector<HTMLFormElement>(".move-cases");
    const move = form?.querySelector<HTMLButtonElement>('[type="submit"]');
    expect(move?.disabled).toBe(true);
    const up = [...(form?.querySelectorAll("label") ?? [])].find((l) => l.textContent === "Up");
    const input = box.querySelector<HTMLInputElement>(`#${CSS.escape(up?.htmlFor ?? "")}`);
    const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set;
    act(() => {
      if (input) set?.call(input, "1/2 in");
      input?.dispatchEvent(new Event("input", { bubbles: true }));
    });
    expect(move?.disabled).toBe(false);
    const entry = getState().answers?.etag;
    await act(async () => form?.requestSubmit());
    await vi.waitFor(() => expect(getState().answers?.etag).not.toBe(entry));
    await vi.waitFor(() => expect(input?.value).toBe(""));
  });

  it("has only its forms, and says what to type first, while nothing is known", async () => {
    edit([{ path: "/drivetrain", remove: true }]);
    await vi.waitFor(() => expect(getState().answers?.report.drivetrain).toBeNull());
    show(<DrivetrainSheet />);
    expect(box.querySelector(".empty")?.textContent).toContain("Type the cases first");
    expect(box.querySelectorAll("table, .bending, .mock-up, .number-row")).toHaveLength(0);
    expect(box.querySelectorAll(".collection")).toHaveLength(8);
  });

  it("hides what is empty", () => {
    const { answers } = getState();
    const drivetrain = answers?.report.drivetrain as DrivetrainReport;
    const bare = {
      ...drivetrain,
      ...{ loads: [], modes: [], shafts: [], gears: [], lifts: [], gaps: [], steps: [] },
    };
    if (answers)
      setState({ answers: { ...answers, report: { ...answers.report, drivetrain: bare } } });
    show(<DrivetrainSheet />);
    expect([...box.querySelectorAll("caption")].map((c) => c.textContent)).toEqual([
      "Cases, from the front",
    ]);
    expect(box.querySelector(".drive-loads, .mock-up")).toBeNull();
  });
});

it("shows the load that was chosen while there is one", () => {
  const drivetrain = { loads: [{ id: "standing" }, { id: "first" }] } as DrivetrainReport;
  expect(loadShown(drivetrain, "first")?.id).toBe("first");
  expect(loadShown(drivetrain, "gone")?.id).toBe("standing");
  expect(loadShown(null, "first")).toBeNull();
});

it("an axle's own ratio is typed on the axles' sheet", () => {
  show(<AxlesSheet />);
  const field = box.querySelector<HTMLInputElement>('[data-path="/axles/front/gear_ratio"]');
  expect(field?.value).toBe("4.56:1");
});
