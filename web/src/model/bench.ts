// What the page knows of the build on the bench, and what can be done to it.

import { computed, signal } from "@preact/signals";

import { clashes, first, keep, letGo, patched, sent, unpack, waiting } from "./kept";
import type { Clashed, Patch } from "./kept";
import { AwayError, ClashError, FaultsError, listen, OvertakenError, server } from "../server";
import { askSharing } from "../share/sharing";
import type { Deeds, Drawn, Edit, Fault, Finding, Fit, OnShelf, Remedy, Standing, Views } from "../server";

/** Every build; null until they were heard of. */
export const shelf = signal<readonly OnShelf[] | null>(null);
export const name = signal("");
export const standing = signal<Standing | null>(null);
export const fit = signal<Fit | null>(null);
export const views = signal<Views | null>(null);
/** How the console is drawn. */
export const drawn = signal<Drawn>("covered");
export const sectionAt = signal<number | null>(null);
/** Which finding is in hand: by its rule and place, as numbers change with every edit. */
export const inHand = signal("");
export const deeds = signal<Deeds | null>(null);
export const heard = signal(true);
export const notice = signal("");
export const faults = signal<readonly Fault[]>([]);

/** A finding that a remedy was taken for, and where in the slip it stood. */
export interface Mended {
  readonly finding: Finding;
  readonly index: number; // among the lines of its lock
  readonly says: string;
}
export const mended = signal<readonly Mended[]>([]);

export const keyOf = (one: Finding): string => `${one.rule}|${one.place}`;
export const open = computed<readonly Finding[]>(
  () => fit.value?.findings.filter((one) => one.grade !== "good") ?? [],
);
export const passed = computed<readonly Finding[]>(() => {
  const shown = new Set(mended.value.map((one) => keyOf(one.finding)));
  return fit.value?.findings.filter((one) => one.grade === "good" && !shown.has(keyOf(one))) ?? [];
});
export const hand = computed<Finding | null>(
  () => fit.value?.findings.find((one) => keyOf(one) === inHand.value) ?? null,
);
/** What the build is called; two of one name are told apart by their files. */
export const called = computed(() => titled(name.value, standing.value?.title ?? name.value));
export function titled(build: string, title: string): string {
  const twin = shelf.value?.some((one) => one.title === title && one.name !== build) ?? false;
  return twin ? `${title} · ${build}` : title;
}

/** The file was never usable: nothing is drawn or weighed until it is mended. */
export const mendFirst = computed(() => (standing.value?.faults.length ?? 0) > 0 && views.value === null);
/** The findings shown belong to an older version than the file. */
export const stale = computed(
  () => fit.value !== null && fit.value.version !== standing.value?.version,
);

const LONGEST = 200; // of what an edit says

type Spot = readonly [number, number, number];
const gapOf = (one: Finding | null): readonly [Spot, Spot] | null =>
  one?.at && one.on ? [one.at, one.on] : null;

/** What is asked of the views now, with some edits made. */
export const asked = (edits: readonly Edit[] = []) => ({
  edits,
  at_mm: sectionAt.value,
  gap: gapOf(hand.value),
  drawn: drawn.value,
});

export async function start(): Promise<void> {
  const all = await server.builds();
  const wanted = decodeURIComponent(location.pathname.split("/")[1] ?? "");
  const only = all.length === 1 ? all[0]?.name : undefined;
  const found = all.some((one) => one.name === wanted) ? wanted : only;
  shelf.value = all;
  if (found !== undefined) await take(found);
  listen(
    (told, version) => {
      if (name.value === "") void look();
      else if (told === name.value && version !== standing.value?.version) void refresh();
    },
    (now) => {
      const back = now && !heard.value;
      heard.value = now;
      if (back) void replay().then(refresh);
    },
    () => void askSharing(),
  );
}

/** Looks along the shelf again: a build was changed, or its findings are worked out now. */
async function look(): Promise<void> {
  shelf.value = await server.builds();
}

export async function take(build: string): Promise<void> {
  name.value = build;
  mended.value = [];
  unpack(build);
  await replay();
  await refresh();
}

/** Asks for everything anew; where the bench is gone, that is told and asked again once it is back. */
export const refresh = (): Promise<void> => unlessAway(askAll(name.value));

async function unlessAway(answers: Promise<unknown>): Promise<void> {
  try {
    await answers;
  } catch (error) {
    if (error instanceof AwayError) heard.value = false;
    else throw error;
  }
}

/** The drawing first, then what all doubts together say. */
async function askAll(build: string): Promise<void> {
  standing.value = await server.standing(build);
  await Promise.all([draw(), askRest(build)]);
}

async function askRest(build: string): Promise<void> {
  await Promise.all([
    server.deeds(build).then((told) => {
      deeds.value = told;
    }),
    weigh(build),
  ]);
}

/** Another hand's version may be drawn before it is heard of: an edit must rest on what is seen. */
async function catchUp(version: string): Promise<void> {
  const now = await server.standing(name.value);
  if (now.version !== version) return; // it cannot be used as it is, or has changed again
  standing.value = now;
  void unlessAway(askRest(name.value));
}

let weighing = new AbortController();

/** Asks for the findings; an older question lets go, as a browser asks few things at a time. */
async function weigh(build: string): Promise<void> {
  weighing.abort();
  weighing = new AbortController();
  try {
    fit.value = await server.fit(build, weighing.signal);
  } catch (error) {
    // of a file that never could be used the faults are told already
    if (error instanceof OvertakenError || mendFirst.value) return;
    throw error;
  }
  const inPlace = hand.value !== null || mended.value.some((one) => keyOf(one.finding) === inHand.value);
  if (!inPlace) hold(firstInHand());
  else void draw();
}

/** The first gap that needs a hand, or the one with the least to spare where none does. */
function firstInHand(): Finding | null {
  const placed = (one: Finding): boolean => one.at !== null && one.spare_mm !== null;
  const tightest = passed.value
    .filter(placed)
    .sort((a, b) => (a.spare_mm ?? 0) - (b.spare_mm ?? 0));
  return open.value.find(placed) ?? tightest[0] ?? open.value[0] ?? null;
}

/** Takes a finding in hand; the section goes to its gap. */
export function hold(one: Finding | null): void {
  inHand.value = one === null ? "" : keyOf(one);
  if (one?.at) sectionAt.value = clamped(one.at[0]);
  void draw();
}

const clamped = (mm: number): number => {
  const span = views.value?.span_mm;
  return span ? Math.min(Math.max(mm, span[0]), span[1]) : mm;
};

let drawing = false;
let again = false;

/** Asks for the views; while an answer is awaited, only the newest question is kept. */
export async function draw(): Promise<void> {
  if (drawing) {
    again = true;
    return;
  }
  drawing = true;
  try {
    do {
      again = false;
      const told = await server.views(name.value, asked());
      if (told.version !== standing.value?.version) await catchUp(told.version);
      views.value = told;
    } while (again);
  } catch (error) {
    if (error instanceof AwayError) heard.value = false;
    else if (!mendFirst.value) notice.value = error instanceof Error ? error.message : String(error);
  } finally {
    drawing = false;
  }
}

export function drawAs(how: Drawn): void {
  drawn.value = how;
  void draw();
}

export function moveSection(mm: number): void {
  sectionAt.value = clamped(mm);
  void draw();
}

async function change(work: () => Promise<Standing>, patch?: Patch): Promise<boolean> {
  faults.value = [];
  notice.value = "";
  try {
    standing.value = await work();
  } catch (error) {
    if (error instanceof FaultsError) faults.value = error.faults;
    else if (error instanceof AwayError) {
      heard.value = false;
      return patch !== undefined && keepHere(patch);
    } else if (error instanceof ClashError && patch !== undefined) {
      clashes.value = [...clashes.value, { ...patch, theirs: error.clash.theirs, faults: [] }];
      await refresh();
    } else notice.value = error instanceof Error ? error.message : String(error);
    return false;
  }
  await refresh();
  return true;
}

function keepHere(patch: Patch): boolean {
  const done = keep(name.value, standing.value?.version ?? "", patch);
  if (!done) notice.value = "No more edits can be kept here until the bench is heard again.";
  return done;
}

/** Writes edits; while the bench cannot be reached they are kept here. */
export async function edit(edits: readonly Edit[], says: string): Promise<boolean> {
  const patch = patched(edits, says.slice(0, LONGEST));
  if (waiting.value.length > 0 && heard.value) await replay();
  if (waiting.value.length > 0) return keepHere(patch);
  return change(() => server.edit(name.value, standing.value?.version ?? "", patch), patch);
}

let replaying = false;

/** Sends what was kept, in its order; what does not go in is shown beside what stands there. */
async function replay(): Promise<void> {
  if (replaying) return;
  replaying = true;
  try {
    for (let now = first(); now !== undefined; now = first()) {
      const { patches } = now;
      const told = await server.replay(name.value, now);
      sent(name.value, patches.length);
      const met = told.refused.flatMap(({ number, theirs, faults: wrong }): Clashed[] => {
        const patch = patches[number];
        return patch === undefined ? [] : [{ ...patch, theirs, faults: wrong }];
      });
      clashes.value = [...clashes.value, ...met];
      heard.value = true;
    }
  } catch (error) {
    if (error instanceof AwayError) heard.value = false;
    else if (error instanceof FaultsError) {
      notice.value = `The file cannot be used as it is; ${waiting.value.length} edits wait here for it.`;
    } else notice.value = error instanceof Error ? error.message : String(error);
  } finally {
    replaying = false;
  }
}

/** Settles the first clash: writes mine over what stands there now, or lets it go. */
export async function settle(mine: boolean): Promise<void> {
  const [first, ...others] = clashes.value;
  clashes.value = others;
  if (first && mine) await edit(first.edits, first.says);
}

/** Takes a remedy; its line stays where it is until the next visit. */
export async function mend(finding: Finding, remedy: Remedy, says: string): Promise<void> {
  const beside = open.value.filter((one) => one.lock === finding.lock);
  const line = { finding, says, index: beside.indexOf(finding) };
  const before = mended.value;
  mended.value = [...before, line];
  const taken = await edit(remedy.edits, says);
  if (!taken || waiting.value.length > 0) mended.value = before;
}

export const undo = (): Promise<boolean> => {
  if (letGo(name.value) !== undefined) return Promise.resolve(true);
  const says = standing.value?.last;
  mended.value = mended.value.filter((one) => one.says !== says);
  return change(() => server.undo(name.value));
};
export const redo = (): Promise<boolean> => change(() => server.redo(name.value));
/** Undoes or redoes until the file is as it was at one of its steps. */
export const walkTo = (step: number): Promise<boolean> => {
  mended.value = [];
  return change(async () => {
    let at = deeds.value?.at ?? step;
    let now = await server.standing(name.value);
    for (; at > step; at -= 1) now = await server.undo(name.value);
    for (; at < step; at += 1) now = await server.redo(name.value);
    return now;
  });
};
