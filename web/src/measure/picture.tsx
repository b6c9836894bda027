// Where the tape goes: the drawing of one reading, with its figure in red as it is typed.

import { useLayoutEffect, useRef, useState } from "preact/hooks";

import { around, Inked } from "../sheet/box";
import type { Box } from "../sheet/box";
import { faces, LABEL, width } from "../sheet/type";
import { LEADING, placed } from "../sheet/words";
import type { Settled } from "../sheet/words";
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
  void faces.value;
  const at = placer(picture.extent, room);
  const taped = picture.taped;
  const taken = taped && figureRoom(taped, at, room, figure);
  const boxes = taken ? [taken.box, ...(taken.plus ? [taken.plus.box] : []), around(...at(taped.read_at), HEAD)] : [];
  const reads = taped && taken ? [{ words: taped.read_says, at: readAt(taped, at(taped.read_at), room) }] : [];
  const names = picture.labels.map((one) => ({ words: one.words, at: at(one.at) }));
  const told = placed([...reads, ...names], boxes, new Inked(), room, { size: LABEL, width });
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
      {told.filter((one) => one.words !== taped?.read_says).map((one) => (
        <Words key={one.words} one={one} />
      ))}
      {tape.map((one, k) => (
        <path key={`t${k}`} class="walk-tape" d={path(one.points, at, true)} />
      ))}
      {over.map((one, k) => (
        <path key={`o${k}`} class={`pen pen-${one.pen}`} d={path(one.points, at, one.closed)} />
      ))}
      {taped && taken && <Dimension taped={taped} at={at} taken={taken} figure={figure} />}
      {told.filter((one) => one.words === taped?.read_says).map((one) => (
        <Words key={one.words} one={one} kind="walk-read" />
      ))}
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
function inside(x: number, words: string, size: number, room: Room): number {
  const half = width(words, size) / 2 + EDGE;
  return Math.min(Math.max(x, half), room.width - half);
}

function Words({ one, kind = "" }: { one: Settled; kind?: string }) {
  return (
    <g>
      {one.leader && <path class="pen pen-thin" d={path(one.leader, (p) => p, false)} />}
      <text class={`walk-label ${kind}`} x={one.x} y={one.y} text-anchor="middle">
        {one.lines.map((words, k) => (
          <tspan key={k} x={one.x} dy={k === 0 ? 0 : LABEL * LEADING}>
            {words}
          </tspan>
        ))}
      </text>
    </g>
  );
}

type Taped = NonNullable<Picture["taped"]>;

interface Stood {
  readonly x: number; // the middle
  readonly y: number; // the baseline
  readonly box: Box;
}

/** Where the figure in red stands, and under it or beside it which way is plus. */
interface FigureRoom extends Stood {
  readonly plus: Stood | null;
}

function setAt(x: number, y: number, words: string, size: number, room: Room): Stood {
  const middle = inside(x, words, size, room);
  const half = width(words, size) / 2;
  return { x: middle, y, box: { left: middle - half, right: middle + half, top: y - 0.8 * size, bottom: y + 0.25 * size } };
}

function figureRoom(taped: Taped, at: (p: Point) => Point, room: Room, figure: string): FigureRoom {
  const [x, y] = at(taped.figure_at);
  const half = Math.max(width(taped.plus, LABEL), width(figure, FIGURE)) / 2;
  const beside = x < 2 * half + 20 ? x + 8 + half : x - 9 - half; // of an upright line: left of it where there is room
  const low = Math.min(taped.across ? y + FIGURE : y + 8, room.height - EDGE - 6);
  const one = setAt(taped.across ? x : beside, low, figure, FIGURE, room);
  if (taped.plus === "") return { ...one, plus: null };
  if (low + LABEL + 3 < room.height - EDGE) return { ...one, plus: setAt(one.x, low + LABEL + 3, taped.plus, LABEL, room) };
  return { ...one, plus: setAt(one.box.right + 10 + width(taped.plus, LABEL) / 2, low, taped.plus, LABEL, room) };
}

/** Where it says what to read: over the head of a level line, right of an upright one's. */
function readAt(taped: Taped, [x, y]: Point, room: Room): Point {
  const long = width(taped.read_says, LABEL);
  if (taped.across) return [inside(x, taped.read_says, LABEL, room), Math.max(y - 22, LABEL)];
  return x + 16 + long < room.width - EDGE ? [x + 16 + long / 2, y] : [room.width - EDGE - long / 2 - 2, y - 24];
}

interface DimensionProps {
  readonly taped: Taped;
  readonly at: (p: Point) => Point;
  readonly taken: FigureRoom;
  readonly figure: string;
}

function Dimension({ taped, at, taken, figure }: DimensionProps) {
  const middle = at(taped.figure_at);
  const [rx, ry] = at(taped.read_at);
  const [a, b, y, z] = [0, 1, -2, -1].map((k) => taped.line.at(k)).map((p) => (p ? at(p) : middle));
  const reads = taped.across ? `M${rx} ${ry - 1}l-6 -11h12z` : `M${rx + 1} ${ry}l11 -6v12z`;
  return (
    <g class="walk-taped">
      <path class="walk-red" d={path(taped.line, at, false)} />
      <path class="walk-head" d={head(a ?? middle, b ?? middle) + head(z ?? middle, y ?? middle) + reads} />
      <text class="walk-figure" x={taken.x} y={taken.y} text-anchor="middle">
        <Figure text={figure} />
      </text>
      {taken.plus && (
        <text class="walk-label" x={taken.plus.x} y={taken.plus.y} text-anchor="middle">
          {taped.plus}
        </text>
      )}
    </g>
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
