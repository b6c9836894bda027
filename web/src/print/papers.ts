// What can be printed of the build on the bench, and what is chosen of it.

import { computed, effect, signal } from "@preact/signals";

import type { components } from "../api";
import { name, standing } from "../model/bench";
import { answer, at } from "../server";

type Schemas = components["schemas"];
export type Papers = Schemas["PrintMessage"];
export type Sheet = Schemas["SheetMessage"];
export type PagePaper = Schemas["PageMessage"];
export type Paper = "A4" | "Letter";

export const PAPERS: readonly Paper[] = ["A4", "Letter"];
export const paper = signal<Paper>("A4");
export const papers = signal<Papers | null>(null);
export const trouble = signal("");
export const left = signal<ReadonlySet<string>>(new Set());
export const large = signal(0);

/** Sheets that have pages and were not taken off the list. */
export const chosen = computed<readonly Sheet[]>(
  () => papers.value?.sheets.filter((one) => one.pages.length > 0 && !left.value.has(one.name)) ?? [],
);
export const count = computed(() => chosen.value.reduce((sum, one) => sum + one.pages.length, 0));

const root = (): string => at(name.value, `/print/${paper.value}`);

/** Where a file of the papers as shown comes from. */
export function fileAddress(file: string): string {
  const path = file.split("/").map(encodeURIComponent).join("/");
  return `${root()}/files/${path}?version=${papers.value?.version ?? ""}`;
}

/** Where the chosen sheets come from: the whole packet where nothing is left out. */
export function chosenAddress(): string {
  const all = papers.value?.sheets.filter((one) => one.pages.length > 0) ?? [];
  if (chosen.value.length === all.length) return fileAddress("packet.pdf");
  const only = chosen.value[0];
  if (chosen.value.length === 1 && only !== undefined) return fileAddress(only.file);
  const asked = chosen.value.map((one) => `sheet=${encodeURIComponent(one.name)}`).join("&");
  return `${root()}/chosen.pdf?${asked}&version=${papers.value?.version ?? ""}`;
}

export function choose(sheet: string, taken: boolean): void {
  const next = new Set(left.value);
  if (taken) next.delete(sheet);
  else next.add(sheet);
  left.value = next;
}

/** Asks for one page as it will be printed. */
export async function drawnPage(number: number): Promise<string> {
  const response = await fetch(
    `${root()}/pages/${number}.svg?version=${papers.value?.version ?? ""}`,
  );
  if (!response.ok) throw new Error(`Page ${number} cannot be shown now.`);
  return response.text();
}

/** Keeps the papers those of the build on the bench while the place is open. */
export function keepPapers(): () => void {
  return effect(() => {
    const version = standing.value?.version;
    const size = paper.value;
    if (version === undefined) return;
    answer<Papers>(at(name.value, `/print/${size}`)).then(
      (told) => {
        if (size !== paper.value) return;
        papers.value = told;
        trouble.value = "";
      },
      (error: unknown) => {
        trouble.value = error instanceof Error ? error.message : String(error);
      },
    );
  });
}
