// The part of the diagram in hand, the fault tried in it, and a rule's break replayed step by step.

import { computed, effect, signal } from "@preact/signals";

import type { components } from "../api";
import { name, standing } from "../model/bench";
import { answer, at } from "../server";

type Schemas = components["schemas"];
export type Fault = Schemas["FaultSaid"];
export type Part = Schemas["PartMessage"];
export type Rule = Schemas["RuleMessage"];
export type Replay = Schemas["RuleBreakMessage"];

export const told = signal<Schemas["FaultsMessage"] | null>(null);
/** The part in hand, by its name. */
export const picked = signal("");
export const fault = signal<Fault | null>(null);
export const replay = signal<Replay | null>(null);
export const step = signal(0);
export const trouble = signal("");
/** A rule to be replayed as soon as the place is open and knows its rules: the place of its finding. */
const wanted = signal("");

export const part = computed<Part | null>(() => told.value?.parts.find((one) => one.name === picked.value) ?? null);
export const frame = computed(() => replay.value?.frames[step.value] ?? null);
/** What the fault that is on befalls, by the name it is drawn by. */
export const marked = computed(() => (fault.value === null ? "" : drawnAs(fault.value)));

/** A ground point's stud is drawn by the name of the point. */
export const drawnAs = ({ kind, of }: Pick<Fault, "kind" | "of">): string =>
  kind === "ground lost" ? of.replace(/ stud$/, "") : of;

export const partOf = (drawn: string): Part | undefined =>
  told.value?.parts.find((one) => one.drawn.includes(drawn));

export const pageOf = (one: Pick<Fault, "kind" | "of">): number => partOf(drawnAs(one))?.page ?? 0;

/** Takes the part in hand that something drawn belongs to; what can have no fault is told so. */
export function pick(drawn: string): void {
  picked.value = partOf(drawn)?.name ?? drawn;
}

/** Puts a fault on, and its part in hand. */
export function tryOn(one: Fault): void {
  leave();
  fault.value = one;
  picked.value = partOf(drawnAs(one))?.name ?? picked.value;
}

export function putRight(): void {
  fault.value = null;
  leave();
}

export function leave(): void {
  replay.value = null;
  step.value = 0;
}

/** Asks for the steps that break a rule, and shows the last of them: the state that breaks it. */
export async function replayRule({ number: rule }: Rule, by: Fault | null): Promise<void> {
  trouble.value = "";
  try {
    const asked = { rule, fault: by === null ? null : { kind: by.kind, of: by.of } };
    const found = await answer<Replay>(at(name.value, "/wire/replay"), asked);
    fault.value = by;
    picked.value = by === null ? "" : (partOf(drawnAs(by))?.name ?? "");
    replay.value = found;
    step.value = found.frames.length - 1;
  } catch (error) {
    trouble.value = error instanceof Error ? error.message : String(error);
  }
}

/** Opens the place on the rule that a finding is about. */
export function wantRule(place: string): void {
  wanted.value = place;
}

let build = "";

/** Keeps parts and rules those of the build on the bench while the place is open. */
export function keepFaults(): () => void {
  if (build !== name.value) {
    told.value = fault.value = null;
    picked.value = "";
  }
  build = name.value;
  const stop = [
    effect(() => {
      if (standing.value?.version === undefined) return;
      answer<Schemas["FaultsMessage"]>(at(name.value, "/wire/faults")).then(
        (found) => (told.value = found),
        (error: unknown) => (trouble.value = error instanceof Error ? error.message : String(error)),
      );
    }),
    // what is gone from the wiring is neither in hand nor at fault any more
    effect(() => {
      if (told.value === null || fault.value === null) return;
      const { kind, of } = fault.value;
      const there = told.value.parts.some((one) => one.faults.some((f) => f.kind === kind && f.of === of));
      if (!there) putRight();
    }),
    effect(() => {
      const rule = told.value?.rules.find((one) => one.place === wanted.value);
      if (rule === undefined) return;
      wanted.value = "";
      const first = rule.broken ? null : (rule.faults[0] ?? null);
      if (rule.broken || first !== null) void replayRule(rule, first);
    }),
  ];
  return () => {
    stop.forEach((one) => one());
    leave();
  };
}
