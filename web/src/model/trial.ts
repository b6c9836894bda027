// A remedy tried out: what it would change and how it would look, before it is taken.

import { effect, signal } from "@preact/signals";

import { server } from "../server";
import type { Remedy, Trial, Views } from "../server";
import { asked, hand, name, sectionAt, standing } from "./bench";

/** The remedy that is tried out now. */
export const trying = signal<Remedy | null>(null);
export const trial = signal<Trial | null>(null);
export const trialViews = signal<Views | null>(null);

let asking = new AbortController(); // one trial at a time is worth waiting for
const KEPT = 40;
const told = new Map<string, Promise<Trial>>();

function trialOf(version: string, remedy: Remedy): Promise<Trial> {
  const key = version + JSON.stringify(remedy.edits);
  let found = told.get(key);
  if (found === undefined) {
    asking.abort();
    asking = new AbortController();
    found = server.trial(name.value, remedy.edits, asking.signal);
    found.catch(() => told.delete(key));
    told.set(key, found);
    if (told.size > KEPT) told.delete(told.keys().next().value ?? "");
  }
  return found;
}

let turn = 0;
effect(() => {
  const remedy = trying.value;
  const version = standing.value?.version ?? "";
  void hand.value;
  void sectionAt.value;
  turn += 1;
  const mine = turn;
  if (remedy === null) {
    trial.value = null;
    trialViews.value = null;
    return;
  }
  server
    .views(name.value, asked(remedy.edits))
    .then((views) => {
      if (mine === turn) trialViews.value = views;
    })
    .catch(() => undefined);
  trialOf(version, remedy)
    .then((found) => {
      if (mine === turn) trial.value = found;
    })
    .catch(() => undefined);
});
/** Tries out another remedy; what was told of the one before goes. */
export function tryOut(remedy: Remedy | null): void {
  if (trying.value === remedy) return;
  trial.value = null;
  trialViews.value = null;
  trying.value = remedy;
}
