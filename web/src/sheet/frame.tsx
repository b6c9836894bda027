// The sheet: the index of places in its head margin, notices, and the frame around what a place shows.

import type { Signal } from "@preact/signals";
import type { ComponentChildren } from "preact";

import { called, heard, notice, undo } from "../model/bench";
import { waiting as kept } from "../model/kept";
import { light, turn } from "../model/light";
import { Clash } from "./clash";
import { Faulty } from "./faulty";
import { place, places, turnTo } from "../places";
import { ShareButton } from "../share/share-button";

interface Shown {
  readonly says: string;
  /** On a phone what is drawn opens from the title strip. */
  readonly opens?: Signal<boolean> | undefined;
  readonly children: ComponentChildren;
}

export function Sheet({ says, opens, children }: Shown) {
  const waiting = kept.value;
  return (
    <main class="sheet">
      <Head says={says} opens={opens} />
      {!heard.value && (
        <p class="notice" role="status">
          No connection to the bench. What is drawn is as it was last heard.
          {waiting.length > 0 && ` ${waiting.length === 1 ? "1 edit" : `${waiting.length} edits`} kept here:`}
          {waiting.map((one, k) => (
            <span class="waiting" key={k}>
              {one.says}
            </span>
          ))}
          {waiting.length > 0 && <button onClick={() => void undo()}>Let the last one go</button>}
        </p>
      )}
      <Clash />
      {notice.value !== "" && (
        <p class="notice" role="status">
          {notice.value}
        </p>
      )}
      <Faulty />
      <div class="frame">{children}</div>
    </main>
  );
}

function Head({ says, opens }: { says: string; opens: Signal<boolean> | undefined }) {
  const at = places.indexOf(place.value);
  return (
    <header class="head">
      <nav class="places" aria-label="Sheets">
        {places.map((one, k) => (
          <button
            key={one.name}
            aria-current={one === place.value ? "page" : undefined}
            onClick={() => turnTo(one.name)}
          >
            <i>{k + 1}</i>
            {one.name}
          </button>
        ))}
      </nav>
      <div class="strip">
        <h1>{called.value}</h1>
        {opens ? (
          <button aria-expanded={opens.value} onClick={() => (opens.value = !opens.value)}>
            {says}
          </button>
        ) : (
          <p>{says}</p>
        )}
      </div>
      {places.length > 1 && (
        <label class="strip-place">
          <span>
            {at + 1} of {places.length}
          </span>
          <select value={place.value.name} onChange={(event) => turnTo(event.currentTarget.value)}>
            {places.map((one) => (
              <option key={one.name}>{one.name}</option>
            ))}
          </select>
        </label>
      )}
      <ShareButton />
      <button class="light" onClick={turn}>
        {light.value === "day" ? "night" : "day"}
      </button>
    </header>
  );
}
