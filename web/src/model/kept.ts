// Edits that wait: kept while the bench cannot be reached, also when this page is closed meanwhile.

import { computed, signal } from "@preact/signals";

import type { Edit, Fault } from "../server";

export interface Patch {
  readonly edits: readonly Edit[];
  readonly says: string;
  /** Ours for these edits: sent again after a lost answer, they are not made again. */
  readonly mark: string;
}
let count = 0;
/** Patches that were made to one version, in their order. */
export interface Kept {
  readonly base: string;
  readonly patches: readonly Patch[];
}
/** A patch that met what another hand changed, or that the file cannot hold. */
export interface Clashed extends Patch {
  readonly theirs: readonly Edit[];
  readonly faults: readonly Fault[];
}

const kept = signal<readonly Kept[]>([]);
export const waiting = computed<readonly Patch[]>(() => kept.value.flatMap((one) => one.patches));
export const clashes = signal<readonly Clashed[]>([]);

const MOST = 200; // as many as the bench takes at once
/** Each page keeps its own, so that none writes over another's. */
const mine = Math.random().toString(36).slice(2);
export const patched = (edits: readonly Edit[], says: string): Patch => ({ edits, says, mark: `${mine}-${(count += 1)}` });
const drawers = (build: string): string => `kept:${build}:`;
const drawer = (build: string): string => drawers(build) + mine;

function put(build: string, now: readonly Kept[]): void {
  kept.value = now.filter((one) => one.patches.length > 0);
  try {
    if (kept.value.length === 0) localStorage.removeItem(drawer(build));
    else localStorage.setItem(drawer(build), JSON.stringify(kept.value));
  } catch {
    // a browser that stores nothing keeps them while the page is open
  }
}

/** Takes over what pages that are gone kept of a build; what is sent twice goes in once. */
export function unpack(build: string): void {
  clashes.value = [];
  const found: Kept[] = [];
  try {
    const theirs = Object.keys(localStorage).filter((one) => one.startsWith(drawers(build)));
    for (const one of theirs) {
      found.push(...(JSON.parse(localStorage.getItem(one) ?? "[]") as Kept[]));
      localStorage.removeItem(one);
    }
  } catch {
    // nothing was stored
  }
  put(build, found);
}

/** Keeps a patch; false where there is no room for more. */
export function keep(build: string, version: string, patch: Patch): boolean {
  if (waiting.value.length >= MOST) return false;
  const before = kept.value.slice(0, -1);
  const last = kept.value.at(-1);
  if (last?.base === version) put(build, [...before, { ...last, patches: [...last.patches, patch] }]);
  else put(build, [...kept.value, { base: version, patches: [patch] }]);
  return true;
}

/** Lets go of the newest; gives it back. */
export function letGo(build: string): Patch | undefined {
  const last = kept.value.at(-1);
  if (last === undefined) return undefined;
  put(build, [...kept.value.slice(0, -1), { ...last, patches: last.patches.slice(0, -1) }]);
  return last.patches.at(-1);
}

/** The patches that are to be sent next; they are kept until `sent` says that they came in. */
export const first = (): Kept | undefined => kept.value[0];

/** The first of the first patches came in. */
export function sent(build: string, count: number): void {
  const [done, ...others] = kept.value;
  if (done) put(build, [{ ...done, patches: done.patches.slice(count) }, ...others]);
}
