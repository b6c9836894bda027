// The page: the shelf of builds, or the sheet of the build on the bench that is turned up.

import { name } from "./model/bench";
import { place } from "./places";
import { Sheet } from "./sheet/frame";
import { Shelf } from "./shelf";

export function Page() {
  if (name.value === "") return <Shelf />;
  const { shows: Shown, says } = place.value;
  if (says === undefined) return <Shown />;
  return (
    <div class="alone">
      <Sheet says={says}>
        <Shown />
      </Sheet>
    </div>
  );
}
