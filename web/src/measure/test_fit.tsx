// The test fit: probe by probe at the car, and what each reading changed.

import { useEffect } from "preact/hooks";

import { name, refresh, standing } from "../model/bench";
import { Notes } from "../notes/shown";
import { turnTo } from "../places";
import {
  AT_LEAST,
  faults,
  how,
  learned,
  next,
  open,
  pick,
  probes,
  readOf,
  reads,
  skip,
  TOUCHES,
  trouble,
  type,
  words,
  working,
  written,
} from "./fit_readings";
import { Keypad } from "./keypad";
import type { Probe } from "./messages";
import { pressed } from "./pressed";
import "./measure.css";

export function TestFit() {
  useEffect(() => {
    void open();
    addEventListener("keydown", onKey);
    return () => removeEventListener("keydown", onKey);
  }, [name.value]);
  const unit = standing.value?.unit ?? "mm";
  const own = written.value.filter((one) => probes.value.every((probe) => probe.words !== one.words));
  return (
    <main class="walk try">
      <header class="walk-top">
        <h1>try in</h1>
        <span>{written.value.length} read</span>
        <button
          class="walk-back"
          onClick={() => {
            turnTo("fit");
            void refresh();
          }}
        >
          Back to the sheet
        </button>
      </header>
      <div class="try-list">
        <p>Bare console in the car, carpet down, bolts done up as they will stay.</p>
        {learned.value && <What />}
        {[...probes.value, ...own].map((one) => (
          <Row key={one.words} one={one} />
        ))}
        <label class="try-own">
          another place: an edge and where along it, such as left wall daylight at 420 behind
          <input value={words.value} maxLength={200} onInput={(event) => pick(event.currentTarget.value)} />
        </label>
      </div>
      <Entry unit={unit} />
      <Keypad unit={unit} type={type} skip={skip} next={() => void next()} />
    </main>
  );
}

function Row({ one }: { one: Probe }) {
  const read = readOf(one.words);
  return (
    <button class="try-row" aria-pressed={one.words === words.value} onClick={() => pick(one.words)}>
      <b>{one.words}</b>
      <span class="try-read">{read ?? ""}</span>
      {one.where !== "" && <span>{one.where}</span>}
      {one.expected !== "" && (
        <span>
          {one.tool}; expect {one.expected}
        </span>
      )}
    </button>
  );
}

function Entry({ unit }: { unit: string }) {
  return (
    <section class={`walk-entry${faults.value.length > 0 ? " bad" : ""}`}>
      <p class="try-hand">{words.value === "" ? "Pick a place to probe" : words.value}</p>
      <div class="entry entry-one">
        <output aria-label="Reads" aria-live="polite">
          {how.value === TOUCHES ? TOUCHES : reads.value}
          <i aria-hidden="true" />
        </output>
        <span>{unit}</span>
      </div>
      <div class="walk-wrong" role="alert">
        {trouble.value !== "" && <p class="try-trouble">{trouble.value}</p>}
        {faults.value.map((fault) => (
          <div key={fault.path.join(".")}>
            <p>
              <b>{fault.found}</b> Expected {fault.expected}, such as {fault.example}.
            </p>
            <div class="walk-picks">
              {fault.readings.map((reading) => (
                <button
                  key={reading}
                  onClick={() => {
                    reads.value = reading;
                    faults.value = [];
                  }}
                >
                  {reading}
                </button>
              ))}
            </div>
          </div>
        ))}
      </div>
      <div class="pick-row" role="group" aria-label="How it reads">
        {[["", "reads"], [AT_LEAST, "passes freely: at least"], [TOUCHES, "touches"]].map(([way, says]) => (
          <button
            key={way}
            aria-pressed={how.value === way}
            onClick={() => {
              how.value = way ?? "";
            }}
          >
            {says}
          </button>
        ))}
      </div>
      {words.value !== "" && <Notes kind="reading" names={[`test fit ${words.value}`]} />}
      {working.value && <p class="walk-gives">Weighing all doubts with this reading</p>}
    </section>
  );
}

function What() {
  const now = learned.value;
  if (now === null) return null;
  return (
    <div class="try-what" role="status">
      {now.told !== "" && <p class={now.puzzle === "" ? "" : "try-puzzle"}>{now.told}</p>}
      <table>
        <caption>
          All together: {now.before} sure before, <b>{now.after} now</b>
        </caption>
        <thead>
          <tr>
            <th>gap</th>
            <th>9 in 10 now</th>
            <th>sure</th>
          </tr>
        </thead>
        <tbody>
          {now.gaps.map((gap) => (
            <tr key={gap.gap}>
              <th>{gap.gap}</th>
              <td>{gap.span}</td>
              <td>
                {gap.before === gap.after ? gap.after : `${gap.before} > ${gap.after}`}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function onKey(event: KeyboardEvent): void {
  const key = pressed(event, standing.value?.unit ?? "mm");
  if (key === null) return;
  event.preventDefault();
  if (key === "Enter") void next();
  else type(key);
}
