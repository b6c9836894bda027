// Where the measuring walk is: the reading in hand, the figure under the keys, what waits to be written.

import { computed, signal } from "@preact/signals";

import { edit, name, standing } from "../model/bench";
import { answer, at, AwayError, ClashError, FaultsError } from "../server";
import type { Edit, Fault } from "../server";
import type { Slip, Taken, Unit, Walk, WalkStep } from "./messages";
import { asWritten, DOUBT, press } from "./typed";

export const OWN = "my own";

export const walk = signal<Walk | null>(null);
export const place = signal(0);
export const text = signal("");
export const side = signal("");
export const unit = signal<Unit>("mm");
export const readBy = signal("tape");
export const held = signal<readonly Edit[]>([]);
export const waitsFor = signal<readonly string[]>([]);
export const faults = signal<readonly Fault[]>([]);
export const slips = signal<readonly Slip[]>([]);
export const trouble = signal("");
/** A figure that was asked about and is what the tape reads. */
const insisted = signal("");
export const busy = signal(false);

export const steps = computed<readonly WalkStep[]>(() => walk.value?.steps ?? []);
export const step = computed<WalkStep | undefined>(() => steps.value[place.value]);
const key = (path: Edit["path"]): string => JSON.stringify(path);
export const heldAt = (one: WalkStep): string | undefined =>
  held.value.find((edit) => key(edit.path) === key(one.path))?.value ?? undefined;
/** Readings taken once more since the walk was opened: they stay asked for until then. */
const reread = signal<ReadonlySet<string>>(new Set());
export const done = (one: WalkStep): boolean =>
  one.asked === "again" ? reread.value.has(key(one.path)) : one.written !== "" || heldAt(one) !== undefined;
/** Every first reading is in the file: what follows is worth it or not, the builder says. */
export const firstTaken = computed(
  () => steps.value.length > 0 && steps.value.every((one) => one.asked !== "first" || one.written !== ""),
);

const drawer = (): string => `walk:${name.value}`;

/** Fetches the walk; begins at the first reading that is not taken. */
export async function start(): Promise<void> {
  held.value = kept();
  await fetched();
  if (walk.value !== null) unit.value = walk.value.unit;
  const open = steps.value.findIndex((one) => !done(one));
  take(open < 0 ? 0 : open);
}

async function fetched(): Promise<void> {
  try {
    walk.value = await answer<Walk>(at(name.value, "/walk"));
  } catch (error) {
    trouble.value = said(error);
  }
}

/** Takes a reading in hand, with what is written of it; what was told of another is put away. */
export function take(number: number): void {
  slips.value = [];
  insisted.value = "";
  trouble.value = "";
  place.value = Math.max(0, Math.min(number, steps.value.length - 1));
  const one = step.value;
  const waiting = one && heldAt(one);
  faults.value = [];
  side.value = one?.side ?? "";
  text.value = waiting === undefined ? (one?.figure ?? "") : bare(waiting, one);
}

/** A held value without its side, as it stood under the keys. */
function bare(value: string, one: WalkStep | undefined): string {
  const found = one?.sides.find((way) => value.endsWith(` ${way}`));
  if (found === undefined) return value;
  side.value = found;
  return value.slice(0, -found.length - 1);
}

/** Keys pressed while a reading is on its way to the file: they belong to the one that follows. */
let early: string[] = [];
const ENTER = "Enter";

export function type(pressed: string): void {
  if (busy.value) {
    early.push(pressed);
    return;
  }
  faults.value = [];
  text.value = press(text.value, pressed);
}

/** To the next reading that is not taken, those before it last; to the next where all are. */
export function skip(): void {
  const open = (one: WalkStep, number: number): boolean => number !== place.value && !done(one);
  const after = steps.value.findIndex((one, number) => number > place.value && open(one, number));
  const before = steps.value.findIndex(open);
  const next = [after, before, place.value + 1].find((number) => number >= 0) ?? 0;
  take(next);
}

/** On from a reading that is taken: the first ones that were skipped come before all that follows. */
function goOn(): void {
  const open = (one: WalkStep, number: number): boolean =>
    one.asked === "first" && number !== place.value && !done(one);
  const left = steps.value.findIndex(open);
  const ahead = steps.value.some((one, number) => number > place.value && open(one, number));
  if (ahead || left < 0) skip();
  else take(left);
}

export const value = computed(() => {
  const one = step.value;
  const now = walk.value;
  if (one === undefined || now === null) return "";
  if (one.words) return text.value;
  const by = now.read_by.find((way) => way.name === readBy.value) ?? null;
  return asWritten({
    text: text.value,
    unit: one.measured || one.tail === "" ? unit.value : now.unit,
    buildUnit: now.unit,
    by: one.measured ? by : null,
    side: side.value,
    tail: one.tail,
  });
});

/** Writes the figure under the keys and goes on; typed text stays where it cannot be written. */
export async function next(): Promise<void> {
  const one = step.value;
  if (busy.value) early.push(ENTER);
  if (one === undefined || busy.value) return;
  if (text.value.trim() === "" || (value.value === one.written && heldAt(one) === undefined)) {
    if (text.value.trim() !== "") reread.value = new Set([...reread.value, key(one.path)]);
    skip();
    return;
  }
  busy.value = true;
  faults.value = [];
  trouble.value = "";
  let went = false;
  try {
    const reading: Edit = { path: one.path, value: value.value };
    const others = held.value.filter((edit) => key(edit.path) !== key(one.path));
    const taken = await answer<Taken>(at(name.value, "/walk"), {
      base: walk.value?.version ?? "",
      reading,
      meant: insisted.value === text.value,
      held: others,
    });
    const written = taken.version !== walk.value?.version;
    heard(taken);
    if (one.asked === "again") reread.value = new Set([...reread.value, key(one.path)]);
    if (written) await fetched();
    const here = steps.value.findIndex((step) => key(step.path) === key(taken.path) && step.asked === one.asked);
    if (here >= 0) place.value = here;
    if (taken.slips.length === 0) goOn();
    else told(taken.slips);
    went = taken.slips.length === 0;
  } catch (error) {
    if (error instanceof FaultsError) faults.value = error.faults;
    else trouble.value = said(error);
    if (error instanceof ClashError) await fetched();
  } finally {
    busy.value = false;
  }
  await typedMeanwhile(went);
}

/** Presses the keys that came early; where the walk did not go on they were meant for nothing. */
async function typedMeanwhile(went: boolean): Promise<void> {
  const keys = early;
  early = [];
  for (const one of went ? keys : []) {
    if (one === ENTER) await next();
    else type(one);
  }
}

function heard(taken: Taken): void {
  keep(taken.held);
  waitsFor.value = taken.waits_for;
  const now = standing.value;
  if (now !== null) standing.value = { ...now, version: taken.version };
}

/** Tells of readings that do not fit while the tape is out; the figure stays under the keys. */
function told(found: readonly Slip[]): void {
  take(place.value);
  slips.value = found;
}

/** Words in place of a figure. */
export function say(words: string): void {
  faults.value = [];
  text.value = words;
}

/** One of the possible readings of what was typed; the figure as typed is then what the tape says. */
export function meant(reading: string): void {
  faults.value = [];
  const [, figure = "", own] = /^(.*?)(?: (mm|in))?$/.exec(reading) ?? [];
  if (own === "mm" || own === "in") unit.value = own;
  const doubt = figure.includes(DOUBT) ? "" : (/ ?±.*$/.exec(text.value)?.[0] ?? "");
  text.value = figure + doubt;
  insisted.value = text.value;
}

/** Goes back to a reading that does not fit the others. */
export function readAgain(slip: Slip): void {
  const asked = (kind: boolean) => (one: WalkStep): boolean =>
    key(one.path) === key(slip.path) && (one.asked === "again") === kind;
  const again = steps.value.findIndex(asked(true));
  const number = again < 0 ? steps.value.findIndex(asked(false)) : again;
  if (number < 0) return;
  take(number);
  text.value = "";
}

/** What a group of readings is said to be taken over, in the file or with what waits for it. */
export const overNow = (over: NonNullable<WalkStep["over"]>): string =>
  held.value.find((edit) => key(edit.path) === key(over.path))?.value ?? over.now;

/** Says what a group of readings was taken over; it waits where the file holds none of them yet. */
export async function takenOver(over: string): Promise<void> {
  const told = step.value?.over;
  if (!told) return;
  if (!told.alone) {
    keep([...held.value.filter((edit) => key(edit.path) !== key(told.path)), { path: told.path, value: over }]);
    return;
  }
  await edit([{ path: told.path, value: over }], `Measured over ${over}`);
  await fetched();
}

function kept(): readonly Edit[] {
  try {
    return JSON.parse(localStorage.getItem(drawer()) ?? "[]") as readonly Edit[];
  } catch {
    return [];
  }
}

function keep(edits: readonly Edit[]): void {
  held.value = edits;
  try {
    localStorage.setItem(drawer(), JSON.stringify(edits));
  } catch {
    // a browser that keeps nothing: they stay as long as the page is open
  }
}

function said(error: unknown): string {
  if (error instanceof AwayError) return "No connection to the bench. The figure stays here.";
  if (error instanceof ClashError) return "This was changed meanwhile. Look at it, then press Next again.";
  return error instanceof Error ? error.message : String(error);
}
