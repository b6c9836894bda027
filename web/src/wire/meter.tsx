// The meter: one reading after the other, where the probes go, what is expected, and what a wrong one speaks of.

import "./meter.css";

import { useEffect } from "preact/hooks";

import { standing, undo } from "../model/bench";
import { Mark } from "../sheet/mark";
import { go, keepMeter, left, meter, metering, next, passed, reading, round, take, takeNamed, takeOut, trouble, tryLikely, typed } from "./meter_state";
import type { Likely, Reading } from "./meter_state";
import { bare, turned } from "./meter_typed";
import { Span } from "./meter_span";

export function MeterWork() {
  useEffect(keepMeter, []);
  const told = meter.value;
  const one = reading.value;
  if (told === null) return <p role="status">Solving every reading, with nothing wrong and with each single fault</p>;
  if (one === null) {
    return <p class="wire-says">No voltage can be computed yet: the battery, with what is inside it, and a load that can work are needed.</p>;
  }
  return (
    <div class="meter">
      <Passed />
      <Head one={one} />
      <Where one={one} />
      <Entry one={one} />
      <Verdict one={one} />
      <Foot one={one} />
      <All />
      {told.lost.length > 0 && <p class="wire-says">Nothing is expected there, so not judged: {told.lost.join(", ")}.</p>}
    </div>
  );
}

/** Work the switches, or read the meter. */
export function Views() {
  return (
    <div class="wire-views" role="group" aria-label="What is done">
      <button aria-pressed={!metering.value} onClick={() => (metering.value = false)}>
        Work it
      </button>
      <button aria-pressed={metering.value} onClick={() => (metering.value = true)}>
        Meter
      </button>
    </div>
  );
}

/** What was just found as expected; until there is something, what to mind before the probes touch anything. */
function Passed() {
  if (passed.value === "") {
    return (
      <p class="meter-mind">
        <Mark grade="look" /> Meter on volts before it touches anything; rings and watch off; out of gear, hands clear of what may turn.
      </p>
    );
  }
  return (
    <p class="meter-passed" role="status">
      <Mark grade="good" /> {passed.value}
    </p>
  );
}

function Head({ one }: { one: Reading }) {
  const all = round.value;
  return (
    <header class="meter-head">
      <h3>{one.name}</h3>
      <p class="wire-says">
        {all.indexOf(one) + 1} of {all.length}
        {left.value === 0 ? ", all read" : `, ${left.value} to read`}
      </p>
    </header>
  );
}

function Where({ one }: { one: Reading }) {
  return (
    <dl class="meter-where">
      <dt>red</dt>
      <dd>{one.red}</dd>
      <dt>black</dt>
      <dd>{one.black}</dd>
      <dt>the car</dt>
      <dd>{one.stands.join(", ")}</dd>
    </dl>
  );
}

function Entry({ one }: { one: Reading }) {
  return (
    <form
      class={`meter-entry${one.verdict === "wrong" ? " bad" : ""}`}
      onSubmit={(event) => {
        event.preventDefault();
        void next();
      }}
    >
      <Span one={one} />
      <label for="meter-reads">
        Read, expected <b>{one.expected}</b>
      </label>
      <div class="meter-field">
        <input
          id="meter-reads"
          inputMode="decimal"
          autocomplete="off"
          enterKeyHint="next"
          value={typed.value}
          aria-describedby="meter-wrong"
          onInput={(event) => (typed.value = event.currentTarget.value)}
        />
        <span>V</span>
        <button type="button" aria-label="Turn the sign: the probes the other way round" onClick={() => (typed.value = turned(typed.value))}>
          +/−
        </button>
      </div>
      <p id="meter-wrong" class="meter-wrong" role="alert">
        {trouble.value}
      </p>
      <div class="meter-acts">
        <button type="button" onClick={() => go(-1)}>
          Back
        </button>
        {/* the field keeps the keys of a phone up from one reading to the next */}
        <button class="ink-button" onMouseDown={(event) => event.preventDefault()}>
          Next
        </button>
      </div>
    </form>
  );
}

function Verdict({ one }: { one: Reading }) {
  if (one.verdict === "") return null;
  if (one.verdict === "good") {
    return (
      <p class="meter-good" role="status">
        <Mark grade="good" /> {bare(one.reads)} V is as expected.
      </p>
    );
  }
  return (
    <section class="meter-likely" aria-label="What it speaks of">
      <p role="status">
        <Mark grade="change" /> <b>{bare(one.reads)} V is not as expected.</b> {leads(one)}
      </p>
      {one.likely.length > 0 && (
        <ul>
          {one.likely.map((fault) => (
            <Suspect key={fault.fault.kind + fault.fault.of} one={fault} />
          ))}
        </ul>
      )}
      {one.more > 0 && <p class="wire-says">And {one.more} more that fit less well or as well.</p>}
      <p class="wire-says">
        That nothing is wrong: {one.nothing}; something not in this list: {one.other}.
      </p>
      {one.following !== "" && (
        <button class="meter-following" onClick={() => takeNamed(one.following)}>
          Read next: {one.following}. It parts these best.
        </button>
      )}
    </section>
  );
}

function leads(one: Reading): string {
  if (one.likely.length === 0) return "No single fault explains it.";
  return one.tied > 1 ? `Most likely first; it may well be any of the first ${one.tied}.` : "Most likely first:";
}

/** A likely fault: a tap tries it on the diagram. */
function Suspect({ one }: { one: Likely }) {
  return (
    <li>
      <button onClick={() => tryLikely(one)}>
        <span>{one.fault.says}</span>
        <span class="meter-fits">
          <b>{one.chance}</b>, shows {one.shows}, {one.fits}
        </span>
      </button>
    </li>
  );
}

function Foot({ one }: { one: Reading }) {
  const last = standing.value?.last ?? "";
  const undone = last.startsWith("Meter at ") && standing.value?.can_undo;
  return (
    <div class="meter-foot">
      {one.index !== null && <button onClick={() => void takeOut(one)}>Take this reading out</button>}
      {undone && <button onClick={() => void undo()}>Undo: {last}</button>}
    </div>
  );
}

function All() {
  const all = meter.value?.readings ?? [];
  return (
    <details class="meter-all">
      <summary>All {all.length} places to read at</summary>
      <ul>
        {all.map((one) => (
          <li key={one.name}>
            <button class={one.chosen ? "worth" : ""} aria-current={one === reading.value} onClick={() => take(one)}>
              {one.verdict !== "" ? <Mark grade={one.verdict === "good" ? "good" : "change"} /> : <i />}
              <span>{one.name}</span>
              <span class="meter-fits">{one.reads === "" ? one.expected : `${bare(one.reads)} V`}</span>
            </button>
          </li>
        ))}
      </ul>
      <p class="wire-says">In bold those that together see every single fault that stops a load.</p>
    </details>
  );
}
