// The sheet that rises to write a note, to keep a photo, or to look at either.

import { signal } from "@preact/signals";

import { name } from "../model/bench";
import type { Note, Subject } from "./notes";

export interface Rises {
  readonly subject: Subject;
  readonly file: File | null; // a photo to keep
  readonly note: Note | null; // one that is there already
}

export const risen = signal<Rises | null>(null);

const key = (one: Rises): string =>
  `note:${name.value}:${JSON.stringify([one.note === null ? (one.file === null ? "note" : "photo") : one.note, one.subject.kind, one.subject.about])}`;

/** What was typed and not written yet: it is there when the sheet rises again, after a reload as well. */
export function draft(one: Rises): string {
  try {
    return sessionStorage.getItem(key(one)) ?? one.note?.says ?? "";
  } catch {
    return one.note?.says ?? "";
  }
}

export function keepDraft(one: Rises, words: string): void {
  try {
    sessionStorage.setItem(key(one), words);
  } catch {
    // a browser that stores nothing: they stay as long as the sheet is up
  }
}

export function dropDraft(one: Rises): void {
  try {
    sessionStorage.removeItem(key(one));
  } catch {
    // nothing was stored
  }
}

export const write = (subject: Subject): void => {
  risen.value = { subject, file: null, note: null };
};
export const keep = (subject: Subject, file: File): void => {
  risen.value = { subject, file, note: null };
};
export const look = (note: Note): void => {
  risen.value = { subject: note, file: null, note };
};
