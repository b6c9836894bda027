// Notes where they belong: small pictures with their line, and two quiet actions to add one.

import "./notes.css";

import { notesOf, pictureOf } from "./notes";
import type { Note, Subject } from "./notes";
import { keep, look, write } from "./sheet";

interface About {
  readonly kind: Subject["kind"];
  readonly names: readonly string[]; // all it answers to; a new note takes the first
}

export function Notes({ kind, names }: About) {
  const subject: Subject = { kind, about: names[0] ?? "" };
  return (
    <div class="notes">
      <Shown notes={notesOf(kind, names)} />
      <div class="notes-add">
        <button onClick={() => write(subject)}>Note</button>
        <label>
          Photo
          <input
            type="file"
            accept="image/*"
            capture="environment"
            aria-label={subject.about === "" ? "Photo" : `Photo at ${subject.about}`}
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              event.currentTarget.value = ""; // the same picture can be chosen again
              if (file !== undefined) keep(subject, file);
            }}
          />
        </label>
      </div>
    </div>
  );
}

export function Shown({ notes }: { notes: readonly Note[] }) {
  if (notes.length === 0) return null;
  return (
    <ul class="notes-shown">
      {notes.map((one) => (
        <li key={one.number} class={one.photo === "" ? "" : "pictured"}>
          <button onClick={() => look(one)}>
            {one.photo !== "" && <img src={pictureOf(one)} alt={one.says || "Photo"} loading="lazy" />}
            {one.says !== "" && <span>{one.says}</span>}
            {one.lacks !== "" && <span class="notes-lacks">{one.lacks}</span>}
          </button>
        </li>
      ))}
    </ul>
  );
}
