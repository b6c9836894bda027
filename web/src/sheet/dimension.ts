// Dimensions beside a view: rows that keep their distance, figures that never meet.

import type { View } from "../server";
import { free, inside } from "./box";
import type { Box, Point, Room, Width } from "./box";

type Size = View["sizes"][number];

export interface Dimension {
  readonly size: Size;
  readonly lines: readonly (readonly [Point, Point])[];
  readonly heads: readonly { readonly at: Point; readonly way: Point }[];
  readonly words: Point; // the middle of the figure's baseline
  readonly upright: boolean;
  readonly box: Box;
}

export const FIRST_ROW = 16;
export const ROW = 20;
const OVER = 3; // px that a line goes on beyond the arrow
const APART = 2; // px between the view and its projection line
const ABOVE = 4; // px between a figure and its line
const PAD = 2;
const HEAD = 9;
const MOST_ROWS = 8;

/** The middle of a figure on its line, as a share of it: centred first, then beside it. */
const ALONG = [0.5, 0.3, 0.7];

/** Returns dimensions with room for their figures; one without any room is left out. */
export function dimensions(
  sizes: readonly Size[],
  at: (p: Point) => Point,
  taken: Box[],
  room: Room,
  type: { readonly size: number; readonly width: Width },
): Dimension[] {
  const rows = new Map<string, number[]>();
  for (const one of sizes) {
    const offs = rows.get(side(one)) ?? [];
    if (!offs.includes(one.off)) offs.push(one.off);
    rows.set(side(one), offs.sort((p, q) => Math.abs(p) - Math.abs(q)));
  }
  const found: Dimension[] = [];
  for (const one of sizes) {
    const first = (rows.get(side(one)) ?? []).indexOf(one.off);
    const done = roomy(one, first, at, { taken, room, type });
    if (done === null) continue;
    taken.push(done.box);
    found.push(done);
  }
  return found;
}

/** Returns how many rows a side needs: dimensions at the foot, for instance. */
export function rowsBelow(sizes: readonly Size[]): number {
  return new Set(sizes.filter((one) => side(one) === "level-").map((one) => one.off)).size;
}

const side = (one: Size): string => {
  const upright = Math.abs(one.a[1] - one.b[1]) > Math.abs(one.a[0] - one.b[0]);
  return `${upright ? `upright${one.a[0]}` : "level"}${one.off < 0 ? "-" : "+"}`;
};

interface Around {
  readonly taken: readonly Box[];
  readonly room: Room;
  readonly type: { readonly size: number; readonly width: Width };
}

function roomy(one: Size, first: number, at: (p: Point) => Point, around: Around): Dimension | null {
  for (let row = first; row < first + MOST_ROWS; row += 1) {
    for (const share of ALONG) {
      const done = drawn(one, row, at, { share, outside: 0 }, around.type);
      if (fits(done, around)) return done;
    }
    for (const outside of [1, -1]) {
      const done = drawn(one, row, at, { share: 0.5, outside }, around.type);
      if (fits(done, around)) return done;
    }
  }
  return null;
}

function fits(done: Dimension, around: Around): boolean {
  const held = done.lines[2];
  const long = held ? Math.hypot(held[1][0] - held[0][0], held[1][1] - held[0][1]) : 0;
  const wide = around.type.width(done.size.words, around.type.size);
  const out = Math.abs(centre(done) - 0.5) * long + wide / 2 > long / 2;
  const beside = out && Math.abs(centre(done) - 0.5) * long - wide / 2 >= long / 2;
  return inside(done.box, around.room) && free(done.box, around.taken) && (!out || beside);
}

/** Where along its line a figure's middle stands, 0 to 1 between the ends. */
function centre(done: Dimension): number {
  const line = done.lines[2];
  if (line === undefined) return 0.5;
  const k = done.upright ? 1 : 0;
  const long = line[1][k] - line[0][k];
  return long === 0 ? 0.5 : (done.words[k] - line[0][k]) / long;
}

function drawn(
  one: Size,
  row: number,
  at: (p: Point) => Point,
  where: { readonly share: number; readonly outside: number },
  type: Around["type"],
): Dimension {
  const [a, b] = [at(one.a), at(one.b)];
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  const way: Point = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
  const off = (one.off < 0 ? -1 : 1) * (FIRST_ROW + row * ROW);
  const normal: Point = [way[1], -way[0]];
  const move = (p: Point, by: number): Point => [p[0] + normal[0] * by, p[1] + normal[1] * by];
  const [p, q] = [move(a, off), move(b, off)];
  const upright = Math.abs(way[1]) > Math.abs(way[0]);
  const wide = type.width(one.words, type.size);
  const share = where.outside === 0 ? where.share : 0.5 + where.outside * (0.5 + (wide / 2 + 6) / long);
  const middle: Point = [p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])];
  const words: Point = upright ? [middle[0] - ABOVE, middle[1]] : [middle[0], middle[1] - ABOVE];
  const sign = Math.sign(off);
  const outer: Point = [q[0] + way[0] * (wide + 10), q[1] + way[1] * (wide + 10)];
  return {
    size: one,
    lines: [
      [move(a, sign * APART), move(p, sign * OVER)],
      [move(b, sign * APART), move(q, sign * OVER)],
      [p, q],
      ...(where.outside === 1 ? [[q, outer] as const] : []),
    ],
    heads: [
      { at: p, way },
      { at: q, way: [-way[0], -way[1]] },
    ],
    words,
    upright,
    box: figureBox(words, wide, type.size, upright),
  };
}

function figureBox(words: Point, wide: number, size: number, upright: boolean): Box {
  const [rise, half] = [size * 0.8, wide / 2 + PAD];
  return upright
    ? {
        left: words[0] - rise - PAD,
        right: words[0] + PAD,
        top: words[1] - half,
        bottom: words[1] + half,
      }
    : {
        left: words[0] - half,
        right: words[0] + half,
        top: words[1] - rise - PAD,
        bottom: words[1] + PAD,
      };
}

/** Returns an arrowhead's outline, slim: five times as long as wide. */
export function head(at: Point, way: Point): string {
  const [x, y] = [at[0] + way[0] * HEAD, at[1] + way[1] * HEAD];
  const [nx, ny] = [-way[1] * (HEAD / 10), way[0] * (HEAD / 10)];
  return `M${at[0]} ${at[1]}L${x + nx * 1.6} ${y + ny * 1.6}L${x - nx * 1.6} ${y - ny * 1.6}Z`;
}
