// From millimetres of a view to pixels of the room it has.

import type { View } from "../server";
import type { Point, Room } from "./box";

export interface Pad {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Scale {
  readonly at: (p: Point) => Point;
  readonly back: (p: Point) => Point;
  readonly px: number; // for a millimetre
}

/** A view's extent fitted into a room less what stands beside it. */
export function fitted(extent: View["extent"], room: Room, pad: Pad): Scale {
  const [left, top, right, bottom] = extent;
  const wide = Math.max(room.width - pad.left - pad.right, 20);
  const high = Math.max(room.height - pad.top - pad.bottom, 20);
  const px = Math.min(wide / (right - left), high / (bottom - top));
  const dx = pad.left + (wide - px * (right - left)) / 2 - px * left;
  const dy = pad.top + (high - px * (bottom - top)) / 2 - px * top;
  return {
    at: ([x, y]) => [x * px + dx, y * px + dy],
    back: ([x, y]) => [(x - dx) / px, (y - dy) / px],
    px,
  };
}

/** Where a point of the car lies on a view [mm, y down]. */
export function onView(view: View, spot: readonly [number, number, number]): Point {
  const [across, up] = view.axes;
  return [spot[across as 0 | 1 | 2], -spot[up as 0 | 1 | 2]];
}

export function path(points: readonly Point[], at: (p: Point) => Point, closed: boolean): string {
  const way = points.map((p) => at(p).map((v) => v.toFixed(1)).join(" "));
  return `M${way.join("L")}${closed ? "Z" : ""}`;
}

export const line = (ends: readonly (readonly [Point, Point])[]): string =>
  ends.map(([a, b]) => `M${a[0].toFixed(1)} ${a[1].toFixed(1)}L${b[0].toFixed(1)} ${b[1].toFixed(1)}`).join("");
