// A fault tried on the diagram: the part in hand, what can be wrong in it, and what it does.

import "./fault.css";

import { useEffect, useRef } from "preact/hooks";

import { drawnAs, fault, pageOf, part, pick, picked, putRight, replay, told, trouble, tryOn } from "./fault_state";
import { rowsOf } from "./effects";
import type { Fault, Part } from "./fault_state";
import { page, positionOf, state, turn, wiring } from "./state";
import type { Handle } from "./state";

/** The part in hand with its faults, and a list to pick any part from. */
export function FaultTry() {
  if (told.value === null || told.value.parts.length === 0) return null;
  return (
    <section class="fault-try" aria-label="Try a fault">
      <h3>Try a fault</h3>
      {trouble.value !== "" && <p role="alert">{trouble.value}</p>}
      <label class="fault-pick">
        Tap a part of the drawing, or pick one
        <select value={part.value?.name ?? ""} onChange={(event) => taken(event.currentTarget.value)}>
          <option value="">no part</option>
          {told.value.parts.map((one) => (
            <option key={one.name} value={one.name}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      <InHand />
    </section>
  );
}

/** Turns to the page that shows a part picked from the list. */
function taken(name: string): void {
  pick(name);
  const shows = part.value?.page ?? 0;
  if (shows > 0) page.value = shows;
}

function InHand() {
  const own = part.value;
  const seen = useInSight<HTMLDivElement>(own?.name ?? "");
  if (own === null) {
    if (picked.value === "") return null;
    return <p class="wire-says">Nothing is tried in {picked.value} itself: take a wire to it, its fuse or its ground.</p>;
  }
  const handle = handleOf(own);
  return (
    <div class="fault-choices" ref={seen} role="group" aria-label={own.name}>
      {handle !== undefined && (
        <button onClick={() => turn(handle)}>
          Work it <span>{positionOf(handle) === "rest" ? "at rest" : positionOf(handle)}</span>
        </button>
      )}
      {own.faults.map((one) => (
        <button key={one.kind + one.of} aria-pressed={same(one)} onClick={() => (same(one) ? putRight() : tryOn(one))}>
          {one.says}
        </button>
      ))}
    </div>
  );
}

const same = (one: Fault): boolean => fault.value?.kind === one.kind && fault.value.of === one.of;

/** What is put by hand to work a part: the switch itself, a door, a unit's state. */
export function handleOf(own: Part): Handle | undefined {
  return wiring.value?.handles.find((one) => one.name === own.worked_by);
}

/** The fault that is on, one tap to put it right, and what it does in the state that is put. */
export function FaultOn() {
  const on = fault.value;
  const seen = useInSight<HTMLElement>(on?.says ?? "");
  useEffect(() => {
    if (on !== null && replay.value === null && !isShown(drawnAs(on)) && pageOf(on) > 0) page.value = pageOf(on);
  }, [on]);
  if (on === null) return null;
  return (
    <section class="fault-on" ref={seen} aria-label="Fault tried">
      <p class="fault-name">
        <Cross />
        <b>{on.says}</b>
      </p>
      <button class="ink-button" onClick={putRight}>
        Put it right
      </button>
      <Effects />
    </section>
  );
}

/** Whether the page that is turned up draws a thing, not only where a wire leads to it. */
const isShown = (own: string): boolean =>
  [...document.querySelectorAll(".wire-ground g[data-of]")].some((one) => {
    const of = one.getAttribute("data-of") ?? "";
    return !of.startsWith("lead ") && of.slice(of.indexOf(" ") + 1) === own;
  });

/** Brings what was just taken or tried into sight beside the drawing. */
function useInSight<T extends HTMLElement>(which: string) {
  const place = useRef<T>(null);
  useEffect(() => {
    if (which !== "") place.current?.scrollIntoView({ block: "nearest" });
  }, [which]);
  return place;
}

function Effects() {
  const now = state.value;
  const tried = now?.tried;
  if (!now || !tried || tried.says !== fault.value?.says) return null;
  if (!now.settled) return <p role="status">With it relays find no rest here: they chatter.</p>;
  const rows = rowsOf(tried);
  return (
    <div role="status">
      {rows.length === 0 && <p>Here it changes nothing. Turn the key and work switches to see what it does.</p>}
      <dl class="fault-effects">
        {rows.map(([head, words]) => (
          <div key={head}>
            <dt>{head}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}

export function Cross() {
  return (
    <svg class="fault-cross" viewBox="0 0 16 16" aria-hidden="true">
      <path d="M2 2 14 14M14 2 2 14" />
    </svg>
  );
}
