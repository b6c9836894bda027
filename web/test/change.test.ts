// What a remedy draws in red: the edges that were not there before, and no others.

import { expect, it } from "vitest";

import { fresh } from "../src/sheet/change";
import type { View } from "../src/server";

const box = (left: number): View =>
  ({
    strokes: [
      { pen: "visible", closed: true, points: [[left, 0], [100, 0], [100, 50], [left, 50]] },
      { pen: "thin", closed: true, points: [[left, 0], [100, 0], [100, 50]] },
    ],
  }) as unknown as View;

it("finds the new end of a board that is cut shorter", () => {
  expect(fresh(box(20), box(0))).toEqual([[[20, 50], [20, 0]]]);
});

it("finds the old end and the edges that went with it", () => {
  const gone = fresh(box(0), box(20));
  expect(gone).toContainEqual([[0, 50], [0, 0]]);
  expect(gone).not.toContainEqual([[100, 0], [100, 50]]);
});

it("finds nothing where nothing moved to the eye", () => {
  expect(fresh(box(0.2), box(0))).toEqual([]);
});
