// The page: the shelf of builds, or the sheet of the build on the bench that is turned up; over both
// the sheet that shares the bench, and on a phone that was let go nothing but why.

import { name, shelf } from "./model/bench";
import { NoteSheet } from "./notes/note_sheet";
import { place } from "./places";
import { Ended } from "./share/ended";
import { Share } from "./share/share";
import { ended, opened } from "./share/sharing";
import { Sheet } from "./sheet/frame";
import { Shelf } from "./shelf";
import { Told } from "./words/said";

export function Page() {
  if (ended.value !== "") return <Ended />;
  if (opened.value) return <Share />;
  if (name.value === "") return shelf.value === null ? null : <Shelf />;
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
      <Told />
    </>
  );
}
