// Where the measuring walk is: the reading in hand, the figure under the keys, what waits to be written.

import { computed, signal } from "@preact/signals";

import { edit, name, standing } from "../model/bench";
import { answer, at, AwayError, ClashError, FaultsError } from "../server";
import type { Edit, Fault } from "../server";
import type { Slip, Taken, Unit, Walk, WalkStep } from "./messages";
import { asWritten, press } from "./typed";

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
export const busy = signal(false);

export const steps = computed<readonly WalkStep[]>(() => walk.value?.steps ?? []);
export const step = computed<WalkStep | undefined>(() => steps.value[place.value]);
const key = (path: Edit["path"]): string => JSON.stringify(path);
export const heldAt = (one: WalkStep): string | undefined =>
  held.value.find((edit) => key(edit.path) === key(one.path))?.value ?? undefined;
export const done = (one: WalkStep): boolean => one.written !== "" || heldAt(one) !== undefined;

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

/** Takes a reading in hand, with what is written of it. */
export function take(number: number): void {
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

export function type(pressed: string): void {
  faults.value = [];
  text.value = press(text.value, pressed);
}

export function skip(): void {
  const next = steps.value.findIndex((one, number) => number > place.value && !done(one));
  take(next < 0 ? (place.value + 1) % Math.max(steps.value.length, 1) : next);
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
  if (one === undefined || busy.value) return;
  if (text.value.trim() === "" || value.value === one.written) {
    skip();
    return;
  }
  busy.value = true;
  faults.value = [];
  trouble.value = "";
  try {
    const reading: Edit = { path: one.path, value: value.value };
    const others = held.value.filter((edit) => key(edit.path) !== key(one.path));
    const taken = await answer<Taken>(at(name.value, "/walk"), {
      base: walk.value?.version ?? "",
      reading,
      held: others,
    });
    heard(taken);
    await fetched();
    if (taken.slips.length === 0) skip();
  } catch (error) {
    if (error instanceof FaultsError) faults.value = error.faults;
    else trouble.value = said(error);
    if (error instanceof ClashError) await fetched();
  } finally {
    busy.value = false;
  }
}

function heard(taken: Taken): void {
  keep(taken.held);
  waitsFor.value = taken.waits_for;
  slips.value = taken.slips;
  const now = standing.value;
  if (now !== null) standing.value = { ...now, version: taken.version };
}

/** One of the possible readings of what was typed. */
export function meant(reading: string): void {
  faults.value = [];
  text.value = reading;
}

/** Goes back to a reading that does not fit the others. */
export function readAgain(slip: Slip): void {
  slips.value = [];
  const number = steps.value.findIndex((one) => key(one.path) === key(slip.path));
  if (number < 0) return;
  take(number);
  text.value = "";
}

/** Says what a group of readings was taken over. */
export async function takenOver(over: string): Promise<void> {
  const told = step.value?.over;
  if (!told) return;
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
