import { describe, expect, test } from "vitest";

import { bare, turned, written } from "./meter_typed";

describe("a reading as it is typed", () => {
  test.each([
    ["11.9", "11.9 V"],
    ["11,9", "11.9 V"],
    [" 12 ", "12 V"],
    ["12.", "12 V"],
    [",4", "0.4 V"],
    ["-0,4", "-0.4 V"],
    ["\u22120.4", "-0.4 V"],
    ["+0.4 V", "0.4 V"],
    ["35 mV", "35 mV"],
    ["-35mv", "-35 mV"],
    ["-0", "0 V"],
  ])("%s is written %s", (typed, wanted) => {
    expect(written(typed)).toBe(wanted);
  });

  test.each(["", "-", "V", "12 A", "1.2.3", "twelve", "11 9", "--1"])("%s is no voltage", (typed) => {
    expect(written(typed)).toBeNull();
  });

  test("what is written stands in the field as it was typed, and is the same again", () => {
    expect(bare("-0.4 V")).toBe("\u22120.4");
    expect(written(bare("-0.4 V"))).toBe("-0.4 V");
    expect(bare("35 mV")).toBe("35 mV");
    expect(written(bare("35 mV"))).toBe("35 mV");
  });

  test("one key turns the sign, and turns it back", () => {
    expect(written(turned("0.4"))).toBe("-0.4 V");
    expect(turned(turned("0.4"))).toBe("0.4");
    expect(written(turned("-0.4"))).toBe("0.4 V");
  });
});
