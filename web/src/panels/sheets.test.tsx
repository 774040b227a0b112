import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import published from "../../../docs/schema/build-1.schema.json";
import { makeState } from "../../mock/shop.mjs";
import { edit } from "../api/entries";
import { followAddress, openBuild } from "../api/session";
import { getState, resetState, setState } from "../api/store";
import { stubNetwork } from "../api/stub-network";
import type { Json } from "../api/types";
import { CompareSheet } from "./compare/compare-sheet";
import { StillPictures } from "./compare/still-picture";
import { FrameSheet } from "./frame/frame-sheet";
import { AskInitials } from "./front/initials";
import { MissingList } from "./front/missing";
import { Standing } from "./front/standing";
import { HistorySheet } from "./history/history-sheet";
import { NextList } from "./next/next-list";
import { ShopScreen } from "./shop/shop-screen";
import { StartScreen } from "./shop/start-screen";

const kAnswered_ms = 60;
const kHeight = "/axles/front/links/upper/axle/at/height";

let root: Root;
let box: HTMLElement;

beforeEach(() => {
  vi.stubGlobal("IS_REACT_ACT_ENVIRONMENT", true);
  localStorage.clear();
  window.location.hash = "";
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
const answered = (more_ms = 0) =>
  act(() => new Promise((resolve) => setTimeout(resolve, kAnswered_ms + more_ms)));
const key = (name: string) =>
  [...box.querySelectorAll("button")].find((b) => b.textContent?.startsWith(name));
const entered = (path: string, value: Json) => {
  edit([{ path, value }]);
  return vi.waitFor(() => expect(getState().waiting).toBe(0));
};

describe("the shop", () => {
  beforeEach(async () => {
    window.location.hash = "#shop";
    await followAddress();
  });

  it("shows each build with its verdicts and leads to it", () => {
    show(<ShopScreen />);
    const card = box.querySelector(".card-face");
    expect(card?.getAttribute("href")).toBe("#hollow_creek");
    expect(card?.textContent).toContain("Hollow Creek No. 2");
    expect(card?.querySelector('[aria-label="Stop"]')).not.toBeNull();
  });

  it("puts a build in the archive, and brings it back", async () => {
    show(<ShopScreen />);
    act(() => key("Archive")?.click());
    await answered();
    expect(box.querySelector(".archive summary")?.textContent).toBe("Archive, 1");
    act(() => key("Bring back")?.click());
    await answered();
    expect(box.querySelector(".archive")).toBeNull();
  });

  it("asks plain questions, and counts what it will guess", async () => {
    show(<StartScreen />);
    await answered();
    expect(box.querySelectorAll(".question")).toHaveLength(3);
    expect(box.querySelector(".start-foot")?.textContent).toContain("2 will be guessed.");
    const wheelbase = box.querySelector<HTMLInputElement>('input[placeholder="~ 118 in"]');
    expect(wheelbase).not.toBeNull();
  });
});

describe("the bench", () => {
  beforeEach(() => openBuild({ build: "hollow_creek", variant: null }));

  it("lists what was done, who by, and goes back", async () => {
    localStorage.setItem("rigwright.initials", "TC");
    await entered("/name", "No. 3");
    show(<HistorySheet />);
    await answered();
    const lines = [...box.querySelectorAll(".entry-line")].map((l) => l.textContent ?? "");
    expect(lines).toHaveLength(2);
    expect(lines[0]).toContain("TC, today");
    expect(lines[0]).toContain("as it stands now");
    act(() => key("Go back to it")?.click());
    await answered();
    expect(getState().answers?.report.name).toBe("Hollow Creek No. 2");
  });

  it("sets a variant beside the build", async () => {
    edit([{ path: "/variants/lift", value: { label: "Lift", changes: { [kHeight]: "21 in" } } }]);
    await vi.waitFor(() => expect(getState().waiting).toBe(0));
    show(
      <>
        <StillPictures />
        <CompareSheet />
      </>,
    );
    await answered();
    expect(box.querySelector(".variants")?.textContent).toContain("one change");
    expect(box.querySelectorAll(".still")).toHaveLength(2);
    const captions = [...box.querySelectorAll("caption")].map((c) => c.textContent);
    expect(captions).toContain("What was changed");
    expect(captions).toContain("Findings that differ");
  });

  it("numbers what is missing as the whole report does", () => {
    show(<MissingList tops={["masses"]} />);
    const lines = [...box.querySelectorAll(".missing ol li")].map((l) => l.textContent);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/^2\.Size of the tools/);
  });

  it("says what to measure next, on the sheet that it belongs to", async () => {
    show(<NextList work="axles" />);
    await answered(800);
    expect(box.querySelector(".next")?.textContent).toContain("Front axle, coil, rate");
    show(<NextList work="weigh" />);
    expect(box.querySelector(".next")).toBeNull();
  });

  it("shows no other build's readings while its own are asked for", async () => {
    show(<NextList work="axles" />);
    await answered(800);
    expect(box.querySelector(".next")).not.toBeNull();
    await act(() => entered("/variants/lift", { label: "Lift", changes: {} }));
    await act(() => openBuild({ build: "hollow_creek", variant: "lift" }));
    expect(box.querySelector(".next")).toBeNull();
    await answered(800);
    expect(box.querySelector(".next")).not.toBeNull();
  });

  it("asks for initials once, after the first entry", async () => {
    show(<AskInitials />);
    expect(box.textContent).toBe("");
    await act(() => entered("/name", "No. 3"));
    expect(box.querySelector(".ask-initials")).not.toBeNull();
    act(() => key("Not on this screen")?.click());
    await act(() => entered("/name", "No. 4"));
    expect(box.textContent).toBe("");
  });

  it("says that the program does not answer, and what waits", () => {
    show(<Standing />);
    expect(box.textContent).toBe("");
    act(() => setState({ offline: true, waiting: 2 }));
    expect(box.textContent).toContain("2 entries are kept on this screen");
  });
});

describe("the frame's sheet", () => {
  it("lists the stress at what is fixed to it and leads to the part", async () => {
    await openBuild({ build: "hollow_creek", variant: null });
    act(() => setState({ work: "frame" }));
    show(<FrameSheet />);
    await answered();
    const table = box.querySelector('[aria-label="At what is fixed to it"]');
    const rows = [...(table?.querySelectorAll("tbody tr") ?? [])].map((row) => row.textContent);
    expect(rows).toHaveLength(2);
    expect(rows[0]).toContain("Upper link of the front axle");
    expect(rows[0]).toContain("left frame rail, upper flange");
    expect(rows[0]).toContain("Both axles in a bump");
    expect(rows[0]).toMatch(/12\.6.ksi35.%/);
    expect(rows[1]).toContain("its own stress comes on top");
    act(() => table?.querySelector("button")?.click());
    expect(getState().chosen).toMatchObject({
      path: "/axles/front/links/upper",
      end: "/axles/front/links/upper/frame/at",
    });
    expect(getState().work).toBe("axles");
  });
});
