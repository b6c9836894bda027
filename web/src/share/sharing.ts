// What the page knows of the sharing: whether it is on, who is in, and on a phone whether it still is.

import { effect, signal } from "@preact/signals";

import { answer, heedEnd, server } from "../server";
import type { Here } from "../server";
import type { Sharing } from "./messages";

export const here = signal<Here["at"] | null>(null);
export const sharing = signal<Sharing | null>(null);
/** The sheet that shares the bench is turned up. */
export const opened = signal(false);
/** Why the server lets this page in no more. */
export const ended = signal("");
export const trouble = signal("");

const PATH = "/api/share";
const MARGIN_S = 1; // after a code's time: it is certainly over then

/** Asks where this page is looked at; only the bench itself asks for more. */
export async function meet(): Promise<void> {
  heedEnd((says) => {
    ended.value = says || "The bench lets this page in no more.";
  });
  try {
    here.value = (await server.here()).at;
    await askSharing();
  } catch {
    here.value = null; // whatever else the page asks says why
  }
}

export async function askSharing(): Promise<void> {
  if (here.value === "bench") sharing.value = await answer<Sharing>(PATH);
}

async function change(what: string): Promise<void> {
  trouble.value = "";
  try {
    sharing.value = await answer<Sharing>(PATH + what, {});
  } catch (error) {
    trouble.value = error instanceof Error ? error.message : String(error);
  }
}

export const switchOn = (): Promise<void> => change("/on");
export const switchOff = (): Promise<void> => change("/off");
export const newCode = (): Promise<void> => change("/code");
export const letGo = (number: number): Promise<void> => change(`/let-go/${number}`);
export const letAllGo = (): Promise<void> => change("/let-go");

effect(() => {
  const left = sharing.value?.left_s ?? 0;
  if (left === 0) return;
  const over = setTimeout(() => void askSharing(), (left + MARGIN_S) * 1000);
  return () => clearTimeout(over);
});
