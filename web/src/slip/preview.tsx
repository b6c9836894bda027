// What a remedy would change, all of it, before it is taken; what gets worse stands first.

import { fit } from "../model/bench";
import { trial } from "../model/trial";

const MOST = 5; // rows shown at once, unless more get worse

export function Preview() {
  const told = trial.value;
  if (told === null) return <p class="trying">Trying it out on all gaps</p>;
  const worse = told.changes.filter((one) => one.worse).length;
  const shown = Math.max(MOST, worse);
  const rest = told.changes.slice(shown);
  return (
    <table class="preview">
      <caption>{worse > 0 ? "It makes something else worse:" : "What it changes:"}</caption>
      <tbody>
        {told.changes.slice(0, shown).map((one) => (
          <tr key={one.place} class={one.worse ? "worse" : ""}>
            <th scope="row">{one.place.replaceAll(" > ", ", ")}</th>
            <td>{one.before || "not there"}</td>
            <td>
              <Arrow />
            </td>
            <td>
              <b>{one.after || "gone"}</b>
            </td>
          </tr>
        ))}
        {rest.length > 0 && (
          <tr>
            <th scope="row" colSpan={4}>
              and {rest.length} more, none of them worse
            </th>
          </tr>
        )}
        <tr>
          <th scope="row">Goes in first time</th>
          <td>{fit.value?.together}</td>
          <td>
            <Arrow />
          </td>
          <td>
            <b>{told.together}</b>
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function Arrow() {
  return (
    <svg class="arrow" viewBox="0 0 18 10" role="img" aria-label="becomes">
      <path d="M1 5H16M12 1L16 5L12 9" />
    </svg>
  );
}
