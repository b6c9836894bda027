// Room for the marks of findings beside their gaps.

import { around, free, inside, leaderBoxes, runsFree } from "./box";
import type { Box, Point, Room } from "./box";

export const MARK = 22;
const HALF = MARK / 2 + 2;
const FIRST = 26; // px from the gap to the mark's middle
const STEP = 12;
const RINGS = 14;
const UP = [0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8]; // sixteenths of a turn from upright

const END = 4; // px around the end of a leader, a mark's or a name's, that no mark covers

/**
 * Returns where each mark's middle is; null where nothing is free.
 *
 * What the marks and their leaders take is added to `taken`; they keep off the places that names will lead to.
 */
export function marked(gaps: readonly Point[], named: readonly Point[], taken: Box[], room: Room): (Point | null)[] {
  const ends = [...gaps, ...named].map(([x, y]) => around(x, y, END));
  return gaps.map((gap) => {
    const spot = nearest(gap, [...taken, ...ends], room);
    if (spot !== null) taken.push(...leaderBoxes(leaderTo(gap, spot)), around(spot[0], spot[1], HALF));
    return spot;
  });
}

function nearest(gap: Point, taken: readonly Box[], room: Room): Point | null {
  for (let ring = 0; ring < RINGS; ring += 1) {
    for (const turn of UP) {
      const angle = (turn * Math.PI) / 8;
      const away = FIRST + ring * STEP;
      const spot: Point = [gap[0] + away * Math.sin(angle), gap[1] - away * Math.cos(angle)];
      const box = around(spot[0], spot[1], HALF);
      if (inside(box, room) && free(box, taken) && runsFree(leaderTo(gap, spot), taken)) return spot;
    }
  }
  return null;
}

/** Returns a leader from a gap to the edge of its mark. */
export function leaderTo(gap: Point, spot: Point): readonly [Point, Point] {
  const long = Math.hypot(spot[0] - gap[0], spot[1] - gap[1]) || 1;
  const share = (long - MARK / 2) / long;
  return [gap, [gap[0] + share * (spot[0] - gap[0]), gap[1] + share * (spot[1] - gap[1])]];
}
