// The test fit at the car: the probe in hand, what it reads, and what the last reading changed.

import { computed, signal } from "@preact/signals";

import { name, standing } from "../model/bench";
import { answer, at, FaultsError } from "../server";
import type { Fault } from "../server";
import type { Learned, Probe, Probes } from "./messages";
import { press } from "./typed";

export const AT_LEAST = "at least";
export const TOUCHES = "touches";

export const sheet = signal<Probes | null>(null);
export const words = signal("");
export const reads = signal("");
export const how = signal("");
export const learned = signal<Learned | null>(null);
export const trouble = signal("");
export const faults = signal<readonly Fault[]>([]);
export const working = signal(false);

export const probes = computed<readonly Probe[]>(() => sheet.value?.probes ?? []);
export const written = computed<readonly Probe[]>(() => sheet.value?.written ?? []);
export const readOf = (probe: string): string | undefined =>
  written.value.find((one) => one.words === probe)?.reads;

export async function open(): Promise<void> {
  learned.value = null;
  await fetched();
}

async function fetched(): Promise<void> {
  try {
    sheet.value = await answer<Probes>(at(name.value, "/test-fit"));
    trouble.value = sheet.value.missing;
  } catch (error) {
    trouble.value = error instanceof Error ? error.message : String(error);
  }
}

export function pick(probe: string): void {
  words.value = probe;
  reads.value = "";
  how.value = "";
  faults.value = [];
  trouble.value = "";
}

export function type(key: string): void {
  if (how.value === TOUCHES) how.value = "";
  faults.value = [];
  reads.value = press(reads.value, key);
}

/** To the next probe that has no reading. */
export function skip(): void {
  const here = probes.value.findIndex((one) => one.words === words.value);
  const rest = [...probes.value.slice(here + 1), ...probes.value.slice(0, here + 1)];
  pick(rest.find((one) => readOf(one.words) === undefined)?.words ?? "");
}

let last: Promise<void> = Promise.resolve();

/** Writes the reading after those under way; what was typed stays where it cannot be written. */
export function next(): Promise<void> {
  if (words.value === "") return Promise.resolve();
  if (how.value !== TOUCHES && reads.value.trim() === "") {
    skip();
    return Promise.resolve();
  }
  const said = how.value === TOUCHES ? TOUCHES : `${how.value} ${reads.value}`.trim();
  const [probe, typed] = [words.value, reads.value];
  last = last.then(() => write(probe, said, typed));
  return last;
}

async function write(probe: string, said: string, typed: string): Promise<void> {
  working.value = true;
  faults.value = [];
  trouble.value = "";
  try {
    const base = sheet.value?.version ?? "";
    learned.value = await answer<Learned>(at(name.value, "/test-fit"), { base, words: probe, reads: said });
    const now = standing.value;
    if (now !== null) standing.value = { ...now, version: learned.value.version };
    await fetched();
    if (words.value === probe && reads.value === typed) skip(); // else the next one is under the keys already
  } catch (error) {
    if (error instanceof FaultsError) faults.value = error.faults;
    else trouble.value = error instanceof Error ? error.message : String(error);
  } finally {
    working.value = false;
  }
}
