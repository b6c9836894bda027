// The wiring sheet: the diagram with what is live inked, and the key, the switches and the doors to work.

import "./wire.css";

import { useEffect } from "preact/hooks";

import { Diagram } from "./diagram";
import { FaultOn, FaultTry } from "./fault";
import { keepFaults, replay } from "./fault_state";
import { MeterWork, Views } from "./meter";
import { metering } from "./meter_state";
import { doing, keepParts } from "./part";
import { PartPanel } from "./part_panel";
import { Turns } from "./part_turns";
import { Plan } from "./plan";
import { Replayed, Rules } from "./rules";
import { keepWiring, mode, page, positionOf, shown, trouble, turn, wiring } from "./state";
import type { Handle } from "./state";

export function Wire() {
  useEffect(keepWiring, []);
  useEffect(keepFaults, []);
  useEffect(keepParts, []);
  const told = wiring.value;
  return (
    <div class={metering.value && doing.value === "work" ? "wire metering" : "wire"}>
      <Turns />
      {doing.value !== "work" && <PartPanel />}
      <section class="wire-work" aria-label="Work the switches" hidden={doing.value !== "work"}>
        <h2>Wiring</h2>
        {trouble.value !== "" && (
          <p class="notice" role="alert">
            {trouble.value}
          </p>
        )}
        {told === null && <p role="status">Drawing the wiring</p>}
        {told !== null && told.pages.length === 0 && (
          <p class="wire-says">Nothing is wired yet. Turn to change, and begin with a load.</p>
        )}
        {told !== null && told.pages.length > 0 && <Views />}
        {told !== null && told.pages.length > 0 && metering.value && <MeterWork />}
        {told !== null && told.pages.length > 0 && !metering.value && (
          <>
            <Replayed />
            {replay.value === null && (
              <>
                <FaultOn />
                <FaultTry />
                <Modes modes={told.modes} />
              </>
            )}
            <On />
            <h3>Put by hand</h3>
            <ul class="wire-handles">
              {told.handles.map((one) => (
                <Worked key={one.name} one={one} />
              ))}
            </ul>
            <Rules />
          </>
        )}
      </section>
      {doing.value === "plan" && <Plan />}
      {told !== null && told.pages.length > 0 && doing.value !== "plan" && (
        <section class="wire-sheet" aria-label="The diagram">
          <nav class="wire-pages" aria-label="Pages of the diagram">
            {told.pages.map((one) => (
              <button key={one.number} aria-pressed={page.value === one.number} onClick={() => (page.value = one.number)}>
                {one.title.replace(/^wiring diagram /, "page ")}
              </button>
            ))}
          </nav>
          <Diagram number={page.value} version={told.version} />
        </section>
      )}
    </div>
  );
}

function Modes({ modes }: { modes: readonly string[] }) {
  return (
    <fieldset class="wire-modes">
      <legend>The car</legend>
      {modes.map((one) => (
        <label key={one}>
          <input type="radio" name="mode" checked={mode.value === one} onChange={() => (mode.value = one)} />
          {one}
        </label>
      ))}
    </fieldset>
  );
}

/** A switch or door: a tap puts it into its next position. */
function Worked({ one }: { one: Handle }) {
  const now = positionOf(one);
  const rests = now === one.positions[0];
  return (
    <li>
      <button aria-pressed={!rests} onClick={() => turn(one)}>
        <span>{one.name}</span>
        <span class="wire-position">{said(now)}</span>
      </button>
    </li>
  );
}

/** A position in words; a door that is said to be open is, yes, or is not, no. */
const said = (position: string): string => (position === "rest" ? "at rest" : position);

function On() {
  const now = shown.value;
  if (now === null) return null;
  if (!now.settled) return <p role="status">Relays find no rest here: they chatter.</p>;
  return (
    <>
      <h3>On now</h3>
      <p class="wire-on" role="status">
        {now.on.length === 0
          ? "Nothing."
          : now.on.map((one, k) => (
              <span key={one.name}>
                {k > 0 && ", "}
                {one.name} <b>{one.volts === "" ? "off" : one.volts}</b>
              </span>
            ))}
      </p>
      {now.by_volts.map((says) => (
        <p class="wire-says" key={says}>
          {says}.
        </p>
      ))}
    </>
  );
}
