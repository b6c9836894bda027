// No two words, marks or figures meet, and none is clipped, whatever the builder calls things.

import { describe, expect, it } from "vitest";

import { holds, inside, Inked, meet } from "../src/sheet/box";
import type { Box, Point, Room, Width } from "../src/sheet/box";
import { dimensions } from "../src/sheet/dimension";
import { leaderTo, MARK, marked } from "../src/sheet/mark_room";
import { broken, placed } from "../src/sheet/words";

const CASES = 400;
const SIZE = 13;
const width: Width = (words, size) => words.length * size * 0.52;
const type = { size: SIZE, width };

/** The same numbers each time [mulberry32]. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function nameOf(rng: () => number): string {
  let words = "";
  while (words.length < 40) {
    const long = [3, 6, 9, 40][Math.floor(rng() * 4)] ?? 3;
    words += `${"abcdefghij".repeat(4).slice(0, long)} `;
  }
  return words.slice(0, 40).trim();
}

interface Sheet {
  readonly room: Room;
  readonly boxes: Box[];
  readonly leaders: (readonly [Point, Point])[];
  readonly wanted: number;
  readonly named: number;
}

/** A sheet as the page lays it out: figures first, then marks, then names. */
function laidOut(seed: number): Sheet {
  const rng = chance(seed);
  const room = { width: 280 + rng() * 1000, height: 200 + rng() * 500 };
  const spot = (): Point => [rng() * room.width, rng() * room.height];
  const sizes = Array.from({ length: Math.floor(rng() * 6) }, (_, k) => {
    const level = rng() < 0.6;
    const [x, y] = spot();
    const long = 5 + rng() * 300;
    return {
      words: ["8", "1250.5", "7 13/16"][k % 3] ?? "8",
      a: [x, y] as Point,
      b: (level ? [x + long, y] : [x, y - long]) as Point,
      off: (rng() < 0.5 ? -1 : 1) * (4 + Math.floor(rng() * 3) * 5),
      path: [],
      typed: "",
    };
  });
  const taken: Box[] = [];
  const drawn = dimensions(sizes, (p) => p, taken, room, type);
  const gaps = Array.from({ length: Math.floor(rng() * 16) }, spot);
  const inked = new Inked();
  for (let k = 0; k < 12; k += 1) inked.line([spot(), spot()]);
  const names = Array.from({ length: Math.floor(rng() * 8) }, () => ({ words: nameOf(rng), at: spot() }));
  const spots = marked(gaps, names.map((one) => one.at), taken, room);
  const labels = placed(names, taken, inked, room, type);
  const boxes = [
    ...drawn.map((one) => one.box),
    ...spots.flatMap((one): Box[] =>
      one === null
        ? []
        : [{ left: one[0] - MARK / 2, right: one[0] + MARK / 2, top: one[1] - MARK / 2, bottom: one[1] + MARK / 2 }],
    ),
    ...labels.map((one) => one.box),
  ];
  const leaders = [
    ...spots.flatMap((spot, k) => (spot && gaps[k] ? [leaderTo(gaps[k], spot)] : [])),
    ...labels.flatMap((one) => (one.leader ? [one.leader] : [])),
  ];
  return { room, boxes, leaders, wanted: names.length, named: labels.length };
}

describe("a sheet laid out by chance", () => {
  const sheets = Array.from({ length: CASES }, (_, seed) => laidOut(seed));

  it("has no two words, marks or figures that meet", () => {
    for (const { boxes } of sheets) {
      boxes.forEach((one, k) => {
        for (const other of boxes.slice(k + 1)) expect(meet(one, other)).toBe(false);
      });
    }
  });

  it("has none that is clipped", () => {
    for (const { boxes, room } of sheets) for (const one of boxes) expect(inside(one, room)).toBe(true);
  });

  it("has no leader that runs through words or a mark but its own", () => {
    for (const { boxes, leaders } of sheets) {
      for (const [a, b] of leaders) {
        const spots = Array.from({ length: 99 }, (_, k): Point => [a[0] + ((k + 1) / 100) * (b[0] - a[0]), a[1] + ((k + 1) / 100) * (b[1] - a[1])]);
        for (const box of boxes.filter((one) => !holds(one, a) && !holds(one, b))) {
          const inner = { left: box.left + 2, right: box.right - 2, top: box.top + 2, bottom: box.bottom - 2 };
          expect(spots.some((spot) => holds(inner, spot))).toBe(false);
        }
      }
    }
  });

  it("finds room for all but a few names", () => {
    const wanted = sheets.reduce((sum, one) => sum + one.wanted, 0);
    const named = sheets.reduce((sum, one) => sum + one.named, 0);
    expect(wanted).toBeGreaterThan(CASES);
    expect(named / wanted).toBeGreaterThan(0.97);
  });
});

describe("names", () => {
  it("are broken where they are too wide, and nothing of them is lost", () => {
    for (let seed = 0; seed < CASES; seed += 1) {
      const name = nameOf(chance(seed));
      const lines = broken(name, SIZE, 170, width);
      for (const line of lines) expect(width(line, SIZE)).toBeLessThanOrEqual(170);
      expect(lines.join("").replaceAll(" ", "")).toBe(name.replaceAll(" ", ""));
    }
  });

  it("have a leader once they stand away from what they name", () => {
    const room = { width: 400, height: 300 };
    const inked = new Inked();
    const taken: Box[] = [{ left: 100, right: 300, top: 60, bottom: 240 }];
    const [one] = placed([{ words: "heater box", at: [200, 150] }], taken, inked, room, type);
    expect(one?.leader?.[0]).toEqual([200, 150]);
    const [near] = placed([{ words: "heater box", at: [60, 270] }], [], inked, room, type);
    expect(near?.leader).toBeNull();
  });

  it("keep off lines where there is room beside them", () => {
    const inked = new Inked();
    inked.line([[0, 150], [400, 150]]);
    const [one] = placed([{ words: "dash", at: [200, 150] }], [], inked, { width: 400, height: 300 }, type);
    expect(one && (one.box.bottom < 150 || one.box.top > 150)).toBe(true);
  });
});

describe("dimensions", () => {
  const size = (a: Point, b: Point, off: number, words: string) => ({ words, a, b, off, path: [], typed: "" });
  const room = { width: 800, height: 400 };

  it("of one side stand in rows a figure apart", () => {
    const made = dimensions(
      [size([100, 200], [140, 200], -4.5, "40"), size([140, 200], [500, 200], -4.5, "370"), size([100, 200], [700, 200], -9.5, "690")],
      (p) => p,
      [],
      room,
      type,
    );
    const rows = made.map((one) => one.lines[2]?.[0][1] ?? 0);
    expect(rows[0]).toBe(rows[1]);
    expect(Math.abs((rows[2] ?? 0) - (rows[0] ?? 0))).toBeGreaterThan(SIZE);
  });

  it("put a figure that is wider than its line beside it", () => {
    const [one] = dimensions([size([300, 200], [306, 200], -4.5, "1250.5")], (p) => p, [], room, type);
    expect(one && (one.box.left >= 306 || one.box.right <= 300)).toBe(true);
  });
});
