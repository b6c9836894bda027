// The page: the shelf of builds, or the sheet of the build on the bench that is turned up.

import { name } from "./model/bench";
import { NoteSheet } from "./notes/note_sheet";
import { place } from "./places";
import { Sheet } from "./sheet/frame";
import { Shelf } from "./shelf";

export function Page() {
  if (name.value === "") return <Shelf />;
  const { shows: Shown, says } = place.value;
  return (
    <>
      {says === undefined ? (
        <Shown />
      ) : (
        <div class="alone">
          <Sheet says={says}>
            <Shown />
          </Sheet>
        </div>
      )}
      <NoteSheet />
    </>
  );
}
