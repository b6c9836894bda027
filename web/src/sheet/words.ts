// Room for words beside lines: each is moved until none is in another's way.

import { around, free, holds, inside, leaderBoxes, runsFree } from "./box";
import type { Box, Inked, Point, Room, Width } from "./box";

export interface Words {
  readonly words: string;
  readonly at: Point;
}

export interface Settled {
  readonly words: string;
  readonly lines: readonly string[];
  readonly x: number;
  readonly y: number; // the first baseline
  readonly box: Box;
  readonly leader: readonly [Point, Point] | null;
}

export const LEADING = 1.2;
const PAD = 3;
const STEP = 10;
const RINGS = 16;
const TURNS = 16;
const WIDEST = [170, 260, 110] as const; // px, before words are broken into lines: as it suits best
const NEAR = 16; // px: words no further from their place need no leader
const ANCHOR = 5; // px around a place that is still to be named, where no other words stand
const RISE = 0.78; // of the size, above the baseline
const DROP = 0.24;

/** Breaks words into lines no wider than a width; a longer word is cut. */
export function broken(words: string, size: number, widest: number, width: Width): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of words.split(" ").flatMap((one) => cut(one, size, widest, width))) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (line !== "" && width(longer, size) > widest) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

function cut(word: string, size: number, widest: number, width: Width): string[] {
  const parts: string[] = [];
  let rest = word;
  while (width(rest, size) > widest && rest.length > 1) {
    let many = rest.length - 1;
    while (many > 1 && width(rest.slice(0, many), size) > widest) many -= 1;
    parts.push(rest.slice(0, many));
    rest = rest.slice(many);
  }
  return [...parts, rest];
}

/** Returns the rectangle that lines of words take, centred at a place. */
function area(lines: readonly string[], at: Point, size: number, width: Width): Box {
  const half = Math.max(...lines.map((line) => width(line, size))) / 2 + PAD;
  const high = ((lines.length - 1) * LEADING + RISE + DROP) * size + 2 * PAD;
  return {
    left: at[0] - half,
    right: at[0] + half,
    top: at[1] - high / 2,
    bottom: at[1] + high / 2,
  };
}

interface Found {
  readonly lines: readonly string[];
  readonly box: Box;
  readonly over: number; // cells of lines under it
}

/** Returns the words that found room; what they and their leaders take is added to `taken`. */
export function placed(
  all: readonly Words[],
  taken: Box[],
  inked: Inked,
  room: Room,
  type: { readonly size: number; readonly width: Width },
): Settled[] {
  const found: Settled[] = [];
  for (const [k, one] of all.entries()) {
    const waiting = all.slice(k + 1).map(({ at: [x, y] }) => around(x, y, ANCHOR));
    const best = roomFor(one, { taken: [...taken, ...waiting], named: found.map(({ box }) => box), inked, room, type });
    if (best === null) continue;
    const { lines, box } = best;
    const led = leader(one.at, box);
    taken.push(box, ...(led === null ? [] : leaderBoxes(led)));
    found.push({
      words: one.words,
      lines,
      x: (box.left + box.right) / 2,
      y: box.top + PAD + RISE * type.size,
      box,
      leader: led,
    });
  }
  return found;
}

interface Around {
  readonly taken: readonly Box[];
  readonly named: readonly Box[]; // of these, the words: no leader begins under them
  readonly inked: Inked;
  readonly room: Room;
  readonly type: { readonly size: number; readonly width: Width };
}

/** The nearest room over no line; else near, over as few as can be; else anywhere that is free. */
function roomFor(one: Words, around: Around): Found | null {
  const { inked, room, type } = around;
  let crossed: Found | null = null;
  const shapes = WIDEST.map((widest) => broken(one.words, type.size, Math.min(widest, room.width - 2 * PAD - 2), type.width));
  const tried = shapes.filter((lines, k) => shapes.findIndex((other) => other.length === lines.length) === k);
  for (const lines of tried) {
    for (const box of beside(area(lines, one.at, type.size, type.width))) {
      if (!clear(box, one.at, around)) continue;
      const over = inked.under(box);
      if (over === 0) return { lines, box, over };
      if (crossed === null || over < crossed.over) crossed = { lines, box, over };
    }
  }
  if (crossed !== null) return crossed;
  for (const lines of tried) {
    for (const box of anywhere(area(lines, one.at, type.size, type.width), room)) if (clear(box, one.at, around)) return { lines, box, over: inked.under(box) };
  }
  return null;
}

function clear(box: Box, at: Point, { taken, named, room }: Around): boolean {
  if (!inside(box, room) || !free(box, taken)) return false;
  const led = leader(at, box);
  return led === null || (runsFree(led, taken) && !named.some((other) => holds(other, at)));
}

function* beside(first: Box): Generator<Box> {
  const wide = first.right - first.left;
  for (let ring = 0; ring < RINGS; ring += 1) {
    for (let turn = 0; turn < (ring === 0 ? 1 : TURNS); turn += 1) {
      const angle = (2 * Math.PI * turn) / TURNS;
      const along = ring * STEP + (ring > 0 ? wide / 4 : 0);
      yield moved(first, along * Math.cos(angle), ring * STEP * Math.sin(angle));
    }
  }
}

function* anywhere(first: Box, room: Room): Generator<Box> {
  const [wide, high] = [first.right - first.left, first.bottom - first.top];
  for (let top = 0; top + high <= room.height; top += high / 2) {
    for (let left = 0; left + wide <= room.width; left += Math.max(wide / 3, STEP)) {
      yield { left, top, right: left + wide, bottom: top + high };
    }
  }
}

const moved = (box: Box, dx: number, dy: number): Box => ({
  left: box.left + dx,
  right: box.right + dx,
  top: box.top + dy,
  bottom: box.bottom + dy,
});

function leader(at: Point, box: Box): readonly [Point, Point] | null {
  const x = Math.min(Math.max(at[0], box.left), box.right);
  const y = Math.min(Math.max(at[1], box.top), box.bottom);
  return Math.hypot(x - at[0], y - at[1]) > NEAR ? [at, [x, y]] : null;
}
