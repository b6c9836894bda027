// Where key, engine and switches are put on the wiring sheet, and what follows from it.

import { computed, effect, signal } from "@preact/signals";

import type { components } from "../api";
import { name, standing } from "../model/bench";
import { OvertakenError, answer, at } from "../server";
import { fault, frame } from "./fault_state";

type Schemas = components["schemas"];
export type Wiring = Schemas["WireMessage"];
export type Handle = Wiring["handles"][number];
export type State = Schemas["StateMessage"];

export const wiring = signal<Wiring | null>(null);
export const mode = signal("ignition on, engine stopped");
export const put = signal<Readonly<Record<string, string>>>({});
export const state = signal<State | null>(null);
/** What is shown: a step of a replay, while there is one. */
export const shown = computed<State | null>(() => frame.value?.state ?? state.value);
export const page = signal(1);
export const trouble = signal("");

export const positionOf = (one: Handle): string => put.value[one.name] ?? one.positions[0] ?? "";

/** Puts a switch or a door into its next position. */
export function turn(one: Handle): void {
  const next = one.positions[(one.positions.indexOf(positionOf(one)) + 1) % one.positions.length] ?? "";
  put.value = { ...put.value, [one.name]: next };
}

const said = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Keeps the wiring that of the build on the bench, and its state that of what is put, while the place is open. */
export function keepWiring(): () => void {
  const stop = [
    effect(() => {
      if (standing.value?.version === undefined) return;
      answer<Wiring>(at(name.value, "/wire")).then(
        (told) => {
          wiring.value = told;
          trouble.value = "";
          if (page.value > told.pages.length) page.value = 1;
        },
        (error: unknown) => (trouble.value = said(error)),
      );
    }),
    keepState(),
  ];
  return () => stop.forEach((one) => one());
}

function keepState(): () => void {
  let asking = new AbortController();
  return effect(() => {
    if (wiring.value === null || wiring.value.pages.length === 0) return;
    asking.abort();
    asking = new AbortController();
    const tried = fault.value === null ? null : { kind: fault.value.kind, of: fault.value.of };
    const body = { mode: mode.value, put: put.value, fault: tried };
    answer<State>(at(name.value, "/wire/state"), body, asking.signal).then(
      (told) => (state.value = told),
      (error: unknown) => {
        if (!(error instanceof OvertakenError)) trouble.value = said(error);
      },
    );
  });
}
