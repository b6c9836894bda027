// What is under the hand, in figures: the new one, the nearest gap in red, and what else moves.

import { dragging, live, refused } from "../model/drag";
import { Figure } from "./figure";

const MOST = 3; // gaps told beside the nearest

export function Live() {
  const now = dragging.value;
  if (now === null || (live.value === null && refused.value === "")) return null;
  const [nearest, ...others] = live.value?.gaps ?? [];
  return (
    <p class="live" role="status">
      <span>
        {now.handle.name} <b>{words(live.value?.edits.map((one) => one.value ?? "") ?? [])}</b>
      </span>
      {refused.value !== "" && <span class="cannot">{refused.value}</span>}
      {nearest && <Gap one={nearest} class="nearest" />}
      {others.slice(0, MOST).map((one) => (
        <Gap key={one.name} one={one} class="other" />
      ))}
    </p>
  );
}

const words = (figures: readonly string[]): string => [...new Set(figures)].join(", ");

interface Told {
  readonly name: string;
  readonly before: string;
  readonly figure: string;
  readonly wanted: string;
  readonly short_mm: number;
}

function Gap({ one, class: kind }: { one: Told; class: string }) {
  return (
    <span class={kind}>
      {one.name}{" "}
      {one.before !== "" && (
        <>
          <Figure words={one.before} unit={false} /> →{" "}
        </>
      )}
      <b>
        <Figure words={one.figure} />
      </b>
      {one.short_mm > 0 && (
        <>
          , wanted <Figure words={one.wanted} unit={false} />
        </>
      )}
    </span>
  );
}
