// The meter's readings: which one is in hand, what is typed for it, and what came of those written.

import { computed, effect, signal } from "@preact/signals";

import type { components } from "../api";
import { edit, faults, name, standing } from "../model/bench";
import { waiting } from "../model/kept";
import { OvertakenError, answer, at } from "../server";
import { pageOf, pick, putRight, tryOn } from "./fault_state";
import { bare, written } from "./meter_typed";
import { mode, page, put } from "./state";

type Schemas = components["schemas"];
export type Meter = Schemas["MeterMessage"];
export type Reading = Schemas["ReadingMessage"];
export type Likely = Schemas["LikelyMessage"];

export const meter = signal<Meter | null>(null);
/** Whether the meter is out, or the switches are worked. */
export const metering = signal(false);
export const inHand = signal("");
export const typed = signal("");
export const trouble = signal("");
/** The reading written last, until it is judged. */
const judging = signal<{ readonly name: string; readonly reads: string } | null>(null);
/** What was just found as expected, to be told while the next is read. */
export const passed = signal("");
/** Readings written while the bench could not be reached: where in the file's list each goes. */
const away = signal<ReadonlyMap<string, number>>(new Map());

export const reading = computed<Reading | null>(
  () => meter.value?.readings.find((one) => one.name === inHand.value) ?? meter.value?.readings[0] ?? null,
);
/** The readings to go through: those worth taking, those taken, and the one in hand. */
export const round = computed<readonly Reading[]>(
  () => meter.value?.readings.filter((one) => one.chosen || one.reads !== "" || one === reading.value) ?? [],
);
export const left = computed(() => round.value.filter((one) => one.reads === "" && !away.value.has(one.name)).length);
/** What is typed differs from what is written, or is no voltage. */
export const unwritten = computed(() => {
  if (reading.value === null || typed.value.trim() === "") return false;
  const now = written(typed.value);
  return now === null || now !== written(reading.value.reads);
});

/** Takes a reading in hand; the car on the diagram stands as it is asked to. */
export function take(one: Reading): void {
  inHand.value = one.name;
  typed.value = bare(one.reads);
  trouble.value = "";
  putRight();
  mode.value = one.mode;
  put.value = one.put;
  pick(one.of);
  if (one.page > 0) page.value = one.page;
}

export function takeNamed(which: string): void {
  const one = meter.value?.readings.find((other) => other.name === which);
  if (one !== undefined) take(one);
}

/** Goes on by so many readings; round again after the last. */
export function go(by: number): void {
  const all = round.value;
  const here = all.findIndex((one) => one === reading.value);
  const next = all[(here + by + all.length) % all.length];
  if (next !== undefined) take(next);
}

/** Writes what is typed; what is as expected is told and the next one comes, a wrong one stays in hand. */
export async function next(): Promise<void> {
  const one = reading.value;
  if (one === null) return;
  passed.value = "";
  if (!unwritten.value) return go(1);
  const reads = written(typed.value);
  if (reads === null) {
    trouble.value = `${typed.value} is no voltage: write it in volts, such as 11.9.`;
    return;
  }
  trouble.value = "";
  judging.value = { name: one.name, reads };
  const held = waiting.value.length;
  const done = await edit(edits(one, reads), `Meter at ${one.name}: ${reads}`);
  if (!done) {
    judging.value = null;
    trouble.value = faults.value.map((fault) => `Expected ${fault.expected}.`).join(" ") || "It was not written.";
  } else if (waiting.value.length > held) keptHere(one);
}

function keptHere(one: Reading): void {
  judging.value = null;
  if (one.index === null) away.value = new Map(away.value).set(one.name, slot(one));
  passed.value = `${one.name} is kept here, and judged once the bench is heard again`;
  go(1);
}

/** The item of the file's list that a reading goes to; those kept here while away count too. */
const slot = (one: Reading): number =>
  one.index ?? away.value.get(one.name) ?? (meter.value?.count ?? 0) + away.value.size;

function edits(one: Reading, reads: string) {
  const path = ["wiring", "readings", slot(one)];
  const known = one.index !== null || away.value.has(one.name);
  const named = known ? [] : [{ path: [...path, "reading"], value: one.name }];
  return [...named, { path: [...path, "reads"], value: reads }];
}

/** Takes a reading out of the file again. */
export async function takeOut(one: Reading): Promise<void> {
  if (one.index === null) return;
  const out = [{ path: ["wiring", "readings", one.index], value: null }];
  if (await edit(out, `Meter at ${one.name}: taken out`)) typed.value = "";
}

/** Shows a likely fault on the diagram, with the car as it stands for the reading. */
export function tryLikely(one: Likely): void {
  metering.value = false;
  tryOn(one.fault);
  const shows = pageOf(one.fault);
  if (shows > 0) page.value = shows;
}

let build = "";
const version = computed(() => standing.value?.version);

/** Keeps the readings those of the build while the meter is out. */
export function keepMeter(): () => void {
  if (build !== name.value) forget();
  build = name.value;
  let asking = new AbortController();
  return effect(() => {
    if (version.value === undefined) return;
    asking.abort();
    asking = new AbortController();
    answer<Meter>(at(name.value, "/wire/meter"), undefined, asking.signal).then(taken, (error: unknown) => {
      if (!(error instanceof OvertakenError)) trouble.value = error instanceof Error ? error.message : String(error);
    });
  });
}

function forget(): void {
  meter.value = judging.value = null;
  inHand.value = typed.value = passed.value = trouble.value = "";
  away.value = new Map();
}

function taken(told: Meter): void {
  const own = reading.value;
  meter.value = told;
  if (waiting.value.length === 0) away.value = new Map();
  if (wanted !== "" || own === null) return begin(told);
  const now = reading.value;
  if (now !== null && now.reads !== own.reads) typed.value = bare(now.reads);
  const asked = judging.value;
  const judged = told.readings.find((one) => one.name === asked?.name && one.reads === asked.reads);
  if (judged === undefined) return;
  judging.value = null;
  if (judged.verdict !== "good") return;
  passed.value = `${judged.name} ${bare(judged.reads)} V: as expected`;
  if (inHand.value === judged.name) go(1);
}

let wanted = "";

/** Takes the meter out, with the reading in hand that a finding is about. */
export function wantReading(which: string): void {
  wanted = which;
  metering.value = true;
}

/** Begins with what a finding asked for, else with the first that is not read yet. */
function begin(told: Meter): void {
  const asked = told.readings.find((one) => one.name === wanted);
  wanted = "";
  const first = told.readings.find((one) => one.chosen && one.reads === "") ?? told.readings[0];
  const start = asked ?? first;
  if (start !== undefined) take(start);
}
