import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import published from "../../../docs/schema/build-1.schema.json";
import { makeState } from "../../mock/shop.mjs";
import { caseShown, look } from "../api/frame-look";
import { openBuild } from "../api/session";
import { getState, resetState, setState } from "../api/store";
import { stubNetwork } from "../api/stub-network";
import type { FrameDrawing, FrameReport } from "../api/types";
import { nearerEnd, shapeOf, unbentLines } from "../scene/frame-shape";
import { Picture } from "../scene/picture";
import { LoadBar } from "./frame/load-bar";
import { Sections } from "./frame/sections";

const kAnswered_ms = 60;

let root: Root;
let box: HTMLElement;

beforeEach(() => {
  vi.stubGlobal("IS_REACT_ACT_ENVIRONMENT", true);
  localStorage.clear();
  resetState();
  stubNetwork(makeState(), published);
  box = document.createElement("div");
  document.body.append(box);
  root = createRoot(box);
});
afterEach(() => {
  act(() => root.unmount());
  box.remove();
  vi.unstubAllGlobals();
});

const show = (what: React.ReactNode) => act(() => root.render(what));
const answered = () => act(() => new Promise((resolve) => setTimeout(resolve, kAnswered_ms)));

async function openFrame() {
  await openBuild({ build: "hollow_creek", variant: null });
  act(() => setState({ work: "frame" }));
}

describe("the frame under load", () => {
  it("is drawn on its own work, with its scale in words and numbers", async () => {
    await openFrame();
    show(
      <>
        <Picture />
        <LoadBar />
      </>,
    );
    await answered();
    expect(box.querySelectorAll(".frame-shape [class^=stress-]").length).toBeGreaterThan(8);
    expect(box.querySelectorAll(".worst-mark").length).toBe(2);
    expect(box.textContent).toContain("Shape shown 20 times");
    expect(box.querySelectorAll(".stress-scale li").length).toBe(5);
    expect(box.querySelector(".stress-scale")?.textContent).toContain("20 ksi and over");
    expect(box.textContent).toContain("Greatest stress, as planned");
    act(() => setState({ work: "axles" }));
    expect(box.querySelectorAll(".frame-shape").length).toBe(0);
    expect(box.querySelector(".load-key")).toBeNull();
  });

  it("is put away and brought back", async () => {
    await openFrame();
    show(<Picture />);
    const key = () => box.querySelector<HTMLButtonElement>(".load-key");
    expect(key()?.getAttribute("aria-pressed")).toBe("true");
    act(() => key()?.click());
    expect(getState().frameLook.shown).toBe(false);
    expect(box.querySelectorAll(".frame-shape").length).toBe(0);
    act(() => key()?.click());
    expect(getState().frameLook.shown).toBe(true);
  });

  it("goes from as it came to as planned", async () => {
    await openFrame();
    show(<LoadBar />);
    await answered();
    const slider = box.querySelector<HTMLInputElement>("input[type=range]");
    expect(slider?.getAttribute("aria-valuetext")).toBe("as planned");
    act(() => look({ blend: 0 }));
    expect(slider?.getAttribute("aria-valuetext")).toBe("as it came");
    expect(box.textContent).toContain("Greatest stress, as it came");
    const drawing = getState().frameDrawing?.drawing as FrameDrawing;
    const heightOf = (blend: number) => shapeOf(drawing, blend, undefined).worst[2];
    // 20 times 6 mm and 20 times 3 mm below where it lies.
    expect(heightOf(0)).toBeCloseTo(0.5 - 0.12);
    expect(heightOf(1)).toBeCloseTo(0.5 - 0.06);
    expect(nearerEnd(drawing, 0.4)).toBe("before");
    expect(nearerEnd(drawing, 0.6)).toBe("after");
    // Half way the rail hangs half way, by the stress of the nearer end.
    const middle = shapeOf(drawing, 0.5, undefined).members[0]?.[1]?.ends[1][0]?.[2];
    expect(middle).toBeCloseTo(0.58 - 0.08 - 0.09);
    // What only the planned frame has is not in the other.
    expect(unbentLines(drawing, 0, undefined)).toHaveLength(2);
    expect(unbentLines(drawing, 1, undefined)).toHaveLength(3);
  });

  it("shows the case of the worst place until another is chosen", () => {
    const frame = {
      cases: [{ id: "standing" }, { id: "bump" }],
      worst: [{ case: "bump" }],
    } as FrameReport;
    expect(caseShown(frame, null)).toBe("bump");
    expect(caseShown(frame, "standing")).toBe("standing");
    expect(caseShown(frame, "gone")).toBe("bump");
    expect(caseShown({ ...frame, cases: [], worst: [] }, null)).toBeNull();
    expect(caseShown(null, "bump")).toBeNull();
  });
});

describe("the sections", () => {
  it("are drawn to one scale, each with its centroid, shear centre and numbers", async () => {
    await openFrame();
    show(<Sections />);
    await answered();
    const drawings = [...box.querySelectorAll("svg.section-drawing")];
    expect(drawings).toHaveLength(2);
    for (const drawing of drawings) {
      expect(drawing.querySelectorAll(".centroid, .shear-centre")).toHaveLength(2);
    }
    // A channel 6 in deep is deeper on the sheet than the tube of 2 3/8 in.
    const heights = drawings.map((d) => Number(d.getAttribute("height")));
    expect(heights[0]).toBeGreaterThan(1.5 * (heights[1] ?? 0));
    expect(box.textContent).toMatch(/Frame rail, station −20\sin to 120\sin/);
    expect(box.querySelectorAll(".number-row")).toHaveLength(4);
  });
});
