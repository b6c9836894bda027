// An edit that met another hand's: both are drawn over each other, and one of them is kept, or both.

import { useEffect } from "preact/hooks";

import { settle, standing } from "../model/bench";
import { clashes } from "../model/kept";
import { beside, goBeside, keepBoth } from "../model/other_way";
import { tryOut } from "../model/trial";

export function Clash() {
  const [first, ...others] = clashes.value;
  const version = standing.value?.version;
  useEffect(() => {
    // mine is drawn in red over what stands there now
    tryOut(first && first.faults.length === 0 ? { says: first.says, edits: [...first.edits] } : null);
  }, [first, version]);
  if (first === undefined) return <Beside />;
  const [fault] = first.faults;
  const settled = (mine: boolean) => () => {
    tryOut(null);
    void settle(mine);
  };
  return (
    <div class="notice clash" role="alert">
      <p>
        <b>{fault ? "This could not be written." : "Another hand changed this meanwhile."}</b> Mine: {first.says}.
        {fault ? ` Found ${fault.found}; expected ${fault.expected}.` : ` Theirs: ${theirsOf(first.theirs)}.`}
        {others.length > 0 && ` ${others.length} more after this.`}
      </p>
      {!fault && <button onClick={settled(true)}>Keep mine</button>}
      <button onClick={settled(false)}>{fault ? "Let it go" : "Keep theirs"}</button>
      {!fault && <button onClick={() => void keepBoth()}>Both, as other ways</button>}
    </div>
  );
}

/** Where the other way went. */
function Beside() {
  const made = beside.value;
  if (made === null) return null;
  return (
    <div class="notice clash" role="status">
      <p>
        <b>Theirs stays here. Mine is {made.file}, beside it on the shelf.</b> It has the same notes and photos; what was
        done before is not taken along, its undo begins there.
      </p>
      <button onClick={goBeside}>Go to mine</button>
      <button onClick={() => (beside.value = null)}>Stay here</button>
    </div>
  );
}

const theirsOf = (theirs: readonly { path: readonly (string | number)[]; value?: string | null }[]): string =>
  theirs.map((one) => `${spoken(one.path)} ${one.value ?? "taken out"}`).join(", ");

const spoken = (path: readonly (string | number)[]): string =>
  path.filter((step) => typeof step === "string").slice(-2).join(", ");
