// Which edges of the wood one view has and another has not.

import type { View } from "../server";
import type { Point } from "./box";

const NEAR = 0.6; // mm: nearer than that a line has not moved to the eye
const EDGES = new Set(["visible", "cut"]);

type Ends = readonly [Point, Point];

function edges(view: View): Ends[] {
  return view.strokes
    .filter((one) => one.closed && EDGES.has(one.pen))
    .flatMap((one) =>
      one.points.map((a, k): Ends => [a, one.points[(k + 1) % one.points.length] ?? a]),
    );
}

function away(p: Point, [a, b]: Ends): number {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
  const long = ux * ux + uy * uy;
  const share = long === 0 ? 0 : ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / long;
  const on = Math.min(Math.max(share, 0), 1);
  return Math.hypot(p[0] - a[0] - on * ux, p[1] - a[1] - on * uy);
}

/** Returns the edges of a view's wood that no edge of the other's runs along. */
export function fresh(view: View, other: View): Ends[] {
  const theirs = edges(other);
  const along = (p: Point): boolean => theirs.some((one) => away(p, one) < NEAR);
  return edges(view).filter(([a, b]) => {
    const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
    return !(along(a) && along(b) && along(middle));
  });
}
