// What the place is turned to: work the switches, change the wiring, see it from above.

import { doing } from "./part";

const TURNS = [
  ["work", "see it work"],
  ["change", "change it"],
  ["plan", "from above"],
] as const;

export function Turns() {
  return (
    <nav class="wire-turns" aria-label="What to do with the wiring">
      {TURNS.map(([to, says]) => (
        <button key={to} aria-pressed={doing.value === to} onClick={() => (doing.value = to)}>
          {says}
        </button>
      ))}
    </nav>
  );
}
