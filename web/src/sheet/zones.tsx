// The zones that findings name, along the frame: figures over the side view, letters at its left.

import type { View } from "../server";
import { around } from "./box";
import type { Box, Point, Room } from "./box";
import { line } from "./scale";
import type { Scale } from "./scale";

type Parted = NonNullable<View["zones"]>;
const TICK = 6;
const EDGE = 10; // px from the frame to the middle of a letter

interface Named {
  readonly words: string;
  readonly at: Point;
}

function names({ along, down }: Parted, { at }: Scale, room: Room): Named[] {
  const middle = (all: readonly number[], k: number): number => ((all[k] ?? 0) + (all[k + 1] ?? 0)) / 2;
  const figures = along.slice(1).map((_, k): Named => ({
    words: String(k + 1),
    at: [at([middle(along, k), 0])[0], EDGE],
  }));
  const letters = down.slice(1).map((_, k): Named => ({
    words: String.fromCharCode(65 + k),
    at: [EDGE, at([0, middle(down, k)])[1]],
  }));
  return [...figures, ...letters].filter(({ at: [x, y] }) => x > 4 && y > 4 && x < room.width && y < room.height - 6);
}

export const zoneBoxes = (zones: Parted, scale: Scale, room: Room): Box[] =>
  names(zones, scale, room).map((one) => around(one.at[0], one.at[1], 8));

export function Zones({ zones, scale, room }: { zones: Parted; scale: Scale; room: Room }) {
  const ticks = [
    ...zones.along.map((x): readonly [Point, Point] => {
      const px = scale.at([x, 0])[0];
      return [[px, 0], [px, TICK]];
    }),
    ...zones.down.map((y): readonly [Point, Point] => {
      const px = scale.at([0, y])[1];
      return [[0, px], [TICK, px]];
    }),
  ];
  return (
    <g class="zones" aria-hidden="true">
      <path d={line(ticks)} />
      {names(zones, scale, room).map((one) => (
        <text key={one.words} x={one.at[0]} y={one.at[1] + 4} text-anchor="middle">
          {one.words}
        </text>
      ))}
    </g>
  );
}
