// Notes and photos of the build on the bench: those there are, a new one, one changed, one taken out.

import { effect, signal } from "@preact/signals";

import type { components } from "../api";
import { name, refresh, standing } from "../model/bench";
import { patched } from "../model/kept";
import { answer, at, AwayError, ClashError, FaultsError, server } from "../server";
import type { Edit } from "../server";

type Schemas = components["schemas"];
export type Note = Schemas["NoteMessage"];
export type Notes = Schemas["NotesMessage"];
export type Parts = Schemas["PartsMessage"];
type NewNote = Schemas["NewNote"];
type Photo = Schemas["PhotoMessage"];

/** What a note is about; a name of no kind is the whole build. */
export interface Subject {
  readonly kind: Note["kind"];
  readonly about: string;
}

export const WHOLE: Subject = { kind: "", about: "" };
export const MOST_SIGNS = 400; // of one value in a build file
const MIB = 1024 * 1024;

export const told = signal<Notes | null>(null);
export const parts = signal<readonly string[]>([]);

effect(() => {
  const build = name.value;
  if (build === "" || standing.value?.version === undefined) return;
  answer<Notes>(at(build, "/notes"))
    .then((notes) => {
      if (name.value === build) told.value = notes;
    })
    .catch(() => undefined); // what is shown stays; the next version asks again
});

const same = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** The notes about something, by any name it answers to. */
export const notesOf = (kind: Subject["kind"], names: readonly string[]): readonly Note[] =>
  told.value?.notes.filter((one) => one.kind === kind && names.some((known) => same(known, one.about))) ?? [];

export const pictureOf = (one: Note): string =>
  at(name.value, `/photos/${one.photo.split("/").map(encodeURIComponent).join("/")}`);

export async function askParts(): Promise<void> {
  parts.value = (await answer<Parts>(at(name.value, "/parts"))).parts;
}

/** Writes a note, its picture first; returns what is wrong, or nothing once it is written. */
export async function add(subject: Subject, says: string, picture: File | null): Promise<string> {
  const most = told.value?.most_bytes;
  if (picture !== null && most !== undefined && picture.size > most) return tooLarge(picture.size, most);
  return tried(async () => {
    const sent = picture && (await answer<Photo>(at(name.value, "/photos"), picture));
    const note: NewNote = { ...subject, says, photo: sent?.photo ?? "" };
    told.value = await answer<Notes>(at(name.value, "/notes"), note);
  });
}

/** Gives a note other words; one without words or picture goes. */
export const change = (one: Note, says: string): Promise<string> => {
  const words = says.split(/\s+/).filter((word) => word !== "").join(" ");
  if (words === "" && one.photo === "" && one.lacks === "") return takeOut(one);
  const edit = { path: ["notes", one.number, "says"], value: words === "" ? null : words };
  return tried(() => written(edit, `Note changed${where(one)}`));
};

export const takeOut = (one: Note): Promise<string> =>
  tried(() => written({ path: ["notes", one.number], value: null }, `Take out the ${sort(one)}${where(one)}`));

const where = (one: Note): string => (one.about === "" ? "" : ` at ${one.about}`).slice(0, 160);
export const sort = (one: Note): string => (one.photo === "" && one.lacks === "" ? "note" : "photo");

async function written(edit: Edit, says: string): Promise<void> {
  await server.edit(name.value, told.value?.version ?? "", patched([edit], says));
}

async function tried(work: () => Promise<void>): Promise<string> {
  try {
    await work();
  } catch (error) {
    return said(error);
  }
  void refresh().catch(() => undefined); // it is written; the page catches up when it can
  return "";
}

const tooLarge = (bytes: number, most: number): string =>
  `The picture has ${Math.ceil(bytes / MIB)} MiB; at most ${Math.floor(most / MIB)} can be sent. Take it at the camera's usual size.`;

function said(error: unknown): string {
  if (error instanceof AwayError) return "No connection to the bench. What you wrote stays here: try again.";
  if (error instanceof ClashError) return "Someone else changed the notes meanwhile. Press it again.";
  if (error instanceof FaultsError) {
    return error.faults.map((one) => `Found ${one.found}; expected ${one.expected}.`).join(" ");
  }
  return error instanceof Error ? error.message : String(error);
}
