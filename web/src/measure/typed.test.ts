// The keys make texts that the server's own reader takes; the same table is read by its tests.

import { describe, expect, test } from "vitest";

import type { ReadBy, Unit } from "./messages";
import { asWritten, parts, press } from "./typed";
import cases from "./typed.cases.json";

const RULE: ReadBy = { name: "steel rule", mm: "1", inch: "1/16", written: true };
const TAPE: ReadBy = { name: "tape", mm: "2", inch: "3/32", written: false };

describe("the keys", () => {
  test.each(cases)("$keys make '$written'", (one) => {
    const text = one.keys.reduce(press, "");
    const unit = one.unit as Unit;
    const by = one.by === "steel rule" ? RULE : TAPE;
    const buildUnit = (one.build ?? unit) as Unit;
    expect(asWritten({ text, unit, buildUnit, by, side: one.side ?? "", tail: "" })).toBe(one.written);
  });

  test("a fraction is set as one, a whole number is not", () => {
    expect(parts("9 13/16")).toEqual([
      { words: "9 ", fraction: false },
      { words: "13/16", fraction: true },
    ]);
  });

  test("rubbing out ends with nothing, and nothing stays nothing", () => {
    let text = ["1", "ft", "2", "1/2", "±", "1/8"].reduce(press, "");
    for (let k = 0; k < 20; k += 1) text = press(text, "rub out");
    expect(text).toBe("");
  });
});
