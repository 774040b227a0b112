import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import published from "../../../docs/schema/build-1.schema.json";
import full from "../../../src/build/fixtures/full.rig.json";
import { makeState } from "../../mock/shop.mjs";
import { at, join, keysOf } from "../api/pointer";
import { openBuild } from "../api/session";
import { getState, resetState, setState } from "../api/store";
import { stubNetwork } from "../api/stub-network";
import type { Json, Path } from "../api/types";
import { AxlesSheet } from "./axles/axles-sheet";
import { BuildSheet } from "./build/build-sheet";
import { DrivetrainSheet } from "./drivetrain/drivetrain-sheet";
import { ChosenCard } from "./fields/chosen-card";
import { kFrom } from "./fields/known";
import { kindAt, membersOf, membersShown } from "./fields/schema";
import { FrameSheet } from "./frame/frame-sheet";
import { WeighSheet } from "./weigh/weigh-sheet";

const schema = published as unknown as Json;
const document_ = full as unknown as Json;
/** What the page does not edit as a field: the format's number, and variants, which have their own sheet. */
const kElsewhere = ["/version", "/variants"];

let root: Root;
let box: HTMLElement;

beforeEach(async () => {
  vi.stubGlobal("IS_REACT_ACT_ENVIRONMENT", true);
  resetState();
  stubNetwork(makeState(), schema);
  await openBuild({ build: "hollow_creek", variant: null });
  const { answers } = getState();
  if (!answers) throw new Error("There are answers.");
  setState({ answers: { ...answers, document: document_, base: document_ } });
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
const pathsShown = () =>
  [...box.querySelectorAll<HTMLElement>("[data-path]")].map((e) => e.dataset.path ?? "");

/** A place in the file with a star for each id that is the build's own. */
function shapeOf(path: Path): string {
  const shape: string[] = [];
  let here: Path = "";
  for (const key of keysOf(path)) {
    const kind = kindAt(schema, here)?.kind;
    shape.push(kind === "map" || kind === "list" ? "*" : key);
    here = join(here, key);
  }
  return `/${shape.join("/")}`.replace(/(\/plus_minus|\/value)$/, "");
}

/** Every leaf the schema has, along the things that the full fixture holds. */
function leavesOf(path: Path): Path[] {
  const kind = kindAt(schema, path);
  switch (kind?.kind) {
    case "thing":
      return membersShown(schema, path, at(document_, path)).flatMap((m) =>
        leavesOf(join(path, m.key)),
      );
    case "map":
    case "list": {
      const given = at(document_, path);
      const keys = typeof given === "object" && given !== null ? Object.keys(given) : [];
      return keys.flatMap((key) => leavesOf(join(path, key)));
    }
    default:
      return [path];
  }
}

/** The things that a card opens on: the entries of the maps at the top, of an axle's collections, of
 * the frame's and of the drivetrain's. */
function thingsOf(): Path[] {
  const entries = (path: Path) => {
    const given = at(document_, path);
    return typeof given === "object" && given !== null
      ? Object.keys(given).map((key) => join(path, key))
      : [];
  };
  const tops = membersOf(schema, "").filter((m) => m.kind.kind === "map");
  const things = tops.flatMap((m) => entries(join("", m.key)));
  const within = [...entries("/axles"), "/frame", "/drivetrain"].flatMap((holder) =>
    membersOf(schema, holder)
      .filter((m) => m.kind.kind === "map")
      .flatMap((m) => entries(join(holder, m.key))),
  );
  return [...things, ...within].filter((path) => !path.startsWith("/variants"));
}

/** It lays open every thing of the full fixture, one after the other. */
const kEveryThing_ms = 30_000;

it("every value that the build file knows has its field on a sheet", {
  timeout: kEveryThing_ms,
}, () => {
  const reached = new Set<string>();
  const gather = () => {
    for (const path of pathsShown()) reached.add(shapeOf(path));
  };
  for (const sheet of [
    <WeighSheet key="w" />,
    <FrameSheet key="f" />,
    <DrivetrainSheet key="d" />,
    <AxlesSheet key="a" />,
    <BuildSheet key="b" />,
  ]) {
    show(sheet);
    gather();
  }
  for (const thing of thingsOf()) {
    act(() => setState({ chosen: { path: thing, end: null, asked: 1 } }));
    show(<ChosenCard />);
    gather();
  }
  const missing = [...new Set(leavesOf("").map(shapeOf))].filter(
    (shape) => !reached.has(shape) && !kElsewhere.some((e) => shape.startsWith(e)),
  );
  expect(missing).toEqual([]);
});

it("every collection has a place to add to", () => {
  show(
    <>
      <WeighSheet />
      <FrameSheet />
      <DrivetrainSheet />
      <AxlesSheet />
    </>,
  );
  const adds = box.querySelectorAll(".collection .add-one").length;
  const maps = membersOf(schema, "").filter((m) => m.kind.kind === "map" && m.key !== "variants");
  const inAxle = membersOf(schema, "/axles/front").filter((m) => m.kind.kind === "map");
  const inFrame = membersOf(schema, "/frame").filter((m) => m.kind.kind === "map");
  const inDrive = membersOf(schema, "/drivetrain").filter((m) => m.kind.kind === "map");
  // The tanks are masses with a heading of their own.
  expect(adds).toBe(maps.length + inAxle.length + inFrame.length + inDrive.length + 1);
});

it("offers what a quantity may be known from, as the file allows it", () => {
  const text = JSON.stringify(published);
  const told = /"from":\{[^}]*"enum":\[([^\]]*)\]/.exec(text)?.[1] ?? "";
  expect(kFrom.map(([word]) => word).sort()).toEqual(
    told
      .split(",")
      .map((word) => word.replaceAll('"', ""))
      .filter((word) => word !== "null")
      .sort(),
  );
});
