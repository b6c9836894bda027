// Where the tape goes: the drawing of one reading, with its figure in red as it is typed.

import { useLayoutEffect, useRef, useState } from "preact/hooks";

import { LABEL, width } from "../sheet/type";
import type { Picture } from "./messages";
import { parts } from "./typed";

type Point = readonly [number, number];
interface Room {
  readonly width: number;
  readonly height: number;
}
const PAD = { side: 46, top: 34, bottom: 26 };
const SIDE_SHARE = 0.14; // of a wide drawing, left for words beside it
const HEAD = 11; // px: length of the dimension's heads

export function TapeDrawing({ picture, figure }: { picture: Picture; figure: string }) {
  const frame = useRef<HTMLDivElement>(null);
  const [room, setRoom] = useState<Room>({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const element = frame.current;
    if (element === null) return undefined;
    const watch = new ResizeObserver(([entry]) => {
      if (entry) setRoom({ width: entry.contentRect.width, height: entry.contentRect.height });
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return (
    <div class="tape-drawing" ref={frame}>
      {room.width > 0 && room.height > 0 && <Lines picture={picture} room={room} figure={figure} />}
    </div>
  );
}

function placer([left, top, right, bottom]: Picture["extent"], room: Room): (p: Point) => Point {
  const [wide, high] = [right - left, bottom - top];
  const side = Math.max(PAD.side, SIDE_SHARE * room.width);
  const scale = Math.min(
    (room.width - 2 * side) / wide,
    (room.height - PAD.top - PAD.bottom) / high,
  );
  const dx = (room.width - scale * wide) / 2 - scale * left;
  const dy = PAD.top + (room.height - PAD.top - PAD.bottom - scale * high) / 2 - scale * top;
  return ([x, y]) => [x * scale + dx, y * scale + dy];
}

function path(points: readonly Point[], at: (p: Point) => Point, closed: boolean): string {
  return `M${points.map((p) => at(p).map((v) => v.toFixed(1)).join(" ")).join("L")}${closed ? "Z" : ""}`;
}

function Lines({ picture, room, figure }: { picture: Picture; room: Room; figure: string }) {
  const at = placer(picture.extent, room);
  const cars = picture.areas.filter((one) => one.fill !== "tape");
  const tape = picture.areas.filter((one) => one.fill === "tape");
  const under = picture.strokes.slice(0, picture.strokes.length - picture.tape_strokes);
  const over = picture.strokes.slice(picture.strokes.length - picture.tape_strokes);
  return (
    <svg class="tape-view" role="img" aria-label={picture.says} viewBox={`0 0 ${room.width} ${room.height}`}>
      <Hatches />
      {cars.map((one, k) => (
        <path key={`a${k}`} class={`walk-area walk-${one.fill}`} d={path(one.points, at, true)} />
      ))}
      {under.map((one, k) => (
        <path key={`s${k}`} class={`pen pen-${one.pen}`} d={path(one.points, at, one.closed)} />
      ))}
      {picture.labels.map((one) => (
        <Words key={one.words} words={one.words} at={at(one.at)} room={room} />
      ))}
      {tape.map((one, k) => (
        <path key={`t${k}`} class="walk-tape" d={path(one.points, at, true)} />
      ))}
      {over.map((one, k) => (
        <path key={`o${k}`} class={`pen pen-${one.pen}`} d={path(one.points, at, one.closed)} />
      ))}
      {picture.taped && <Dimension taped={picture.taped} at={at} room={room} figure={figure} />}
    </svg>
  );
}

function Hatches() {
  return (
    <defs>
      <pattern id="walk-hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <path class="walk-hatch-line" d="M0 0V5" />
      </pattern>
      <pattern id="walk-pile" width="4" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(12)">
        <path class="walk-hatch-line" d="M1 0V4M3 2V6" />
      </pattern>
    </defs>
  );
}

const EDGE = 4; // px that stay free at the drawing's edges
const FIGURE = 25; // px, the size of the figure in red

/** Returns where the middle of words stands so that they stay inside. */
function inside(x: number, words: string, room: Room): number {
  const half = width(words, LABEL) / 2 + EDGE;
  return Math.min(Math.max(x, half), room.width - half);
}

function Words({ words, at: [x, y], room }: { words: string; at: Point; room: Room }) {
  const low = Math.min(Math.max(y, 12), room.height - 6);
  return (
    <text class="walk-label" x={inside(x, words, room)} y={low} text-anchor="middle">
      {words}
    </text>
  );
}

interface DimensionProps {
  readonly taped: NonNullable<Picture["taped"]>;
  readonly at: (p: Point) => Point;
  readonly room: Room;
  readonly figure: string;
}

function Dimension({ taped, at, room, figure }: DimensionProps) {
  const [middle, read] = [at(taped.figure_at), at(taped.read_at)];
  const [a, b, y, z] = [0, 1, -2, -1].map((k) => taped.line.at(k)).map((p) => (p ? at(p) : middle));
  return (
    <g class="walk-taped">
      <path class="walk-red" d={path(taped.line, at, false)} />
      <path class="walk-head" d={head(a ?? middle, b ?? middle) + head(z ?? middle, y ?? middle)} />
      {taped.across ? (
        <Across taped={taped} middle={middle} read={read} room={room} figure={figure} />
      ) : (
        <Upright taped={taped} middle={middle} read={read} room={room} figure={figure} />
      )}
    </g>
  );
}

interface Marked {
  readonly taped: NonNullable<Picture["taped"]>;
  readonly middle: Point;
  readonly read: Point;
  readonly room: Room;
  readonly figure: string;
}

function Across({ taped, middle: [x, y], read: [rx, ry], room, figure }: Marked) {
  const deep = y + 41 > room.height - EDGE; // no room for a line more below: it stands beside the figure
  const low = Math.min(y + FIGURE, room.height - EDGE);
  const beside = x + width(figure, FIGURE) / 2 + 10 + width(taped.plus, LABEL) / 2;
  return (
    <>
      <text class="walk-figure" x={x} y={low} text-anchor="middle">
        <Figure text={figure} />
      </text>
      {taped.plus !== "" && (
        <text class="walk-label" x={deep ? inside(beside, taped.plus, room) : inside(x, taped.plus, room)} y={deep ? low : y + 41} text-anchor="middle">
          {taped.plus}
        </text>
      )}
      <path class="walk-head" d={`M${rx} ${ry - 1}l-6 -11h12z`} />
      <text class="walk-label walk-read" x={inside(rx, taped.read_says, room)} y={Math.max(ry - 17, LABEL)} text-anchor="middle">
        {taped.read_says}
      </text>
    </>
  );
}

function Upright({ taped, middle: [x, y], read: [rx, ry], room, figure }: Marked) {
  const left = x < 20 + Math.max(width(taped.plus, LABEL), width(figure, FIGURE));
  const [fx, anchor] = left ? [x + 8, "start" as const] : [x - 9, "end" as const];
  const fits = rx + 16 + width(taped.read_says, LABEL) < room.width - EDGE;
  return (
    <>
      <text class="walk-figure" x={fx} y={y + 8} text-anchor={anchor}>
        <Figure text={figure} />
      </text>
      {taped.plus !== "" && (
        <text class="walk-label" x={fx} y={y + 25} text-anchor={anchor}>
          {taped.plus}
        </text>
      )}
      <path class="walk-head" d={`M${rx + 1} ${ry}l11 -6v12z`} />
      <text
        class="walk-label walk-read"
        x={fits ? rx + 16 : room.width - 4}
        y={fits ? ry + 4 : ry - 20}
        text-anchor={fits ? "start" : "end"}
      >
        {taped.read_says}
      </text>
    </>
  );
}

function Figure({ text }: { text: string }) {
  return (
    <>
      {parts(text).map((one, k) => (
        <tspan key={k} class={one.fraction ? "frac" : ""}>
          {one.words}
        </tspan>
      ))}
    </>
  );
}

function head([x, y]: Point, [tx, ty]: Point): string {
  const long = Math.hypot(tx - x, ty - y) || 1;
  const [ux, uy] = [((tx - x) / long) * HEAD, ((ty - y) / long) * HEAD];
  const [nx, ny] = [-uy / 3.5, ux / 3.5];
  return `M${x} ${y}L${x + ux + nx} ${y + uy + ny}L${x + ux - nx} ${y + uy - ny}Z`;
}
