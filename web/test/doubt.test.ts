// The scale on a gap's shoulder: what is short, what clears, where the wanted gap is.

import { expect, it } from "vitest";

import { parts } from "../src/sheet/figure";
import { doubt } from "../src/sheet/scale_bar";
import type { Finding } from "../src/server";

const finding = (told: Partial<Finding>): Finding => told as Finding;

it("hatches what falls short of a least gap and fills what clears it", () => {
  const told = doubt(finding({ figure_mm: 5, limit_mm: 6, low_mm: 2, high_mm: 8, spare_mm: -1 }), 100);
  expect(told?.short?.[1]).toBe(told?.clear?.[0]);
  expect(told?.wanted).toBe(told?.short?.[1]);
  expect(told?.nominal).toBeCloseTo(50);
});

it("turns it round where the gap may be no more than wanted", () => {
  const told = doubt(finding({ figure_mm: 5, limit_mm: 9, low_mm: 2, high_mm: 12, spare_mm: 4 }), 100);
  expect(told?.clear?.[1]).toBe(told?.short?.[0]);
  expect((told?.short?.[1] ?? 0) > (told?.clear?.[1] ?? 0)).toBe(true);
});

it("hatches all of it where none of the doubt reaches the wanted gap", () => {
  const told = doubt(finding({ figure_mm: -6, limit_mm: 5, low_mm: -8, high_mm: -4, spare_mm: -11 }), 100);
  expect(told?.clear).toBeNull();
  expect(told?.wanted).toBeGreaterThan(told?.short?.[1] ?? 100);
});

it("is not drawn for what has no doubt in millimetres", () => {
  expect(doubt(finding({ figure_mm: 5, limit_mm: 6, low_mm: null, high_mm: null, spare_mm: -1 }), 100)).toBeNull();
});

it("parts a unit from its figure", () => {
  expect(parts("7 13/16 in")).toEqual({ figure: "7 13/16", unit: "in" });
  expect(parts("under 1 %")).toEqual({ figure: "under 1 %", unit: "" });
});
