// Something on a drawing under the hand: what it would write, and every gap that it changes, live.

import { signal } from "@preact/signals";

import { FaultsError, server } from "../server";
import type { Drag, View, Views } from "../server";
import { asked, edit, name } from "./bench";

export type Handle = NonNullable<View["handles"]>[number];
type Move = readonly [number, number]; // mm on the view, right and down

export interface Dragging {
  readonly handle: Handle;
  readonly by: Move;
  readonly whole: boolean;
}

const STILL_MM = 0.2; // less than this is a tap

export const dragging = signal<Dragging | null>(null);
export const live = signal<Drag | null>(null);
export const liveViews = signal<Views | null>(null);
/** Why what is under the hand cannot be there. */
export const refused = signal("");

/** By how much each figure goes up. */
const movesOf = ({ handle, by }: Dragging) =>
  handle.pulls.map((pull) => ({
    path: pull.path,
    by_mm: by[0] * pull.way[0] + by[1] * pull.way[1],
  }));

const toldOf = ({ faults: [first] }: FaultsError): string =>
  first === undefined ? "" : `Cannot be ${first.found}: expected ${first.expected}.`;

let working: Promise<void> | null = null;
let newest = false;

/** Asks for what the newest place amounts to; questions that were overtaken are not asked. */
async function follow(): Promise<void> {
  while (!newest) {
    newest = true;
    const now = dragging.value;
    if (now === null) return;
    try {
      const moves = movesOf(now);
      const told = await server.drag(name.value, { moves, whole: now.whole });
      if (dragging.value?.handle !== now.handle) return;
      live.value = told;
      refused.value = told.cannot;
      if (newest) {
        const { at_mm, gap } = asked();
        const drawn = await server.drag(name.value, { moves, whole: now.whole, seen: { at_mm, gap } });
        if (dragging.value?.handle === now.handle) liveViews.value = drawn.views ?? null;
      }
    } catch (error) {
      live.value = null;
      refused.value = error instanceof FaultsError ? toldOf(error) : String(error);
    }
  }
}

export function take(handle: Handle): void {
  dragging.value = { handle, by: [0, 0], whole: false };
  live.value = null;
  refused.value = "";
}

export function moveBy(by: Move, whole: boolean): void {
  const now = dragging.value;
  if (now === null) return;
  dragging.value = { ...now, by, whole };
  newest = false;
  working ??= follow().finally(() => {
    working = null;
  });
}

/** Writes what was dragged, once the last place is worked out. */
export async function drop(): Promise<void> {
  const now = dragging.value;
  if (now === null) return;
  if (Math.hypot(...now.by) < STILL_MM) return leave();
  await working;
  const told = live.value;
  if (told !== null) {
    const says = `${now.handle.name}: ${told.edits.map((one) => one.value).join(", ")}`;
    await edit(told.edits, says.slice(0, 200));
  }
  leave();
}

export function leave(): void {
  dragging.value = null;
  live.value = null;
  liveViews.value = null;
  newest = true;
}
