/** Tests: the tape test so far. */
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { onWhen } from "../text/parts.ts";
import { trialText } from "../text/trial.ts";
import { RecordRow } from "./record-row.tsx";
import { StageSection } from "./stage.tsx";

const text = trialText.tests;

export function TestsStage({ record }: { record: TrialRecord }) {
  return (
    <StageSection id="tests" sentence={text.sentence(record.tapeTests.length)}>
      <ul className="bare">
        {record.tapeTests.map((one) => (
          <RecordRow key={one.id} trialId={record.id} observed={one}>
            <p>{text.row(one.body.coupon, one.body.tapeClass, onWhen(one.body.when))}</p>
          </RecordRow>
        ))}
      </ul>
    </StageSection>
  );
}
