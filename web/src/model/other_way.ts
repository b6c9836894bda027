// Two hands at one figure, and both are kept: the build stays as theirs, mine goes into a build beside it.

import { signal } from "@preact/signals";

import { faults, heard, name, notice, refresh, shelf, standing } from "./bench";
import { clashes } from "./kept";
import { AwayError, ClashError, FaultsError, server } from "../server";
import type { Beside, Edit } from "../server";

/** Where mine went, until that was read. */
export const beside = signal<Beside | null>(null);

/** Puts all of mine that met another hand's into one other way, and writes nothing here. */
export async function keepBoth(): Promise<void> {
  const mine = clashes.value.filter((one) => one.faults.length === 0);
  const edits = mine.flatMap((one) => one.edits);
  faults.value = [];
  notice.value = "";
  try {
    beside.value = await server.beside(name.value, { base: standing.value?.version ?? "", edits });
    clashes.value = clashes.value.filter((one) => !mine.includes(one));
    shelf.value = await server.builds();
  } catch (error) {
    if (error instanceof AwayError) heard.value = false;
    else if (error instanceof ClashError) await changedAgain(error.clash.theirs);
    else if (error instanceof FaultsError) notice.value = `Mine cannot be a build of its own: ${said(error)}`;
    else notice.value = error instanceof Error ? error.message : String(error);
  }
}

/** Shows what the other hand wrote since. */
async function changedAgain(theirs: readonly Edit[]): Promise<void> {
  const now = new Map(theirs.map((one) => [JSON.stringify(one.path), one]));
  clashes.value = clashes.value.map((one) => ({
    ...one,
    theirs: one.theirs.map((old) => now.get(JSON.stringify(old.path)) ?? old),
  }));
  await refresh();
}

const said = ({ faults: wrong }: FaultsError): string =>
  wrong.map((one) => `found ${one.found}; expected ${one.expected}`).join(". ");

/** Goes to the other way, as to any address. */
export function goBeside(): void {
  if (beside.value) location.assign(`/${encodeURIComponent(beside.value.name)}`);
}
