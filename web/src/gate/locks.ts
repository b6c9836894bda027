// The moments that lock what was decided: which are behind the builder, what each would freeze.

import { computed, signal } from "@preact/signals";

import { deeds, edit, open } from "../model/bench";
import type { Finding } from "../server";

/** The lock whose gate page is open, "" if none is. */
export const gate = signal("");

export const locks = computed<readonly string[]>(() => deeds.value?.locks ?? []);
export const driven = (lock: string): boolean => deeds.value?.locked.includes(lock) ?? false;

const APART = "carpet"; // it goes in before or after wood is cut, as the work falls

/** The locks that come with one: those before it, but for what goes its own way. */
const upTo = (lock: string): readonly string[] =>
  lock === APART ? [lock] : locks.value.slice(0, locks.value.indexOf(lock) + 1).filter((one) => one !== APART);

/** What a lock would freeze: what is open before it, and before every lock that comes first. */
export function frozenBy(lock: string): readonly Finding[] {
  const coming = upTo(lock);
  return open.value.filter((one) => coming.includes(one.lock) && !driven(one.lock));
}

export const left = (one: Finding): boolean =>
  deeds.value?.left.some((name) => name.toLowerCase() === one.place.toLowerCase()) ?? false;

export function openGate(lock: string): void {
  gate.value = lock;
}

/** Writes that a lock is behind the builder, and all before it, with his words for every stop that goes under it. */
export async function drive(lock: string, words: ReadonlyMap<string, string>): Promise<void> {
  const now = deeds.value;
  if (now === null) return;
  const reasons = [...words].flatMap(([place, because], k) => [
    { path: ["left as is", now.left.length + k, "finding"], value: place },
    { path: ["left as is", now.left.length + k, "because"], value: because },
  ]);
  const pegs = upTo(lock) // what comes before it is done as well
    .filter((one) => !driven(one))
    .map((one, k) => ({ path: ["locked", now.locked.length + k, "lock"], value: one }));
  if (await edit([...reasons, ...pegs], `Done: ${lock}`)) gate.value = "";
}

/** Takes the last such word back: what was done turned out not to be. */
export async function draw(lock: string): Promise<void> {
  const at = deeds.value?.locked.indexOf(lock) ?? -1;
  if (at >= 0) await edit([{ path: ["locked", at], value: null }], `Not done yet: ${lock}`);
}
