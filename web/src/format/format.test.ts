import { describe, expect, it } from "vitest";
import type { Units } from "../api/types";
import { degreesText, inchFraction, lengthText, stationText } from "./quantity";
import { stepText } from "./step";
import { isEstimate, piecesOf, splitUnit, wordsOf } from "./text";

const inch: Units = {
  metric: false,
  fraction_of_inch: 16,
  per_si: { length: { unit: "in", factor: 1 / 0.0254 } },
};
const metric: Units = {
  metric: true,
  fraction_of_inch: 16,
  per_si: { length: { unit: "mm", factor: 1000 } },
};

describe("a text in pieces", () => {
  it("stacks a fraction and keeps its whole number with it", () => {
    expect(piecesOf("41 5/8 in")).toEqual([
      { kind: "fraction", whole: "41", over: "5", under: "8" },
      { kind: "words", text: "\u00a0in" },
    ]);
  });
  it("leaves the words of a sentence alone", () => {
    expect(piecesOf("Sits 3/8 in low.")).toEqual([
      { kind: "words", text: "Sits " },
      { kind: "fraction", whole: "", over: "3", under: "8" },
      { kind: "words", text: "\u00a0in low." },
    ]);
  });
  it("sets a true minus before a number, and leaves hyphens be", () => {
    expect(piecesOf("-187 1/16 in")[0]).toEqual({ kind: "words", text: "−" });
    expect(piecesOf("from -10 lb-ft")[0]).toEqual({ kind: "words", text: "from −10\u00a0lb-ft" });
  });
  it("ends no line between a number and its unit", () => {
    expect(piecesOf("Put 44.1 % on 2 wheels.")).toEqual([
      { kind: "words", text: "Put 44.1\u00a0% on 2 wheels." },
    ]);
  });
  it("does not take a rate for a fraction", () => {
    expect(piecesOf("250 lbf/in")).toEqual([{ kind: "words", text: "250\u00a0lbf/in" }]);
  });
  it("parts figures and unit", () => {
    expect(splitUnit("~41 5/8 in")).toEqual({ lead: "", figures: "~41 5/8", unit: "in" });
    expect(splitUnit("−2.1°")).toEqual({ lead: "", figures: "−2.1", unit: "°" });
    expect(splitUnit("4,010 lb")).toEqual({ lead: "", figures: "4,010", unit: "lb" });
    expect(splitUnit("at least 4197 lb")).toEqual({
      lead: "at least",
      figures: "4197",
      unit: "lb",
    });
    expect(splitUnit("4.56:1")).toEqual({ lead: "", figures: "4.56", unit: ":1" });
    expect(splitUnit("unknown")).toEqual({ lead: "", figures: "unknown", unit: "" });
  });
  it("knows an estimate by its tilde", () => {
    expect(isEstimate("~430 lb")).toBe(true);
    expect(isEstimate("430 lb")).toBe(false);
  });
  it("makes words of a key", () => expect(wordsOf("free_length")).toBe("Free length"));
});

describe("a length", () => {
  it("is reduced to the lowest fraction", () => {
    expect(inchFraction(41.625, 16)).toBe("41 5/8");
    expect(inchFraction(0.5, 16)).toBe("1/2");
    expect(inchFraction(-3.0625, 16)).toBe("−3 1/16");
    expect(inchFraction(2.99, 16)).toBe("3");
  });
  it("reads as on the tape, in the build's units", () => {
    expect(lengthText(1.0573, inch)).toBe("41 5/8 in");
    expect(lengthText(0.0254, inch, true)).toBe("+1 in");
    expect(lengthText(0, inch, true)).toBe("0 in");
    expect(lengthText(-0.0254, metric, true)).toBe("−25 mm");
  });
  it("is told in feet along the floor", () => {
    expect(stationText(0.6096, inch)).toBe("2′");
    expect(stationText(-0.9906, inch)).toBe("−3′ 3″");
    expect(stationText(1.5, metric)).toBe("1.5 m");
  });
  it("has no minus sign on nothing", () => {
    expect(stationText(-0.001, inch)).toBe("0′");
    expect(degreesText(-0.0001)).toBe("0.0°");
  });
});

describe("a step", () => {
  it.each([
    ["41 5/8 in", "41 11/16 in", "41 9/16 in"],
    ['41-5/8"', '41-11/16"', '41-9/16"'],
    ["3' 5-5/8\"", "3' 5-11/16\"", "3' 5-9/16\""],
    ["-1/16 in", "0 in", "-1/8 in"],
    ["13 1/2 in", "13 9/16 in", "13 7/16 in"],
    ["1/32 in", "3/32 in", "-1/32 in"],
    ["1057 mm", "1058 mm", "1056 mm"],
    ["12.5 deg", "12.6 deg", "12.4 deg"],
    ["320 lbf/in", "321 lbf/in", "319 lbf/in"],
    ["-5.25 in", "-5.24 in", "-5.26 in"],
  ])("of %s keeps its way of writing", (text, up, down) => {
    expect(stepText(text, 1)).toBe(up);
    expect(stepText(text, -1)).toBe(down);
  });
  it("is not made of what is no number", () => {
    expect(stepText("", 1)).toBeNull();
    expect(stepText("about three", 1)).toBeNull();
    expect(stepText("1/2 ft", 1)).toBeNull();
  });
});
