import { describe, expect, it } from "vitest";
import { documentWith, patchFor } from "./patch";

const document = {
  name: "A",
  frame: null,
  axles: { front: { track: "62 in" } },
  points: [{ station: "1 in" }],
};

describe("a patch", () => {
  it("replaces what stands and adds what does not", () => {
    expect(
      patchFor(document, [
        { path: "/axles/front/track", value: "63 in" },
        { path: "/axles/front/lift", value: "2 in" },
      ]),
    ).toEqual([
      { op: "replace", path: "/axles/front/track", value: "63 in" },
      { op: "add", path: "/axles/front/lift", value: "2 in" },
    ]);
  });

  it("adds the nearest missing holder as a whole", () => {
    expect(patchFor(document, [{ path: "/hitch/ball/height", value: "20 in" }])).toEqual([
      { op: "add", path: "/hitch", value: { ball: { height: "20 in" } } },
    ]);
    expect(patchFor(document, [{ path: "/axles/front/links/a/role", value: "lower" }])).toEqual([
      { op: "add", path: "/axles/front/links", value: { a: { role: "lower" } } },
    ]);
  });

  it("puts a holder where null stands", () => {
    expect(patchFor(document, [{ path: "/frame/twist_stiffness", value: "6 in" }])).toEqual([
      { op: "replace", path: "/frame", value: { twist_stiffness: "6 in" } },
    ]);
  });

  it("sees what its earlier edits made", () => {
    expect(
      patchFor(document, [
        { path: "/hitch/ball/height", value: "20 in" },
        { path: "/hitch/ball/station", value: "150 in" },
      ]),
    ).toEqual([
      { op: "add", path: "/hitch", value: { ball: { height: "20 in" } } },
      { op: "add", path: "/hitch/ball/station", value: "150 in" },
    ]);
  });

  it("adds to and takes from lists", () => {
    expect(patchFor(document, [{ path: "/points/1", value: { station: "2 in" } }])).toEqual([
      { op: "add", path: "/points/1", value: { station: "2 in" } },
    ]);
    expect(patchFor(document, [{ path: "/points/0", remove: true }])).toEqual([
      { op: "remove", path: "/points/0" },
    ]);
    expect(patchFor(document, [{ path: "/points/0/height", value: "2 in" }])).toEqual([
      { op: "add", path: "/points/0/height", value: "2 in" },
    ]);
  });

  it("leaves out what is gone already", () => {
    expect(patchFor(document, [{ path: "/hitch/ball", remove: true }])).toEqual([]);
    expect(documentWith(document, [{ path: "/hitch", remove: true }])).toBe(document);
  });

  it("makes the document that its edits describe", () => {
    expect(documentWith(document, [{ path: "/frame/twist_stiffness", value: "6 in" }])).toEqual({
      ...document,
      frame: { twist_stiffness: "6 in" },
    });
  });
});
