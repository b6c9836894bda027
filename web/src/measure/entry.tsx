// The figure as typed, its unit, how and over what it was read, and what is wrong with it.

import type { WalkStep } from "./messages";
import {
  faults,
  heldAt,
  meant,
  OWN,
  readAgain,
  readBy,
  side,
  slips,
  steps,
  takenOver,
  text,
  trouble,
  type,
  unit,
  waitsFor,
  walk,
} from "./walk";
import { parts } from "./typed";

export function Entry({ one }: { one: WalkStep }) {
  const bad = faults.value.length > 0;
  return (
    <section class={`walk-entry${bad ? " bad" : ""}`}>
      {one.words ? <Words one={one} /> : <Figure one={one} />}
      <Wrong />
      <Slips />
      {!bad && (
        <>
          {one.sides.length > 0 && <Sides one={one} />}
          {one.measured && <ReadByRow />}
          {one.over && <Over one={one} />}
          <Gives one={one} />
        </>
      )}
    </section>
  );
}

function Figure({ one }: { one: WalkStep }) {
  return (
    <div class="entry">
      <output aria-label="Measured" aria-live="polite">
        {parts(text.value).map((part, k) => (
          <span key={k} class={part.fraction ? "frac" : ""}>
            {part.words}
          </span>
        ))}
        <i aria-hidden="true" />
        {one.tail}
      </output>
      {(["mm", "in"] as const).map((name) => (
        <button
          key={name}
          aria-pressed={unit.value === name}
          onClick={() => {
            unit.value = name;
          }}
        >
          {name}
        </button>
      ))}
    </div>
  );
}

function Words({ one }: { one: WalkStep }) {
  return (
    <div class="entry-words">
      {one.choices.map((choice) => (
        <button key={choice} aria-pressed={text.value === choice} onClick={() => meant(choice)}>
          {choice}
        </button>
      ))}
      <label>
        in your own words
        <input
          value={text.value}
          maxLength={200}
          onInput={(event) => {
            text.value = event.currentTarget.value;
          }}
        />
      </label>
    </div>
  );
}

function Wrong() {
  return (
    <div class="walk-wrong" role="alert">
      {trouble.value !== "" && <p>{trouble.value}</p>}
      {faults.value.map((fault) => (
        <div key={fault.path.join(".")}>
          <p>
            <b>{fault.readings.length > 1 ? `${fault.found} can be read two ways.` : `${fault.found} is not what is asked for.`}</b>{" "}
            {fault.readings.length > 1 ? "Which one is on the tape?" : `Expected ${fault.expected}, such as ${fault.example}.`}
          </p>
          <div class="walk-picks">
            {fault.readings.map((reading) => (
              <button key={reading} onClick={() => meant(bareOf(reading))}>
                {reading}
                {/\d$/.test(reading) ? ` ${unit.value}` : ""}
              </button>
            ))}
          </div>
        </div>
      ))}
    </div>
  );
}

/** A possible reading without its side: that is chosen beside the figure. */
const bareOf = (reading: string): string => reading.replace(/ (ahead|behind|left|right)$/, "");

function Slips() {
  return (
    <div role="alert">
      {slips.value.map((slip) => (
        <div class="walk-slip" key={slip.path.join(".")}>
          <p>{slip.says}</p>
          {steps.value.some((one) => one.path.join() === slip.path.join()) && (
            <button onClick={() => readAgain(slip)}>Read it again</button>
          )}
        </div>
      ))}
    </div>
  );
}

function Sides({ one }: { one: WalkStep }) {
  return (
    <div class="pick-row" role="group" aria-label="Which way">
      <span>lies</span>
      {one.sides.map((way) => (
        <button
          key={way}
          aria-pressed={side.value === way}
          onClick={() => {
            side.value = way;
          }}
        >
          {way}
        </button>
      ))}
    </div>
  );
}

function ReadByRow() {
  return (
    <div class="pick-row" role="group" aria-label="Read by">
      <span>read by</span>
      {walk.value?.read_by.map((way) => (
        <button
          key={way.name}
          aria-pressed={readBy.value === way.name && !text.value.includes("±")}
          onClick={() => {
            readBy.value = way.name;
            text.value = text.value.replace(/ ?±.*$/, "");
          }}
        >
          {way.name}
          <small>
            ± {unit.value === "mm" ? way.mm : way.inch} {unit.value}
          </small>
        </button>
      ))}
      <button aria-pressed={text.value.includes("±")} onClick={() => type("±")}>
        {OWN}
        <small>± {text.value.split("±")[1]?.trim() || "…"}</small>
      </button>
    </div>
  );
}

function Over({ one }: { one: WalkStep }) {
  return (
    <div class="pick-row" role="group" aria-label="Taken over">
      <span>over</span>
      {one.over?.choices.map((choice) => (
        <button
          key={choice}
          aria-pressed={one.over?.now === choice}
          onClick={() => void takenOver(choice)}
        >
          {choice}
        </button>
      ))}
    </div>
  );
}

function Gives({ one }: { one: WalkStep }) {
  const waiting = heldAt(one) !== undefined;
  if (waiting) {
    return (
      <p class="walk-gives">
        Kept here. Written together with: <b>{waitsFor.value.join("; ") || "what it goes with"}</b>.
      </p>
    );
  }
  const [before, ...rest] = one.gives.split(": ");
  return one.gives === "" ? null : (
    <p class="walk-gives">
      {before}
      {rest.length > 0 && (
        <>
          : <b>{rest.join(": ")}</b>
        </>
      )}
    </p>
  );
}
