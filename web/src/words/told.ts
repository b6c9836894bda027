// Which words of a sentence have a meaning to tell, and the one that is told now.

import { signal } from "@preact/signals";

import { MEANINGS } from "./meanings";
import type { Meaning } from "./meanings";

export const told = signal<Meaning | null>(null);

const byForm = new Map(MEANINGS.flatMap((one) => [one.word, ...one.forms].map((form) => [form, one] as const)));
const longest = [...byForm.keys()].sort((a, b) => b.length - a.length);
const PATTERN = new RegExp(`(?<![\\w-])(${longest.join("|")})(?![\\w-])`, "gi");

export interface Piece {
  readonly text: string;
  readonly meaning: Meaning | null;
}

/** A sentence in pieces; a word has its meaning where it stands first. */
export function pieces(text: string): readonly Piece[] {
  const met = new Set<Meaning>();
  const found: Piece[] = [];
  let from = 0;
  for (const hit of text.matchAll(PATTERN)) {
    const meaning = byForm.get(hit[0].toLowerCase());
    if (meaning === undefined || met.has(meaning)) continue;
    met.add(meaning);
    if (hit.index > from) found.push({ text: text.slice(from, hit.index), meaning: null });
    found.push({ text: hit[0], meaning });
    from = hit.index + hit[0].length;
  }
  if (from < text.length) found.push({ text: text.slice(from), meaning: null });
  return found;
}
