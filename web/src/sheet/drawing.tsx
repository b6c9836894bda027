// One view drawn to fill the room it has: lines first, then words and marks where there is room.

import type { ComponentChildren } from "preact";

import { hold, hand, keyOf, open } from "../model/bench";
import type { Finding, View } from "../server";
import { Bodies, Changed } from "./bodies";
import { around, Inked } from "./box";
import type { Box, Point, Room } from "./box";
import { dimensions, FIRST_ROW, ROW, rowsBelow } from "./dimension";
import { Dimensions } from "./dimensions";
import { Handles } from "./handles";
import { useLeftOut } from "./left_out";
import { leaderTo, MARK, marked } from "./mark_room";
import { Shape } from "./mark";
import { useRoom } from "./room";
import { fitted, line, onView } from "./scale";
import type { Pad, Scale } from "./scale";
import { faces, LABEL, width } from "./type";
import { LEADING, placed } from "./words";
import type { Settled } from "./words";

const HANDLE = 5; // px around the middle of a handle that stay free
const SMALL = 190; // px of height below which bodies go without names

export interface Drawn {
  readonly view: View;
  readonly after?: View | undefined;
  readonly says: string;
  /** Whether a finding's gap is in this view. */
  readonly shows: (one: Finding) => boolean;
  /** What else is drawn, and what room it takes before words get theirs. */
  readonly over?: (scale: Scale, room: Room) => { readonly takes: readonly Box[]; readonly inks: readonly (readonly [Point, Point])[]; readonly draws: ComponentChildren };
}

export function Drawing(drawn: Drawn) {
  const [frame, room] = useRoom();
  return (
    <div class={`drawing drawing-${drawn.view.name}`} ref={frame}>
      {room.width > 60 && room.height > 60 && <Lines {...drawn} room={room} />}
    </div>
  );
}

function padOf(view: View): Pad {
  const rows = rowsBelow(view.sizes);
  return { left: 46, top: 46, right: 46, bottom: rows > 0 ? FIRST_ROW + rows * ROW + 4 : 10 };
}

function Lines({ view, after, says, shows, over, room }: Drawn & { room: Room }) {
  void faces.value;
  const scale = fitted(view.extent, room, padOf(view));
  const { at } = scale;
  const type = { size: LABEL, width };
  const inked = inkOf(view, scale);
  const more = over?.(scale, room);
  const held = (view.handles ?? []).map((one) => at(one.at));
  const taken: Box[] = [...(more?.takes ?? []), ...held.map(([x, y]) => around(x, y, HANDLE))];
  for (const ends of more?.inks ?? []) inked.line(ends);
  const sizes = dimensions(view.sizes, at, taken, room, type);
  for (const size of sizes) for (const ends of size.lines) inked.line(ends);
  const found = open.value.filter((one) => one.at !== null && one.on !== null && shows(one));
  const inHand = hand.value;
  if (inHand?.grade === "good" && inHand.at && shows(inHand)) found.push(inHand);
  found.sort((one, other) => Number(other === inHand) - Number(one === inHand)); // its mark finds room first
  const gaps = found.map((one) => at(onView(view, one.at ?? [0, 0, 0])));
  const [low, high] = [at([view.extent[0], view.extent[1]]), at([view.extent[2], view.extent[3]])];
  const seen = view.labels
    .map((one) => ({ words: one.words, at: at(one.at) }))
    .filter(({ at: [x, y] }) => x >= low[0] && x <= high[0] && y >= low[1] && y <= high[1]);
  const spots = marked(gaps, seen.map((one) => one.at), taken, room);
  const labels = placed(room.height < SMALL ? [] : seen, taken, inked, room, type);
  useLeftOut(view.name, seen.map((one) => one.words).filter((words) => !labels.some((one) => one.words === words)));
  const clip = `clip-${view.name}`;
  return (
    <svg class="view" role="group" aria-label={says} viewBox={`0 0 ${room.width} ${room.height}`}>
      <clipPath id={clip}>
        <rect x={low[0]} y={low[1]} width={high[0] - low[0]} height={high[1] - low[1]} />
      </clipPath>
      <g clip-path={`url(#${clip})`}>
        <Bodies view={view} scale={scale} />
        {after && <Changed view={view} after={after} scale={scale} id={`mask-${view.name}`} />}
      </g>
      {more?.draws}
      <Labels labels={labels} />
      {found.map((one, k) => {
        const [gap, spot] = [gaps[k], spots[k]];
        return gap && spot ? <GapMark key={keyOf(one)} one={one} gap={gap} spot={spot} /> : null;
      })}
      <Handles view={view} scale={scale} />
      <Dimensions sizes={sizes} room={room} />
    </svg>
  );
}

export function inkOf(view: View, { at, px }: Scale): Inked {
  const inked = new Inked();
  for (const one of view.strokes) inked.line(one.points.map(at), one.closed);
  for (const one of view.rings) {
    const [x, y] = at(one.centre);
    const r = one.radius * px;
    const turn = Array.from({ length: 25 }, (_, k): Point => {
      const angle = (k * Math.PI) / 12;
      return [x + r * Math.cos(angle), y + r * Math.sin(angle)];
    });
    inked.line(turn);
  }
  return inked;
}

export function Labels({ labels }: { labels: readonly Settled[] }) {
  return (
    <g class="label" aria-hidden="true">
      {labels.map((one, k) => (
        <g key={`${k}${one.words}`}>
          {one.leader && <path class="pen pen-thin" d={line([one.leader])} />}
          <text x={one.x} y={one.y} text-anchor="middle">
            {one.lines.map((words, k) => (
              <tspan key={k} x={one.x} dy={k === 0 ? 0 : LABEL * LEADING}>
                {words}
              </tspan>
            ))}
          </text>
        </g>
      ))}
    </g>
  );
}

function GapMark({ one, gap, spot }: { one: Finding; gap: Point; spot: Point }) {
  const held = hand.value === one;
  const take = (): void => {
    hold(one);
    document.getElementById(`line-${keyOf(one)}`)?.scrollIntoView({ block: "nearest" });
  };
  return (
    <g
      class={`gap${held && one.grade !== "good" ? " held" : ""}`}
      role="button"
      tabindex={0}
      aria-pressed={held}
      aria-label={`${one.grade} ${one.number || ""}: ${one.says}`}
      onClick={take}
      onKeyDown={(event) => {
        if (event.key !== "Enter" && event.key !== " ") return;
        event.preventDefault();
        take();
      }}
    >
      <path class="gap-leader" d={line([leaderTo(gap, spot)])} />
      <circle class="gap-end" cx={gap[0]} cy={gap[1]} r="2.5" />
      <circle class="reach" cx={spot[0]} cy={spot[1]} r="20" />
      <g class={`mark-${one.grade}`} transform={`translate(${spot[0] - MARK / 2} ${spot[1] - MARK / 2})`}>
        <Shape grade={one.grade} />
        {one.number > 0 && (
          <text class="mark-number" x={MARK / 2} y={one.grade === "change" ? 13 : 15.2} text-anchor="middle">
            {one.number}
          </text>
        )}
      </g>
    </g>
  );
}

