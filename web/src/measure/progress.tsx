// How far the walk is: a notched rule, and the car from above with the station in hand.

import { done, place, steps, take, walk } from "./walk";

export function Progress() {
  return (
    <nav class="walk-rule" aria-label="Readings" onKeyDown={toNeighbour}>
      {steps.value.map((one, number) => (
        <button
          key={`${number}`}
          class={`notch${done(one) ? " notch-done" : ""}${number === place.value ? " notch-now" : ""}`}
          aria-label={`${number + 1}: ${one.heading}${done(one) ? ", taken" : ""}`}
          aria-current={number === place.value ? "step" : undefined}
          tabIndex={number === place.value ? 0 : -1}
          onClick={() => take(number)}
        />
      ))}
    </nav>
  );
}

const ARROWS: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowRight: 1 };

/** One stop of the tabulator is enough for the rule: the arrows go along it. */
function toNeighbour(event: KeyboardEvent): void {
  const by = ARROWS[event.key];
  if (by === undefined || !(event.currentTarget instanceof HTMLElement)) return;
  event.preventDefault();
  take(place.value + by);
  event.currentTarget.querySelectorAll("button").item(place.value).focus();
}

const WIDE = 140;
const EDGE = 8;
const BEYOND = 0.2; // of the span of readings, shown before and behind them

/** The tunnel from above, front to the left: stations that have readings, the one in hand in red. */
export function StationPlan({ at }: { at: number }) {
  const all = [...(walk.value?.stations ?? []), at, 0];
  const [first, last] = [Math.min(...all), Math.max(...all)];
  const beyond = (last - first || 1) * BEYOND;
  const [low, high] = [first - beyond, last + beyond];
  const x = (mm: number): number =>
    EDGE + ((mm - low) / (high - low)) * (WIDE - 2 * EDGE);
  const line = (mm: number, kind: string) => (
    <path key={`${kind}${mm}`} class={kind} d={`M${x(mm).toFixed(1)} ${kind === "plan-now" ? "4V36" : "7V33"}`} />
  );
  return (
    <svg class="walk-plan" viewBox={`0 0 ${WIDE} 40`} role="img" aria-label="The place along the car">
      <path class="plan-side" d="M2 12C30 9 60 10 138 13M2 28C30 31 60 30 138 27" />
      {line(0, "plan-datum")}
      {(walk.value?.stations ?? []).filter((mm) => mm !== at && mm !== 0).map((mm) => line(mm, "plan-station"))}
      {line(at, "plan-now")}
    </svg>
  );
}
