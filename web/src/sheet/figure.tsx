// A figure as it is set: a fraction small beside its whole number, the unit apart.

const FRACTION = /(\d+\/\d+)/;
const UNIT = /^(.*?)\s+(mm|in|N|A|kg)$/;

export interface Parts {
  readonly figure: string;
  readonly unit: string;
}

export function parts(words: string): Parts {
  const found = UNIT.exec(words);
  return found ? { figure: found[1] ?? words, unit: found[2] ?? "" } : { figure: words, unit: "" };
}

const split = (words: string): readonly string[] => words.split(FRACTION).filter((one) => one !== "");

export function Figure({ words, unit = true }: { words: string; unit?: boolean }) {
  const told = parts(words);
  return (
    <>
      {split(told.figure).map((one) =>
        FRACTION.test(one) ? (
          <span class="frac" key={one}>
            {one}
          </span>
        ) : (
          one
        ),
      )}
      {unit && told.unit !== "" && <small class="unit"> {told.unit}</small>}
    </>
  );
}

/** The same inside a drawing. */
export function DrawnFigure({ words, unit = true }: { words: string; unit?: boolean }) {
  const told = parts(words);
  return (
    <>
      {split(told.figure).map((one) => (
        <tspan key={one} class={FRACTION.test(one) ? "frac" : ""}>
          {one}
        </tspan>
      ))}
      {unit && told.unit !== "" && <tspan class="unit"> {told.unit}</tspan>}
    </>
  );
}
