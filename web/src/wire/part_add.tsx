// Something new in the wiring: its fields, the needed ones first; a path is chosen stop by stop.

import { useState } from "preact/hooks";

import { Group } from "../fields/group";
import { TextField } from "../fields/text-field";
import { fieldAt, keyOf, names, tree, typed, write } from "../fields/typed";
import type { Field } from "../fields/typed";
import { adding, holdAt } from "./part";
import { LISTS } from "./part_words";
import { Stops } from "./part_stops";

/** What is asked before all else, beside what has to be there. */
const FIRST: Readonly<Record<string, readonly string[]>> = {
  loads: ["takes", "at", "live", "worked by"],
  trunks: ["long", "hole"],
  places: ["at", "off middle", "up"],
};

export function PartAdd({ to }: { to: string }) {
  void tree.value;
  const one = newOne(to);
  const [stops, go] = useState<readonly string[]>([]);
  if (one === undefined) return null;
  const called = LISTS.find((each) => each.key === to)?.one ?? to;
  const first = (field: Field): boolean => field.required || field.key === "at" || (FIRST[to] ?? []).includes(field.key);
  const texts = one.below.filter((field) => field.kind === "value");
  const lists = one.below.filter((field) => field.kind !== "value" && field.key !== "goes");
  const missing = texts.filter((field) => field.required && !(typed.value.get(keyOf(field.path)) ?? "").trim());
  const waits = missing.map((field) => field.key);
  if (to === "paths" && stops.length < 2) waits.push("two stops at least");
  return (
    <article class="part-slip part-new" aria-label={`A new ${called}`}>
      <button class="field-out" onClick={() => (adding.value = "")}>
        All parts
      </button>
      <h3>A new {called}</h3>
      <p class="field-says">{one.says.replaceAll("`", "")}.</p>
      <div class="field-grid">
        {texts.filter(first).map((field) => (
          <TextField key={keyOf(field.path)} one={field} />
        ))}
      </div>
      {to === "paths" && <Stops stops={stops} onChange={go} />}
      {texts.some((field) => !first(field)) && (
        <details>
          <summary>More of it</summary>
          <div class="field-grid">
            {texts
              .filter((field) => !first(field))
              .map((field) => (
                <TextField key={keyOf(field.path)} one={field} />
              ))}
          </div>
        </details>
      )}
      {lists.map((field) => (
        <Group key={keyOf(field.path)} one={field} />
      ))}
      {waits.length > 0 ? (
        <p class="field-says">Still needed: {waits.join(", ")}.</p>
      ) : (
        <button
          class="ink-button"
          onClick={async () => {
            const also = stops.map((value, n) => ({ path: [...one.path, "goes", n], value }));
            const taken = await write([...one.path, ""], to === "paths" ? also : []);
            if (taken) holdAt(one.path);
          }}
        >
          Write the {called} down
        </button>
      )}
    </article>
  );
}

/** The field of what would be added: one more of a list, or a key that is not there yet. */
function newOne(to: string): Field | undefined {
  void names.value;
  const field = fieldAt(["wiring", to]);
  return field?.kind === "list" ? (field.more ?? undefined) : field;
}
