// At the foot of the slip: every note of the build, and new ones at a part or the whole.

import { signal } from "@preact/signals";

import { askParts, parts, told } from "./notes";
import type { Note } from "./notes";
import { Notes, Shown } from "./shown";

const part = signal("");

export function AllNotes() {
  const notes = told.value?.notes ?? [];
  const others = notes.filter((one) => (part.value === "" ? one.kind !== "" : one.kind !== "part" || one.about !== part.value));
  return (
    <details
      class="all-notes"
      onToggle={(event) => {
        if (event.currentTarget.open) askParts().catch(() => undefined); // the whole build is there to choose
      }}
    >
      <summary>{notes.length === 0 ? "Notes and photos" : `Notes and photos: ${notes.length}`}</summary>
      <label class="notes-part">
        about
        <select value={part.value} onChange={(event) => (part.value = event.currentTarget.value)}>
          <option value="">the whole build</option>
          {parts.value.map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <Notes kind={part.value === "" ? "" : "part"} names={[part.value]} />
      {grouped(others).map(([about, group]) => (
        <section key={about}>
          <h4>{about.replaceAll(" > ", ", ") || "the whole build"}</h4>
          <Shown notes={group} />
        </section>
      ))}
    </details>
  );
}

/** Notes by what they are about, in the order of the file. */
function grouped(notes: readonly Note[]): readonly (readonly [string, readonly Note[]])[] {
  const names = [...new Set(notes.map((one) => one.about))];
  return names.map((about) => [about, notes.filter((one) => one.about === about)] as const);
}
