// The print place: which sheets, on which paper, and every page as it will come out.

import "./print.css";

import { useEffect } from "preact/hooks";

import {
  PAPERS,
  choose,
  chosen,
  chosenAddress,
  count,
  fileAddress,
  keepPapers,
  left,
  paper,
  papers,
  trouble,
} from "./papers";
import type { Papers, Sheet } from "./papers";
import { PagePreview } from "./page-preview";

export function Print() {
  useEffect(keepPapers, []);
  const told = papers.value;
  return (
    <div class="print">
      <section class="print-list" aria-label="What to print">
        <h2>Print</h2>
        <PaperSize />
        {trouble.value !== "" && (
          <p class="notice" role="alert">
            {trouble.value}
          </p>
        )}
        {told === null ? (
          <p class="print-wait" role="status">
            Drawing every sheet
          </p>
        ) : (
          <>
            <ul class="print-sheets">
              {told.sheets.map((one) => (
                <SheetLine key={one.name} one={one} />
              ))}
            </ul>
            <Fetch />
            <Files told={told} />
          </>
        )}
      </section>
      <section class="print-pages" aria-label="Pages as they will be printed">
        {told !== null &&
          chosen.value.map((sheet) => (
            <section key={sheet.name}>
              <h3>{sheet.title}</h3>
              <div class="print-row">
                {sheet.pages.map((page) => (
                  <PagePreview key={page.number} page={page} version={`${told.version}${told.paper}`} />
                ))}
              </div>
            </section>
          ))}
      </section>
    </div>
  );
}

function PaperSize() {
  return (
    <fieldset class="print-paper">
      <legend>Paper</legend>
      {PAPERS.map((size) => (
        <label key={size}>
          <input
            type="radio"
            name="paper"
            checked={paper.value === size}
            onChange={() => {
              paper.value = size;
            }}
          />
          {size}
        </label>
      ))}
    </fieldset>
  );
}

function SheetLine({ one }: { one: Sheet }) {
  const pages = one.pages.length;
  return (
    <li>
      <label class="print-sheet">
        <input
          type="checkbox"
          disabled={pages === 0}
          checked={pages > 0 && !left.value.has(one.name)}
          onChange={(event) => choose(one.name, event.currentTarget.checked)}
        />
        <b>{one.title}</b>
        <span class="print-count">
          {pages === 0 ? "nothing to draw yet" : pages === 1 ? "1 page" : `${pages} pages`}
        </span>
        <span class="print-says">{one.says}</span>
      </label>
    </li>
  );
}

function Fetch() {
  if (count.value === 0) return <p class="print-wait">Choose a sheet to print.</p>;
  return (
    <>
      <a class="ink-button print-fetch" href={chosenAddress()} download>
        Fetch {count.value === 1 ? "1 page" : `${count.value} pages`} as PDF
      </a>
      <p class="print-says">
        Print at 100 %, never “fit to page”. Measure the check squares before you cut.
      </p>
    </>
  );
}

function Files({ told }: { told: Papers }) {
  return (
    <>
      <h3>To keep, plot or saw by machine</h3>
      <ul class="print-files">
        {told.files.map((one) => (
          <li key={one.name}>
            <a href={fileAddress(one.name)} download>
              {one.title}
            </a>
            <span class="print-says">{one.says}</span>
          </li>
        ))}
      </ul>
      {told.panels.length > 0 && (
        <table class="print-panels">
          <caption>Each panel at 1:1</caption>
          <tbody>
            {told.panels.map((one) => (
              <tr key={one.dxf}>
                <th scope="row">{one.title}</th>
                <td>
                  <a href={fileAddress(one.dxf)} download aria-label={`${one.title} as DXF`}>
                    DXF
                  </a>
                </td>
                <td>
                  <a href={fileAddress(one.svg)} download aria-label={`${one.title} as SVG`}>
                    SVG
                  </a>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}
