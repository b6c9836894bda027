// The page: the shelf of builds, or the sheet of the build on the bench that is turned up.

import { name } from "./model/bench";
import { NoteSheet } from "./notes/note_sheet";
import { place } from "./places";
import { Shelf } from "./shelf";

export function Page() {
  if (name.value === "") return <Shelf />;
  const Shown = place.value.shows;
  return (
    <>
      <Shown />
      <NoteSheet />
    </>
  );
}
