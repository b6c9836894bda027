// Edits that wait: kept while the bench cannot be reached, across a reload of this tab as well.

import { signal } from "@preact/signals";

import type { Edit, Fault } from "../server";

export interface Patch {
  readonly edits: readonly Edit[];
  readonly says: string;
}
export interface Kept {
  readonly base: string; // the last version that was seen
  readonly patches: readonly Patch[];
}
/** A patch that met what another hand changed, or that the file cannot hold. */
export interface Clashed extends Patch {
  readonly theirs: readonly Edit[];
  readonly faults: readonly Fault[];
}

export const kept = signal<Kept | null>(null);
export const clashes = signal<readonly Clashed[]>([]);

const MOST = 200; // as many as the bench takes at once
const drawer = (build: string): string => `kept:${build}`;

function put(build: string, now: Kept | null): void {
  kept.value = now;
  try {
    if (now === null) sessionStorage.removeItem(drawer(build));
    else sessionStorage.setItem(drawer(build), JSON.stringify(now));
  } catch {
    // a browser that stores nothing keeps them while the page is open
  }
}

/** Takes out what was kept of a build before the page was loaded again. */
export function unpack(build: string): void {
  clashes.value = [];
  kept.value = null;
  try {
    const found = sessionStorage.getItem(drawer(build));
    if (found !== null) kept.value = JSON.parse(found) as Kept;
  } catch {
    // nothing was stored
  }
}

/** Keeps a patch; false where there is no room for more. */
export function keep(build: string, version: string, patch: Patch): boolean {
  const now = kept.value ?? { base: version, patches: [] };
  if (now.patches.length >= MOST) return false;
  put(build, { ...now, patches: [...now.patches, patch] });
  return true;
}

/** Lets go of the newest; gives it back. */
export function letGo(build: string): Patch | undefined {
  const now = kept.value;
  if (now === null) return undefined;
  const left = now.patches.slice(0, -1);
  put(build, left.length === 0 ? null : { ...now, patches: left });
  return now.patches.at(-1);
}

/** Those that were sent are no longer kept; what was kept since then follows a newer version. */
export function sent(build: string, count: number, version: string): void {
  const left = kept.value?.patches.slice(count) ?? [];
  put(build, left.length === 0 ? null : { base: version, patches: left });
}
