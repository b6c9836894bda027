// Places and level rectangles on the screen, in pixels.

export type Point = readonly [number, number];

export interface Room {
  readonly width: number;
  readonly height: number;
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The width of words set in a size. */
export type Width = (words: string, size: number) => number;

export function meet(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

export function inside(box: Box, room: Room): boolean {
  return box.left >= 0 && box.top >= 0 && box.right <= room.width && box.bottom <= room.height;
}

export function around(x: number, y: number, half: number): Box {
  return { left: x - half, top: y - half, right: x + half, bottom: y + half };
}

export const free = (box: Box, taken: readonly Box[]): boolean =>
  !taken.some((other) => meet(other, box));

export const holds = (box: Box, [x, y]: Point): boolean => x > box.left && x < box.right && y > box.top && y < box.bottom;

const BESIDE = 3; // px that stay free beside a leader
const ALONG = 4; // px between two places that are looked at along a leader

/** Places along a leader, the first and last left out. */
function* along([a, b]: readonly [Point, Point]): Generator<Point> {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
  for (let at = ALONG; at < long; at += ALONG) {
    yield [a[0] + (at / long) * (b[0] - a[0]), a[1] + (at / long) * (b[1] - a[1])];
  }
}

/** Whether a leader runs through none of the boxes but those that it begins in. */
export function runsFree(leader: readonly [Point, Point], taken: readonly Box[]): boolean {
  const met = taken.filter((box) => !holds(box, leader[0]));
  for (const spot of along(leader)) if (met.some((box) => holds(box, spot))) return false;
  return true;
}

/** The room that a leader takes, as small boxes along it. */
export const leaderBoxes = (leader: readonly [Point, Point]): Box[] =>
  Array.from(along(leader), ([x, y]) => around(x, y, BESIDE));

/** Cells of the screen that lines run through, so that words can keep off them. */
export class Inked {
  private readonly cells = new Set<number>();
  private static readonly CELL = 6;
  private static readonly ROW = 4096;

  line(points: readonly Point[], closed = false): void {
    const last = closed ? points.length : points.length - 1;
    for (let k = 0; k < last; k += 1) {
      const [a, b] = [points[k], points[(k + 1) % points.length]];
      if (a === undefined || b === undefined) continue;
      const steps = Math.min(
        Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / (Inked.CELL / 2)) + 1,
        Inked.ROW,
      );
      for (let n = 0; n <= steps; n += 1) {
        const share = n / steps;
        this.cells.add(this.cell(a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])));
      }
    }
  }

  /** How many inked cells a box covers. */
  under(box: Box): number {
    let found = 0;
    for (let y = box.top; y < box.bottom + Inked.CELL; y += Inked.CELL) {
      for (let x = box.left; x < box.right + Inked.CELL; x += Inked.CELL) {
        if (this.cells.has(this.cell(Math.min(x, box.right), Math.min(y, box.bottom)))) found += 1;
      }
    }
    return found;
  }

  private cell(x: number, y: number): number {
    return Math.floor(y / Inked.CELL) * Inked.ROW + Math.floor(x / Inked.CELL);
  }
}
