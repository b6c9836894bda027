// The bench: side view, section A, detail B of the finding in hand, title block; the slip beside.

import { computed, signal } from "@preact/signals";

import { Gate } from "../gate/gate";
import { gate } from "../gate/locks";
import { WorkLine } from "../gate/work_line";
import { hand, mendFirst, sectionAt, views } from "../model/bench";
import { dragging, liveViews } from "../model/drag";
import { trialViews } from "../model/trial";
import type { Finding, View } from "../server";
import { Slip } from "../slip/slip";
import { around } from "./box";
import type { Room } from "./box";
import { Detail } from "./detail";
import { Drawing } from "./drawing";
import { Sheet } from "./frame";
import { Hatches } from "./hatch";
import { Live } from "./live";
import { HEAD, Plane } from "./plane";
import { onView } from "./scale";
import type { Scale } from "./scale";
import { main, opened, TitleBlock, VIEWS } from "./title_block";
import { zoneBoxes, Zones } from "./zones";

const NEAR_MM = 30; // along the car: as far from a section that a gap still stands in it
/** On a phone one of the two is shown below the side view. */
const below = signal<"section" | "detail">("detail");

/** The views as they would be: with what is under the hand, or with a remedy that is tried out. */
const changed = computed(() => (dragging.value ? liveViews.value : trialViews.value));

export function Bench() {
  return (
    <div class="bench">
      <Live />
      <Sheet says={gate.value === "" ? `console, ${VIEWS[main.value]}` : `before ${gate.value}`} opens={gate.value === "" ? opened : undefined}>
        <Hatches />
        {gate.value === "" ? (
          <>
            <Views />
            <TitleBlock />
          </>
        ) : (
          <Gate />
        )}
      </Sheet>
      <Slip />
      <WorkLine />
    </div>
  );
}

function Views() {
  const told = views.value;
  if (told === null) return <p class="quiet">{mendFirst.value ? "" : "Drawing what is known"}</p>;
  const view = (wanted: string): View | undefined => told.views.find((one) => one.name === wanted);
  const after = (wanted: string): View | undefined =>
    changed.value?.views.find((one) => one.name === wanted);
  const [top, section] = [view(main.value), view("section")];
  const near = (one: Finding): boolean => one.at !== null && Math.abs(one.at[0] - told.at_mm) <= NEAR_MM;
  if (view("side")?.strokes.length === 0) {
    return <p class="quiet empty">Nothing measured yet. Start with the tunnel: one section and its height.</p>;
  }
  return (
    <div class={`views below-${below.value}`}>
      {top && (
        <Drawing
          view={top}
          after={after(main.value)}
          says={main.value === "side" ? "Side view, front to the left" : "Plan, front to the left"}
          shows={() => true}
          over={over(top)}
        />
      )}
      {section && (
        <figure class="section">
          <Caption letter="A" says={`section ${told.place}`} other="detail" />
          <Drawing view={section} after={after("section")} says={`Section ${told.place}, from behind`} shows={near} />
        </figure>
      )}
      <figure class="detail">
        <Caption letter="B" says={detailSays()} other="section" />
        {told.detail && hand.value?.at && (
          <Detail one={hand.value} detail={told.detail} after={changed.value?.detail?.view} />
        )}
      </figure>
    </div>
  );
}

function detailSays(): string {
  const one = hand.value;
  if (one === null) return "take a finding in hand to see its place";
  if (one.at === null) return "what is in hand has no one place";
  return `${one.place}, ${views.value?.detail?.place ?? ""}`;
}

function Caption({ letter, says, other }: { letter: string; says: string; other: "section" | "detail" }) {
  return (
    <figcaption>
      <b>{letter}</b> <span>{says}</span>
      <button
        class="turn-over"
        onClick={() => {
          below.value = other;
        }}
      >
        {other === "section" ? "Section A" : "Detail B"}
      </button>
    </figcaption>
  );
}

/** The cutting plane, the zones and the circle of detail B, over a side view or plan. */
function over(view: View) {
  return (scale: Scale, room: Room) => {
    const told = views.value;
    const x = scale.at([sectionAt.value ?? told?.at_mm ?? 0, 0])[0];
    const head = [x, HEAD + 18] as const;
    const foot = Math.min(scale.at([0, view.extent[3]])[1] + 10, room.height - 2);
    const zones = view.zones;
    const one = hand.value;
    const round = told?.detail && one?.at ? { at: scale.at(onView(view, one.at)), r: Math.max(told.detail.radius * scale.px, 12) } : null;
    const letter = round && ([round.at[0] - round.r * 0.8 - 10, round.at[1] + round.r * 0.8 + 12] as const);
    return {
      takes: [
        { left: x - 30, right: x + 30, top: 0, bottom: head[1] + HEAD + 2 },
        ...(zones ? zoneBoxes(zones, scale, room) : []),
        ...(letter ? [around(letter[0], letter[1] - 5, 9)] : []),
      ],
      inks: [[[x, head[1]], [x, foot]]] as const,
      draws: (
        <>
          {zones && <Zones zones={zones} scale={scale} room={room} />}
          {round && letter && (
            <g class="round">
              <circle class="pen pen-thin" cx={round.at[0]} cy={round.at[1]} r={round.r} />
              <text x={letter[0]} y={letter[1]} text-anchor="middle">
                B
              </text>
            </g>
          )}
          <Plane head={head} foot={foot} back={scale.back} />
        </>
      ),
    };
  };
}
