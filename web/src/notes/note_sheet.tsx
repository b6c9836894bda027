// The sheet itself: the picture large, the words, what can be done, and why something cannot.

import { useEffect, useRef, useState } from "preact/hooks";

import { add, change, MOST_SIGNS, pictureOf, sort, takeOut } from "./notes";
import { draft, dropDraft, keepDraft, risen } from "./sheet";
import type { Rises } from "./sheet";

const MIB = 1024 * 1024;

export function NoteSheet() {
  const one = risen.value;
  return one === null ? null : <Sheet key={JSON.stringify([one.subject, one.note?.number, one.file?.name])} one={one} />;
}

function Sheet({ one }: { one: Rises }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [words, setWords] = useState(draft(one));
  const [trouble, setTrouble] = useState("");
  const [working, setWorking] = useState("");
  useEffect(() => dialog.current?.showModal(), []);
  const act = async (doing: string, work: () => Promise<string>): Promise<void> => {
    if (working !== "") return;
    setWorking(doing);
    setTrouble("");
    const wrong = await work();
    setWorking("");
    setTrouble(wrong);
    if (wrong !== "") return;
    dropDraft(one);
    risen.value = null;
  };
  return (
    <dialog
      ref={dialog}
      class="note-sheet"
      aria-labelledby="note-sheet-head"
      onClose={() => {
        if (risen.value === one) risen.value = null;
      }}
    >
      <h2 id="note-sheet-head">{headOf(one)}</h2>
      {one.subject.about !== "" && <p class="note-about">{one.subject.about.replaceAll(" > ", ", ")}</p>}
      <Picture one={one} />
      <label>
        {one.file !== null || one.note?.photo ? "a line under it" : "in your own words"}
        <textarea
          rows={3}
          autofocus={one.note === null && one.file === null}
          maxLength={MOST_SIGNS}
          value={words}
          onInput={(event) => {
            setWords(event.currentTarget.value);
            keepDraft(one, event.currentTarget.value);
          }}
        />
      </label>
      <p class="note-trouble" role="alert">
        {trouble}
      </p>
      <p class="note-working" role="status">
        {working}
      </p>
      <Acts one={one} words={words} act={act} close={() => dialog.current?.close()} />
    </dialog>
  );
}

function headOf(one: Rises): string {
  if (one.note !== null) return sort(one.note) === "photo" ? "Photo" : "Note";
  return one.file === null ? "New note" : "New photo";
}

function Picture({ one }: { one: Rises }) {
  const [chosen, setChosen] = useState("");
  const [shows, setShows] = useState(true);
  useEffect(() => {
    if (one.file === null) return undefined;
    const made = URL.createObjectURL(one.file);
    setChosen(made);
    return () => URL.revokeObjectURL(made);
  }, [one.file]);
  if (one.note?.lacks) return <p class="notes-lacks">{one.note.lacks}</p>;
  const source = one.note?.photo ? pictureOf(one.note) : chosen;
  if (source === "" || !shows) return null; // why it cannot be shown is said when it is sent
  return <img class="note-picture" src={source} alt={one.note?.says || "Photo"} onError={() => setShows(false)} />;
}

interface Doing {
  readonly one: Rises;
  readonly words: string;
  readonly act: (doing: string, work: () => Promise<string>) => Promise<void>;
  readonly close: () => void;
}

function Acts({ one, words, act, close }: Doing) {
  const { note, file, subject } = one;
  const size = file === null ? "" : `, ${Math.max(0.1, file.size / MIB).toFixed(1)} MiB`;
  return (
    <div class="note-acts">
      <button class="note-quiet" autofocus={note !== null || file !== null} onClick={close}>
        Close
      </button>
      {note !== null && (
        <button class="note-quiet" onClick={() => void act("Taking it out", () => takeOut(note))}>
          Take it out
        </button>
      )}
      {note !== null && words !== note.says && (
        <button class="ink-button" onClick={() => void act("Writing it down", () => change(note, words))}>
          Write it down
        </button>
      )}
      {note === null && file === null && (
        <button class="ink-button" onClick={() => void act("Writing it down", () => add(subject, words, null))}>
          Write it down
        </button>
      )}
      {note === null && file !== null && (
        <button class="ink-button" onClick={() => void act(`Sending the picture${size}`, () => add(subject, words, file))}>
          Keep the photo
        </button>
      )}
    </div>
  );
}
