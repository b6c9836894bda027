// What can be dragged on a view: by a finger, or by the arrow keys and Enter.

import { standing } from "../model/bench";
import { drop, dragging, leave, live, moveBy, take } from "../model/drag";
import type { Handle } from "../model/drag";
import type { View } from "../server";
import type { Point } from "./box";
import { DrawnFigure } from "./figure";
import type { Scale } from "./scale";

const REACH = 20; // px around a handle that take it, where no other is near
const SIZE = 7;
const INCH = 25.4;
const STEP = { mm: [1, 10], in: [INCH / 16, INCH / 4] } as const;
const KEYS: Record<string, Point> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

export function Handles({ view, scale }: { view: View; scale: Scale }) {
  const spots = (view.handles ?? []).map((one) => scale.at(one.at));
  return (
    <g class="handles">
      {(view.handles ?? []).map((one, k) => (
        <One key={one.name} one={one} at={spots[k] ?? [0, 0]} reach={reachOf(k, spots)} scale={scale} />
      ))}
    </g>
  );
}

/** Half the way to the nearest other handle at the most, so that none covers another. */
function reachOf(k: number, spots: readonly Point[]): number {
  const here = spots[k] ?? [0, 0];
  const apart = spots.map((other, j) => (j === k ? Infinity : Math.hypot(other[0] - here[0], other[1] - here[1])));
  return Math.max(Math.min(REACH, ...apart.map((one) => one / 2)), SIZE);
}

/** How a handle's place on the view moves: only the ways that one of its figures goes. */
function onlyItsWays(one: Handle, [x, y]: Point): Point {
  const level = one.pulls.some((pull) => pull.way[0] !== 0);
  const upright = one.pulls.some((pull) => pull.way[1] !== 0);
  return [level ? x : 0, upright ? y : 0];
}

interface Held {
  readonly one: Handle;
  readonly at: Point;
  readonly reach: number;
  readonly scale: Scale;
}

function One({ one, at, reach, scale }: Held) {
  const now = dragging.value?.handle.name === one.name ? dragging.value : null;
  const shift = now ? onlyItsWays(one, now.by) : [0, 0];
  const [x, y] = [at[0] + (shift[0] ?? 0) * scale.px, at[1] + (shift[1] ?? 0) * scale.px];
  const first = one.pulls[0];
  const figure = live.value?.edits[0]?.value ?? "";
  return (
    <g
      class={`handle${now ? " held" : ""}`}
      role="slider"
      tabindex={0}
      aria-label={`Move ${one.name}`}
      aria-valuenow={Math.round(first?.now_mm ?? 0)}
      aria-valuetext={`${one.name}: arrows move it, Enter writes it, Escape leaves it`}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        start = [event.clientX, event.clientY];
        take(one);
      }}
      onPointerMove={(event) => {
        if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
        const by: Point = [(event.clientX - start[0]) / scale.px, (event.clientY - start[1]) / scale.px];
        moveBy(onlyItsWays(one, by), event.shiftKey);
      }}
      onPointerUp={() => void drop()}
      onPointerCancel={leave}
      onKeyDown={(event) => nudge(event, one)}
      onBlur={() => {
        if (dragging.value?.handle.name === one.name) leave();
      }}
    >
      <circle class="reach" cx={at[0]} cy={at[1]} r={reach} />
      <rect class="handle-mark" x={x - SIZE / 2} y={y - SIZE / 2} width={SIZE} height={SIZE} />
      {now && figure !== "" && (
        <text class="handle-figure" x={x + 12} y={y - 10}>
          <DrawnFigure words={figure} unit={false} />
        </text>
      )}
    </g>
  );
}

let start: Point = [0, 0];

function nudge(event: KeyboardEvent, one: Handle): void {
  const way = KEYS[event.key];
  const held = dragging.value?.handle.name === one.name;
  if (event.key === "Enter" && held) void drop();
  else if (event.key === "Escape" && held) leave();
  else if (way !== undefined) {
    if (!held) take(one);
    const by = dragging.value?.by ?? [0, 0];
    const step = STEP[standing.value?.unit ?? "mm"][event.shiftKey ? 1 : 0];
    moveBy(onlyItsWays(one, [by[0] + way[0] * step, by[1] + way[1] * step]), false);
  } else return;
  event.preventDefault();
}
