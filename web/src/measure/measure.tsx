// The measuring walk: one drawing, one figure.

import { useEffect } from "preact/hooks";

import { name, refresh } from "../model/bench";
import { Notes } from "../notes/shown";
import { turnTo } from "../places";
import { Entry } from "./entry";
import { Keypad } from "./keypad";
import { TapeDrawing } from "./picture";
import { pressed } from "./pressed";
import { Progress, StationPlan } from "./progress";
import { busy, done, faults, firstTaken, next, place, skip, start, step, steps, take, text, trouble, type, unit, walk } from "./walk";
import "./measure.css";
import { Said } from "../words/said";

export function Measure() {
  useEffect(() => {
    void start();
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [name.value]);
  const one = step.value;
  if (walk.value === null || one === undefined) {
    return <main class="walk walk-wait">{trouble.value || "Fetching the walk"}</main>;
  }
  const taken = steps.value.filter(done).length;
  return (
    <main class="walk" aria-busy={busy.value} onMouseDown={keepFocus}>
      <header class="walk-top">
        <h1>measure</h1>
        <label class="walk-place">
          <span>
            {place.value + 1} of {steps.value.length}
            <span class="walk-taken">, {taken} taken</span>
          </span>
          <select
            aria-label={`Reading ${place.value + 1} of ${steps.value.length}: take another`}
            value={`${place.value}`}
            onChange={(event) => {
              take(Number(event.currentTarget.value));
              event.currentTarget.blur(); // what is typed next belongs to the figure
            }}
          >
            {steps.value.map((other, k) => (
              <option key={k} value={`${k}`}>
                {k + 1}: {other.heading}
                {done(other) ? ", taken" : ""}
              </option>
            ))}
          </select>
        </label>
        <button class="walk-back walk-try" onClick={() => turnTo("try")}>
          Test fit
        </button>
        <button class="walk-back" onClick={toSheet}>
          Back to the sheet
        </button>
      </header>
      <Progress />
      <div class="walk-picture">
        {firstTaken.value && one.asked !== "first" && <WhatNow />}
        {one.picture ? (
          <TapeDrawing picture={one.picture} figure={faults.value.length > 0 ? "?" : text.value || "?"} />
        ) : (
          <p class="walk-nothing">{one.heading.replace("Again: ", "")}</p>
        )}
      </div>
      <section class="walk-ask">
        <h2>{one.heading}</h2>
        <p>
          <Said text={one.says} />
        </p>
        {one.at_mm !== null && <StationPlan at={one.at_mm} />}
        <Notes kind="reading" names={one.called} />
      </section>
      <Entry one={one} />
      {one.words ? <WordKeys /> : <Keypad unit={unit.value} type={type} skip={skip} next={() => void next()} />}
    </main>
  );
}

/** A button that is pressed by hand takes no focus: a space typed next belongs to the figure. */
function keepFocus(event: MouseEvent): void {
  if (event.target instanceof Element && event.target.closest("button") !== null) event.preventDefault();
}

function toSheet(): void {
  turnTo("fit");
  void refresh();
}

/** The first readings are in: the sheet can be looked at, or the walk goes on. */
function WhatNow() {
  return (
    <p class="walk-strip">
      The first readings are in. What follows makes it surer.
      <button onClick={toSheet}>See what they say</button>
    </p>
  );
}

/** Under words there are no figures to press: only how to go on. */
function WordKeys() {
  return (
    <div class="keys keys-words">
      <button class="key-word" onClick={skip}>
        skip
      </button>
      <button class="key-next" onClick={() => void next()}>
        Next
      </button>
    </div>
  );
}

function onKey(event: KeyboardEvent): void {
  const key = pressed(event, unit.value);
  if (key === null || (step.value?.words === true && key !== "Enter")) return;
  event.preventDefault();
  if (key === "Enter") void next();
  else type(key);
}
