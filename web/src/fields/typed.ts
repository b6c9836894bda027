// Every key of the build file, what is typed and not yet written, and what came back of it.

import { computed, effect, signal } from "@preact/signals";

import type { components } from "../api";
import { edit, name, refresh, standing } from "../model/bench";
import { patched } from "../model/kept";
import { backAtEnd, between } from "./between";
import { AwayError, ClashError, FaultsError, answer, at, server } from "../server";
import type { Edit, Fault } from "../server";

type Schemas = components["schemas"];
export type Field = Schemas["FieldMessage"];
export type Tree = Schemas["FieldsMessage"];
export type Path = Field["path"];

export const tree = signal<Tree | null>(null);
export const trouble = signal("");
export const search = signal("");
export const open = signal<ReadonlySet<string>>(new Set());
/** What stands in a field and is not written yet, by the path. */
export const typed = signal<ReadonlyMap<string, string>>(new Map());
/** Keys that the builder chooses, by the path of the entry that is to be added. */
export const names = signal<ReadonlyMap<string, string>>(new Map());
export const refused = signal<readonly Fault[]>([]);
/** What another hand wrote meanwhile, by the path. */
export const theirs = signal<ReadonlyMap<string, string>>(new Map());

export const keyOf = (path: Path): string => JSON.stringify(path);
const within = (path: Path, above: Path): boolean => above.every((step, n) => path[n] === step);

/** Before which item of a list a new one goes, by the list's path; left out: after the last. */
export const before = signal<ReadonlyMap<string, number>>(new Map());

/** Every fault: of the file as it is, and of what was last typed. */
export const faults = computed<readonly Fault[]>(() => [
  ...(standing.value?.faults ?? []),
  ...refused.value,
]);

export function faultsAt(path: Path): readonly Fault[] {
  const key = keyOf(actual(path));
  return faults.value.filter((one) => keyOf(one.path) === key);
}

/** Faults of what was last typed that stand at other fields than those written. */
export const elsewhere = signal<readonly Fault[]>([]);
const under = (fault: Fault, edits: readonly Edit[]): boolean =>
  edits.some(({ path }) => within(fault.path, path) || within(path, fault.path));

function changed<T>(map: ReadonlyMap<string, T>, key: string, value: T | undefined): Map<string, T> {
  const next = new Map(map);
  if (value === undefined) next.delete(key);
  else next.set(key, value);
  return next;
}

export function type(path: Path, text: string | undefined): void {
  typed.value = changed(typed.value, keyOf(path), text);
}

export function call(path: Path, text: string): void {
  names.value = changed(names.value, keyOf(path), text);
}

export function putBefore(list: Path, item: number | undefined): void {
  before.value = changed(before.value, keyOf(list), item);
}

export function toggle(path: Path): void {
  const key = keyOf(path);
  const next = new Set(open.value);
  if (!next.delete(key)) next.add(key);
  open.value = next;
}

/** The path in the file: keys that the builder chooses in place of their examples. */
function actual(path: Path): Path {
  return path.map((step, n) => names.value.get(keyOf(path.slice(0, n + 1))) || step);
}

/** Fields that hold one text, in the order of the schema; those to be added at their end. */
export function* texts(one: Field): Generator<Field> {
  if (one.kind === "value") yield one;
  for (const below of one.below) yield* texts(below);
  if (one.more) yield* texts(one.more);
}

/** What is written together: the outermost entry above a field that is not in the file yet. */
function scope(path: Path): Path {
  let held: Field | undefined = tree.value?.root;
  for (let n = 1; held !== undefined && n < path.length; n += 1) {
    const here = keyOf(path.slice(0, n));
    const more: Field | null = held.more;
    held =
      held.below.find((one) => keyOf(one.path) === here) ??
      (more !== null && keyOf(more.path) === here ? more : undefined);
    if (held !== undefined && held.line === 0) return held.path;
  }
  return path;
}

/** Whether a field can be written without others: what holds it is in the file. */
export const alone = (path: Path): boolean => keyOf(scope(path)) === keyOf(path);

/** Writes what is typed in a field, with all that has to be written together with it, and `also` what no field holds. */
export function write(path: Path, also: readonly Edit[] = []): Promise<boolean> {
  const root = tree.value?.root;
  if (root === undefined) return Promise.resolve(false);
  const whole = scope(path);
  const edits: Edit[] = [];
  for (const one of texts(root)) {
    const text = typed.value.get(keyOf(one.path));
    if (text !== undefined && within(one.path, whole)) {
      edits.push({ path: actual(one.path), value: text.trim() });
    }
  }
  edits.push(...also);
  const words = edits.map((one) => `${one.path.at(-1)} ${one.value}`).join(", ");
  const place = whole.slice(0, edits.length === 1 ? -1 : undefined).map(spoken).join(", ");
  const says = place === "" ? words : `${place}: ${words}`;
  const list = fieldAt(whole.slice(0, -1));
  const at = list === undefined ? undefined : before.value.get(keyOf(list.path));
  if (list === undefined || at === undefined) return send(edits, says, whole);
  return send(between(list, at, edits), says, whole, (fault) => backAtEnd(list, at, fault));
}

export function fieldAt(path: Path): Field | undefined {
  let held: Field | undefined = tree.value?.root;
  for (let n = 1; held !== undefined && n <= path.length; n += 1) {
    const here = keyOf(path.slice(0, n));
    held = held.below.find((one) => keyOf(one.path) === here);
  }
  return held;
}

/** A field's place in words, as the sheet has it. */
export const wordsOf = (path: Path): string => fieldAt(path)?.words ?? path.map(spoken).join(", ");

/** Takes a key or an item out of the file, and what it holds with it. */
export const takeOut = (one: Field): Promise<boolean> =>
  send([{ path: one.path, value: null }], `Took out ${one.words}`, one.path);

const spoken = (step: string | number): string =>
  typeof step === "number" ? String(step + 1) : step;

/** Whether an edit writes over a text, so that all places in the file stay what they were. */
const stays = ({ path, value }: Edit): boolean => value !== null && (fieldAt(path)?.line ?? 0) > 0;

const LONGEST = 200;

type Telling = (fault: Fault) => Fault;
let last: Promise<boolean> = Promise.resolve(true);

/** Sends edits after those that are under way, so that each is made to what the one before left. */
export function send(edits: readonly Edit[], says: string, whole: Path, told: Telling = (fault) => fault): Promise<boolean> {
  if (edits.length === 0) return Promise.resolve(false);
  last = last.then(() => sent(edits, says, whole, told));
  return last;
}

async function sent(edits: readonly Edit[], says: string, whole: Path, told: Telling): Promise<boolean> {
  trouble.value = "";
  elsewhere.value = [];
  try {
    const { version } = await server.edit(name.value, tree.value?.version ?? "", patched(edits, says.slice(0, LONGEST)));
    // where no item came or went the places are the same: the next edit is made to what stands now
    if (tree.value && edits.every(stays)) tree.value = { ...tree.value, version };
  } catch (error) {
    if (error instanceof AwayError) return edit(edits, says); // kept here; what is typed stays
    await came(error, told);
    elsewhere.value = refused.value.filter((one) => one.path.length > 0 && !under(one, edits));
    return false;
  }
  refused.value = [];
  before.value = new Map();
  theirs.value = new Map();
  const done = (key: string): boolean => within(JSON.parse(key) as Path, whole);
  typed.value = new Map([...typed.value].filter(([key]) => !done(key)));
  names.value = new Map([...names.value].filter(([key]) => !done(key)));
  void refresh();
  return true;
}

async function came(error: unknown, told: (fault: Fault) => Fault): Promise<void> {
  if (error instanceof FaultsError) refused.value = error.faults.map(told);
  else if (error instanceof ClashError) {
    theirs.value = new Map(
      error.clash.theirs.map((one) => [keyOf(one.path), one.value ?? "nothing"]),
    );
    await refresh();
  } else trouble.value = error instanceof Error ? error.message : String(error);
}

/** Fields that a search finds: every word stands in its place, its meaning or its text. */
export const found = computed<readonly Field[]>(() => {
  const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
  const root = tree.value?.root;
  if (words.length === 0 || root === undefined) return [];
  const fits = (one: Field): boolean => {
    const text = ` ${one.words} ${one.says} ${one.value ?? ""}`.toLowerCase();
    return words.every((word) => text.includes(` ${word}`));
  };
  return [...texts(root)].filter(fits);
});

/** Keeps the fields those of the file while the place is open; what is typed stays. */
export function keepFields(): () => void {
  return effect(() => {
    if (standing.value?.version === undefined) return;
    answer<Tree>(at(name.value, "/fields")).then(
      (told) => {
        tree.value = told;
      },
      (error: unknown) => {
        if (error instanceof FaultsError) refused.value = error.faults;
        else trouble.value = error instanceof Error ? error.message : String(error);
      },
    );
  });
}
