// Day or night: as the system says until the builder says otherwise; that is remembered.

import { effect, signal } from "@preact/signals";

export type Light = "day" | "night";
const KEY = "light";

function first(): Light {
  const kept = localStorage.getItem(KEY);
  if (kept === "day" || kept === "night") return kept;
  return matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "day";
}

export const light = signal<Light>(first());
effect(() => {
  document.documentElement.dataset["light"] = light.value;
});

export function turn(): void {
  light.value = light.value === "day" ? "night" : "day";
  localStorage.setItem(KEY, light.value);
}
