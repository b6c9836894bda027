// From a finding of the wiring to where it is seen: a rule stepped through on the diagram, a reading at the meter.

import { turnTo } from "../places";
import type { Finding } from "../server";
import { wantRule } from "./fault_state";
import { doing } from "./part";
import { metering, wantReading } from "./meter_state";

const RULE = /^(never|always) /;
const READING = /^meter at /;

export function OnDiagram({ one }: { one: Finding }) {
  if (one.rule === "interlock" && RULE.test(one.place)) {
    return <Leads says="Step through it on the diagram" to={() => toRule(one.place)} />;
  }
  if (one.rule === "meter" && READING.test(one.place)) {
    return <Leads says="Take it up at the meter" to={() => wantReading(one.place.replace(READING, ""))} />;
  }
  return null;
}

function toRule(place: string): void {
  metering.value = false;
  wantRule(place);
}

function Leads({ says, to }: { says: string; to: () => void }) {
  return (
    <button
      class="remedy"
      onClick={() => {
        to();
        doing.value = "work";
        turnTo("wire");
      }}
    >
      {says}
    </button>
  );
}
