// The gate page: what a lock would freeze, what is worth doing first, and the word that it is done.

import { signal } from "@preact/signals";

import { hold, keyOf } from "../model/bench";
import type { Finding } from "../server";
import { Mark } from "../sheet/mark";
import { Figure } from "../sheet/figure";
import { Said } from "../words/said";
import { draw, drive, driven, frozenBy, gate, left } from "./locks";
import { Vignette } from "./vignette";
import { AGAIN, Worth } from "./worth";

const AFTER: Record<string, string> = {
  carpet: "After this a wire is laid anew only with the carpet out again.",
  "wood is cut": "After this a bigger panel means new wood.",
  "glue-up": "After this the panels are one piece: they can be trimmed, not moved.",
  covering: "After this no edge can be trimmed any more.",
  refit: "After this every change takes the console out again.",
};

/** The builder's words for each stop that goes under the lock. */
const words = signal<ReadonlyMap<string, string>>(new Map());

export function Gate() {
  const lock = gate.value;
  const freezes = frozenBy(lock);
  const shown = freezes.filter((one) => one.rule !== AGAIN);
  return (
    <div class="gate">
      <header>
        <h2>{driven(lock) ? `Done: ${lock}` : `Before ${lock}: ${freezes.length === 0 ? "nothing open" : `${freezes.length} would freeze`}`}</h2>
        <p>
          <Said text={AFTER[lock] ?? ""} />
        </p>
        <button onClick={() => (gate.value = "")}>Back to the drawing</button>
      </header>
      <section class="freezes" aria-label="What would freeze">
        {shown.map((one) => (
          <Frozen key={keyOf(one)} one={one} />
        ))}
        {shown.length === 0 && <p class="quiet">Every check before this passed with its limit.</p>}
      </section>
      <Worth lock={lock} freezes={freezes} />
      {driven(lock) ? (
        <footer>
          <button onClick={() => void draw(lock)}>It is not done yet</button>
        </footer>
      ) : (
        <Foot lock={lock} stops={shown.filter((one) => one.grade === "stop" && !left(one))} />
      )}
    </div>
  );
}

function Frozen({ one }: { one: Finding }) {
  return (
    <button
      class="frozen"
      onClick={() => {
        gate.value = "";
        hold(one);
      }}
    >
      <Vignette one={one} />
      <Mark grade={one.grade} number={one.number} />
      <span>
        <small>
          {one.place.replaceAll(" > ", ", ")}
          {one.zone !== "" && ` · ${one.zone}`}
        </small>
        <b>{one.says}</b>
      </span>
      <span class="frozen-figure">
        <Figure words={one.figure} />
        {one.limit !== "" && (
          <small>
            wanted <Figure words={one.limit} unit={false} />
          </small>
        )}
      </span>
    </button>
  );
}

function Foot({ lock, stops }: { lock: string; stops: readonly Finding[] }) {
  const said = (one: Finding): string => words.value.get(one.place) ?? "";
  const write = (): void => {
    const answered = new Map(stops.map((one) => [one.place, said(one).trim()]));
    void drive(lock, answered).then(() => (words.value = new Map()));
  };
  return (
    <form
      class="gate-foot"
      onSubmit={(event) => {
        event.preventDefault();
        write();
      }}
    >
      {stops.length > 0 && <p>Every open stop is answered in writing; the build book prints these words.</p>}
      {stops.map((one) => (
        <label key={one.place}>
          {one.place}: why it goes on all the same
          <input
            required
            maxLength={200}
            autocomplete="off"
            value={said(one)}
            onInput={(event) => (words.value = new Map(words.value).set(one.place, event.currentTarget.value))}
          />
        </label>
      ))}
      <button class="ink-button">Drive the peg: {lock} is done</button>
    </form>
  );
}
