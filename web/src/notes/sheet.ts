// The sheet that rises to write a note, to keep a photo, or to look at either.

import { signal } from "@preact/signals";

import type { Note, Subject } from "./notes";

export interface Rises {
  readonly subject: Subject;
  readonly file: File | null; // a photo to keep
  readonly note: Note | null; // one that is there already
}

export const risen = signal<Rises | null>(null);

const drafts = new Map<string, string>();
const key = (one: Rises): string =>
  JSON.stringify([one.note === null ? (one.file === null ? "note" : "photo") : one.note, one.subject.kind, one.subject.about]);

/** What was typed and not written yet; it is there again when the sheet rises again. */
export const draft = (one: Rises): string => drafts.get(key(one)) ?? one.note?.says ?? "";
export const keepDraft = (one: Rises, words: string): void => void drafts.set(key(one), words);
export const dropDraft = (one: Rises): void => void drafts.delete(key(one));

export const write = (subject: Subject): void => {
  risen.value = { subject, file: null, note: null };
};
export const keep = (subject: Subject, file: File): void => {
  risen.value = { subject, file, note: null };
};
export const look = (note: Note): void => {
  risen.value = { subject: note, file: null, note };
};
