// The parts of the wiring: which one is in hand, what is being added, and what that changes in the file.

import { computed, effect, signal } from "@preact/signals";

import type { components } from "../api";
import { keepFields, keyOf, refused, send } from "../fields/typed";
import type { Path } from "../fields/typed";
import { edit, name, standing } from "../model/bench";
import { FaultsError, answer, at } from "../server";
import type { Edit } from "../server";
import { page, wiring } from "./state";

type Schemas = components["schemas"];
export type Parts = Schemas["WirePartsMessage"];
export type Part = Parts["parts"][number];
export type Next = Schemas["NextStopsMessage"];
export type Offer = Schemas["OfferMessage"];

/** What the place is used for: to work switches, to change what is drawn, or seen from above. */
export const doing = signal<"work" | "change" | "plan">("work");
export const parts = signal<Parts | null>(null);
/** The list, or the key, that something is being added to; empty where nothing is. */
export const adding = signal("");
export const trouble = signal("");

interface Held {
  readonly key: string;
  readonly sort: string;
  readonly name: string;
}
const held = signal<Held | null>(null);

/** The part in hand: where it was, or wherever in its list it is now. */
export const hand = computed<Part | null>(() => {
  const [now, all] = [held.value, parts.value?.parts ?? []];
  if (now === null) return null;
  const there = all.find((one) => keyOf(one.path) === now.key);
  if (there !== undefined && (now.name === "" || there.name === now.name)) return there;
  return all.find((one) => one.sort === now.sort && one.name === now.name) ?? null;
});

export function hold(one: Part | null): void {
  adding.value = "";
  follows = false;
  if (one !== null) turnTo(one);
  held.value = one === null ? null : { key: keyOf(one.path), sort: one.sort, name: one.name };
}

/** What each page of the diagram draws, by name. */
const drawn = signal<Schemas["DrawnNamesMessage"] | null>(null);
/** Whether the diagram goes to the part in hand once it is drawn anew. */
let follows = false;

/** Turns to a page of the diagram that draws a part, unless this one does; says whether any does. */
function turnTo(one: Part): boolean {
  const [all, pages] = [parts.value?.parts ?? [], drawn.value?.pages ?? []];
  if (drawn.value?.version !== wiring.value?.version) return false; // other pages than those that are shown
  const shows = (names: readonly string[] | undefined): boolean => names?.some((of) => partOf(of, all) === one) ?? false;
  const found = pages.findIndex(shows);
  if (found >= 0 && !shows(pages[page.value - 1])) page.value = found + 1;
  return found >= 0;
}

/** Takes in hand what was just written at a path, by whatever name. */
export function holdAt(path: Path): void {
  adding.value = "";
  held.value = { key: keyOf(path), sort: "", name: "" };
}

export function add(to: string): void {
  held.value = null;
  adding.value = to;
}

/** A trunk by its number, a place by its name, as the plan has them. */
function onPlan(of: string, all: readonly Part[]): Part | null {
  const [sort, own] = [of.split(" ")[0], of.slice(of.indexOf(" ") + 1)];
  return all.find((one) => one.sort === sort && (sort === "trunk" ? String(one.path[2]) : one.name) === own) ?? null;
}

const OWN = /^(wire|lead|rail|ground|feed|part|contact|coil) /;

/** The part that a group of the drawing is of: by the longest name that its own begins with. */
export function partOf(of: string, all: readonly Part[]): Part | null {
  if (/^(trunk|place) /.test(of)) return onPlan(of, all);
  const own = of.replace(OWN, "");
  const wire = of.startsWith("wire ") ? own : own.split(" to ")[0] ?? "";
  const path = all.find((one) => one.wires.some((each) => each.name === wire));
  if (of.startsWith("wire ") || (path !== undefined && own !== wire)) return path ?? null;
  const met = all.filter((one) => DEVICES.has(one.sort) && `${own} `.startsWith(`${one.name} `));
  met.sort((one, other) => other.name.length - one.name.length);
  return met[0] ?? null;
}

export const DEVICES = new Set(["source", "feed", "fuse", "switch", "relay", "unit", "plug", "splice", "load", "ground"]);

/** Edits that make a list say other texts, written over one by one so that none moves but in words. */
export function relisted(path: Path, before: readonly string[], after: readonly string[]): Edit[] {
  const edits: Edit[] = [];
  after.forEach((value, n) => {
    if (before[n] !== value) edits.push({ path: [...path, n], value });
  });
  for (let n = before.length - 1; n >= after.length; n -= 1) edits.push({ path: [...path, n], value: null });
  return edits;
}

/** Writes other stops of a path. */
export const reroute = (one: Part, before: readonly string[], after: readonly string[]): Promise<boolean> =>
  send(relisted([...one.path, "goes"], before, after), `${one.name} goes ${after.join(", ")}`, [...one.path, "goes"]);

export const nextStops = (goes: readonly string[]): Promise<Next> => answer<Next>(at(name.value, "/wire/stops"), { goes });
export const circuitFor = (load: string): Promise<Offer> => answer<Offer>(at(name.value, "/wire/circuit"), { load });
export const without = ({ path }: Part): Promise<Offer> => answer<Offer>(at(name.value, "/wire/without"), { path });

/** Draws the circuit of a load that nothing leads to yet. */
export const draw = (one: Part, circuit: Offer): Promise<boolean> => {
  follows = true;
  return edit(circuit.edits, `Draw the circuit of ${one.name}`);
};

/** Takes a part out, with what goes with it. */
export const remove = async (one: Part, offer: Offer): Promise<void> => {
  if (await edit(offer.edits, `Take out ${one.name}`)) hold(null);
};

/** What is called by a name: where its entry is, or a control unit's state or terminal, and where the name is written. */
export interface Named {
  readonly path: Path;
  readonly place: Path;
  readonly name: string;
}
const ENTRY = 3; // steps to an entry of the wiring: its list, its number

/** Calls it otherwise wherever it is named; what stands against that is told beside its name. */
export async function rename(one: Named, called: string): Promise<boolean> {
  const place = one.place;
  try {
    const offer = await answer<Offer>(at(name.value, "/wire/rename"), { path: one.path, name: called });
    if (offer.edits.length > 0 && !(await send(offer.edits, `Call ${one.name} ${called}`, place))) return false;
  } catch (error) {
    if (error instanceof FaultsError) refused.value = error.faults;
    else trouble.value = said(error);
    return false;
  }
  refused.value = [];
  holdAt(one.path.slice(0, ENTRY));
  return true;
}

const said = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Keeps parts and fields those of the build on the bench while the place is open. */
export function keepParts(): () => void {
  const stops = [
    keepFields(),
    effect(() => {
      if (standing.value?.version === undefined) return;
      answer<Parts>(at(name.value, "/wire/parts")).then(
        (told) => {
          parts.value = told;
          trouble.value = "";
        },
        (error: unknown) => (trouble.value = said(error)),
      );
    }),
    effect(() => {
      if (parts.value === null) return;
      answer<Schemas["DrawnNamesMessage"]>(at(name.value, "/wire/drawn")).then(
        (told) => {
          drawn.value = told;
        },
        () => undefined, // the diagram itself tells why it cannot be shown
      );
    }),
    effect(() => {
      if (hand.value !== null && follows && turnTo(hand.value)) follows = false;
    }),
  ];
  return () => stops.forEach((one) => one());
}
