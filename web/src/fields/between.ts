// A new item between those of a list: every item behind it moves one place on.

import type { Edit, Fault } from "../server";
import { texts } from "./typed";
import type { Field, Path } from "./typed";

type Held = ReadonlyMap<string, string>;

/** What is written in an item, by the path within it. */
function held(item: Field | undefined): Held {
  const found = new Map<string, string>();
  if (item === undefined) return found;
  for (const one of texts(item)) {
    if (one.value !== null) found.set(JSON.stringify(one.path.slice(item.path.length)), one.value);
  }
  return found;
}

/** Edits that make an item say one thing where it said another. */
function* rewritten(path: Path, now: Held, old: Held): Generator<Edit> {
  for (const [within, value] of now) {
    if (old.get(within) !== value) yield { path: [...path, ...(JSON.parse(within) as Path)], value };
  }
  for (const within of old.keys()) {
    if (!now.has(within)) yield { path: [...path, ...(JSON.parse(within) as Path)], value: null };
  }
}

/** Edits that put a new item, as edits of one behind the last, before another item of its list. */
export function between(list: Field, at: number, edits: readonly Edit[]): readonly Edit[] {
  const depth = list.path.length + 1;
  const fresh = new Map(
    edits.map((one) => [JSON.stringify(one.path.slice(depth)), one.value ?? ""]),
  );
  const made: Edit[] = [];
  for (let place = list.below.length; place >= at; place -= 1) {
    const now = place === at ? fresh : held(list.below[place - 1]);
    made.push(...rewritten([...list.path, place], now, held(list.below[place])));
  }
  return made;
}

/** A fault's place as the fields show it: the new item behind the last, those behind it unmoved. */
export function backAtEnd(list: Field, at: number, fault: Fault): Fault {
  const depth = list.path.length;
  const place = fault.path[depth];
  const inside = list.path.every((step, n) => fault.path[n] === step);
  if (!inside || typeof place !== "number" || place < at) return fault;
  const shown = place === at ? list.below.length : place - 1;
  return { ...fault, path: [...list.path, shown, ...fault.path.slice(depth + 1)] };
}
