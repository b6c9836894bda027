// Room for words beside lines: each is moved until none is in another's way.

import { free, inside } from "./box";
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
const WIDEST = 170; // px, before words are broken into lines
const NEAR = 16; // px: words no further from their place need no leader
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

/** Returns the words that found room; what they take is added to `taken`. */
export function placed(
  all: readonly Words[],
  taken: Box[],
  inked: Inked,
  room: Room,
  type: { readonly size: number; readonly width: Width },
): Settled[] {
  const found: Settled[] = [];
  const widest = Math.min(WIDEST, room.width - 2 * PAD - 2);
  for (const one of all) {
    const lines = broken(one.words, type.size, widest, type.width);
    const box = roomFor(area(lines, one.at, type.size, type.width), taken, inked, room);
    if (box === null) continue;
    taken.push(box);
    found.push({
      words: one.words,
      lines,
      x: (box.left + box.right) / 2,
      y: box.top + PAD + RISE * type.size,
      box,
      leader: leader(one.at, box),
    });
  }
  return found;
}

function roomFor(first: Box, taken: readonly Box[], inked: Inked, room: Room): Box | null {
  const clear = (box: Box): boolean => inside(box, room) && free(box, taken);
  let crossed: Box | null = null;
  for (const box of beside(first)) {
    if (!clear(box)) continue;
    if (!inked.under(box)) return box;
    crossed ??= box; // over a line, but near
  }
  if (crossed !== null) return crossed;
  for (const box of anywhere(first, room)) if (clear(box)) return box;
  return null;
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
