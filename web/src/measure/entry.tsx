// The figure as typed, its unit, how and over what it was read, and what is wrong with it.

import type { Fault } from "../server";
import type { WalkStep } from "./messages";
import {
  faults,
  heldAt,
  meant,
  overNow,
  OWN,
  readAgain,
  readBy,
  say,
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
      {!bad && slips.value.length === 0 && (
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
        <small>{one.tail}</small>
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
        <button key={choice} aria-pressed={text.value === choice} onClick={() => say(choice)}>
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
            <b>{wrong(fault)}</b> {asks(fault)}
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

const WHICH = "Which one is on the tape?";

function wrong({ found, expected, example, readings }: Fault): string {
  const typed = found.replaceAll('"', "");
  if (readings.length === 0) return `${typed} is not what is asked for.`;
  if (example === "") return `${typed} is far off: it is ${expected} in most cars.`;
  return readings.length > 1 ? `${typed} can be read two ways.` : `${typed} is no figure as it stands.`;
}

function asks({ expected, example, readings }: Fault): string {
  if (readings.length > 0) return readings.length > 1 ? WHICH : "Is this on the tape?";
  return `Expected ${expected}${example === "" ? "" : `, such as ${example}`}.`;
}

/** A possible reading without its side: that is chosen beside the figure. */
const bareOf = (reading: string): string => reading.replace(/ (ahead|behind|left|right)$/, "");

function Slips() {
  return (
    <div role="alert">
      {slips.value.map((slip) => (
        <div class="walk-slip" key={slip.path.join(".")}>
          <p>{slip.says}</p>
          {slip.instead.length > 0 && (
            <details>
              <summary>It may be another reading instead</summary>
              <ul>
                {slip.instead.map((one) => (
                  <li key={one}>{one}</li>
                ))}
              </ul>
            </details>
          )}
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
          aria-pressed={one.over !== null && overNow(one.over) === choice}
          onClick={() => void takenOver(choice)}
        >
          {choice}
        </button>
      ))}
    </div>
  );
}

const OF_GAPS = /^((?:With this one can be checked|Needed for|It makes surer|It bears on|It decides): )(.*)$/;

function Gives({ one }: { one: WalkStep }) {
  const waiting = heldAt(one) !== undefined;
  if (waiting) {
    return (
      <p class="walk-gives">
        Kept here. Written together with: <b>{waitsFor.value.join("; ") || "what it goes with"}</b>.
      </p>
    );
  }
  const [, before, gaps] = OF_GAPS.exec(one.gives) ?? [undefined, one.gives, ""];
  return one.gives === "" ? null : (
    <p class="walk-gives">
      {before}
      {gaps !== "" && <b>{gaps}</b>}
    </p>
  );
}
