import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import published from "../../../docs/schema/build-1.schema.json";
import { makeState } from "../../mock/shop.mjs";
import { at } from "../api/pointer";
import { openBuild } from "../api/session";
import { getState, resetState, setState } from "../api/store";
import { stubNetwork } from "../api/stub-network";
import type { Json, Numeric } from "../api/types";
import { NumberRow } from "./common/number-row";
import { ChosenCard } from "./fields/chosen-card";
import { kindAt, membersOf } from "./fields/schema";
import { Tray } from "./findings/tray";
import { namedBy } from "./findings/working";
import { commonTravel, movedAxles } from "./motion/travel";

/** For the mock to answer and the page to draw it. */
const kAnswered_ms = 60;

const schema = published as unknown as Json;

describe("the schema", () => {
  it("tells the fields of a link's end in their order", () => {
    const members = membersOf(schema, "/axles/front/links/upper/frame");
    expect(members.map((m) => m.key)).toEqual(["at", "bushing", "swing_limit"]);
    expect(members[2]?.kind).toEqual({ kind: "quantity", dimension: "angle" });
    expect(members[2]?.doc).not.toBe("");
  });
  it("tells words, flags, references, maps and lists apart", () => {
    expect(kindAt(schema, "/axles/a/links/b/role")).toEqual({
      kind: "word",
      choices: ["lower", "upper", "track_bar"],
      usual: null,
    });
    expect(kindAt(schema, "/axles/a/steered")?.kind).toBe("flag");
    expect(kindAt(schema, "/axles/a/tyre")).toEqual({ kind: "reference", target: "tyres" });
    expect(kindAt(schema, "/axles/a/links")?.kind).toBe("map");
    expect(kindAt(schema, "/frame/rails/a/line")?.kind).toBe("list");
    expect(kindAt(schema, "/load_states/a/aboard")?.kind).toBe("references");
    expect(kindAt(schema, "/units/fraction_of_inch")?.kind).toBe("count");
    expect(kindAt(schema, "/nowhere/at/all")).toBeNull();
  });
});

describe("a path in words", () => {
  it.each([
    ["/axles/front/links/upper/axle/at/height", "Front, upper, axle, height"],
    ["/axles", "Axles"],
    ["", "The whole build"],
  ])("%s", (path, words) => expect(namedBy(path)).toBe(words));
});

describe("the panels", () => {
  let root: Root;
  let box: HTMLElement;

  beforeEach(async () => {
    vi.stubGlobal("IS_REACT_ACT_ENVIRONMENT", true);
    resetState();
    stubNetwork(makeState(), schema);
    await openBuild({ build: "hollow_creek", variant: null });
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
  const number = (si: number | null, text: string): Numeric => ({ si, text });

  it("show a number with its limits, mark and, when tapped, its working", () => {
    show(
      <NumberRow
        label="Caster change"
        value={number(0.054, "3.1°")}
        verdict="stop"
        high={number(0.0524, "3.0°")}
        finding="caster.front"
        explain="How far it turns."
      />,
    );
    const head = box.querySelector("button");
    expect(head?.getAttribute("aria-expanded")).toBe("false");
    expect(box.querySelector(".scale-limit")?.textContent).toBe("3.0°");
    expect(box.querySelector('[aria-label="Stop"]')).not.toBeNull();
    act(() => head?.click());
    expect(box.textContent).toContain("How far it turns.");
    expect(box.textContent).toContain("change = pitch(droop)");
  });

  it("mark what is not known", () => {
    show(<NumberRow label="Damping ratio" value={number(null, "unknown")} />);
    expect(box.querySelector('[aria-label="Not known"]')).not.toBeNull();
    expect(box.querySelector(".scale.no-limits")).not.toBeNull();
  });

  it("lay open both ends of the link that was tapped, and send what is typed", async () => {
    setState({ chosen: { path: "/axles/front/links/upper", end: null, asked: 1 } });
    show(<ChosenCard />);
    const heights = [...box.querySelectorAll<HTMLInputElement>('input[data-path$="/at/height"]')];
    expect(heights.map((h) => h.value)).toEqual(["26 in", "21 3/4 in"]);
    const up = heights[1]?.parentElement?.querySelector<HTMLButtonElement>('[aria-label$="more"]');
    act(() => up?.click());
    expect(heights[1]?.value).toBe("21 13/16 in");
    await act(() => vi.waitFor(() => expect(getState().answers?.entry).toBe(2)));
  });

  it("tell how a quantity is known, one tap away, and keep it", async () => {
    setState({ chosen: { path: "/axles/front/links/upper", end: null, asked: 1 } });
    show(<ChosenCard />);
    const how = box.querySelector<HTMLButtonElement>('[aria-label="Height: how it is known"]');
    expect(how?.getAttribute("aria-expanded")).toBe("false");
    act(() => how?.click());
    const from = box.querySelector<HTMLSelectElement>(".provenance select");
    if (!from) throw new Error("There is a choice.");
    from.value = "tape";
    act(() => from.dispatchEvent(new Event("change", { bubbles: true })));
    const height = () =>
      at(getState().answers?.document, "/axles/front/links/upper/frame/at/height");
    await act(() => vi.waitFor(() => expect(height()).toEqual({ value: "26 in", from: "tape" })));
  });

  it("ask whose value stands when two screens changed it", async () => {
    const path = "/axles/front/links/upper/frame/at/height";
    const entry = { id: "1", build: "hollow_creek", variant: null, edits: [], seen: {} };
    setState({
      chosen: { path: "/axles/front/links/upper", end: null, asked: 1 },
      clashes: { [path]: { entry, theirs: "20 in", yours: "21 in" } },
    });
    show(<ChosenCard />);
    const buttons = [...box.querySelectorAll<HTMLButtonElement>(".clash button")];
    expect(buttons.map((b) => b.textContent)).toEqual(["Theirs 20\u00a0in", "Yours 21\u00a0in"]);
    act(() => buttons[0]?.click());
    expect(box.querySelector(".clash")).toBeNull();
  });

  it("say what depends on a thing before it is taken out", async () => {
    setState({ chosen: { path: "/masses/tools", end: null, asked: 1 } });
    show(<ChosenCard />);
    const key = (name: string) =>
      [...box.querySelectorAll("button")].find((b) => b.textContent === name);
    act(() => key("Take out")?.click());
    await act(() => new Promise((resolve) => setTimeout(resolve, kAnswered_ms)));
    expect(box.querySelector(".depends")?.textContent).toContain("load state towing");
    act(() => key("Take these out too")?.click());
    const tools = () => at(getState().answers?.document, "/masses/tools");
    await act(() => vi.waitFor(() => expect(tools()).toBeUndefined()));
  });

  it("list findings worst first and open one in place", () => {
    setState({ finding: "caster.front", trayOpen: true });
    show(<Tray />);
    const marks = [...box.querySelectorAll("section")].map((s) => s.getAttribute("aria-label"));
    expect(marks).toEqual(["Stop", "Look"]);
    expect(box.querySelector(".good-ones")?.hasAttribute("open")).toBe(false);
    expect(box.querySelector(".finding.open")?.textContent).toContain("Move the axle end");
  });

  it("move both axles by what both can", () => {
    const report = getState().answers?.report;
    if (!report) throw new Error("There is a report.");
    const travel = commonTravel(movedAxles(report, null));
    expect(travel?.droop_m).toBeCloseTo(-4 * 0.0254);
    expect(commonTravel(movedAxles(report, "front"))?.droop_m).toBeCloseTo(-5 * 0.0254);
  });
});
