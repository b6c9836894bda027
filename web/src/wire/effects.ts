// What a fault does, as the page says it.

import type { components } from "../api";

type Tried = components["schemas"]["TriedMessage"];

/** What a fault does, as heads with words; only what there is. */
export function rowsOf(tried: Tried): readonly (readonly [string, string])[] {
  const { stopped, wrongly, moved, breaks, dies } = tried;
  const all: readonly (readonly [string, readonly string[]])[] = [
    ["Works no more", stopped],
    ["Works and should not", wrongly.map((one) => `${one.name} ${one.volts}`.trim())],
    ["Gets other volts", moved.map((one) => `${one.name} ${one.before} → ${one.after}`)],
    ["Breaks", breaks],
    ["Goes with it, in any state", dies],
  ];
  return all.filter(([, words]) => words.length > 0).map(([head, words]) => [head, words.join(", ")]);
}
