// The title block in the sheet's corner: what is drawn, and how; what can be changed has a triangle.

import { signal } from "@preact/signals";

import { called, drawAs, drawn, fit, views } from "../model/bench";
import { place, places } from "../places";
import type { Drawn } from "../server";

export const VIEWS = { side: "Side, A, B", plan: "Plan, A, B" } as const;
export type Main = keyof typeof VIEWS;
export const main = signal<Main>("side");
/** On a phone the title block opens from the title strip. */
export const opened = signal(false);

const DRAWN: Record<Drawn, string> = {
  covered: "covered, at rest",
  "test fit": "bare, at test fit",
  "as cut": "as cut",
  "engine moved": "engine moved",
};

export function TitleBlock() {
  const missing = views.value?.missing ?? [];
  return (
    <dl class={`title${opened.value ? " opened" : ""}`}>
      <div class="wide">
        <dt>build</dt>
        <dd>{called.value}</dd>
      </div>
      <div>
        <dt>part · sheet</dt>
        <dd>
          Console · {places.indexOf(place.value) + 1} of {places.length}
          <svg class="angle" viewBox="0 0 34 16" aria-label="First angle">
            <path d="M1 4L12 1V15L1 12ZM0 8H13M17 8H33M25 0V16" />
            <circle cx="25" cy="8" r="7" />
            <circle cx="25" cy="8" r="4" />
          </svg>
        </dd>
      </div>
      <div>
        <dt>goes in first time</dt>
        <dd>{fit.value ? (fit.value.together === "" ? "not known" : `${fit.value.together} sure`) : "being weighed"}</dd>
      </div>
      <div class="choice">
        <dt id="title-view">view</dt>
        <dd>
          <select
            aria-labelledby="title-view"
            value={main.value}
            onChange={(event) => {
              main.value = event.currentTarget.value as Main;
            }}
          >
            {Object.entries(VIEWS).map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </select>
        </dd>
      </div>
      <div class="choice">
        <dt id="title-drawn">drawn</dt>
        <dd>
          <select
            aria-labelledby="title-drawn"
            value={drawn.value}
            onChange={(event) => drawAs(event.currentTarget.value as Drawn)}
          >
            {Object.entries(DRAWN).map(([key, words]) => (
              <option key={key} value={key}>
                {words}
              </option>
            ))}
          </select>
        </dd>
      </div>
      {missing.length > 0 && (
        <div class="wide missing">
          <dt>not measured, so not drawn</dt>
          <dd>{missing.join(", ")}</dd>
        </div>
      )}
    </dl>
  );
}
