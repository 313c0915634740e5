/** Tests: the tape tests so far, and the form for another. */
import { lazy, Suspense } from "react";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { trialText } from "../text/trial.ts";
import { RecordRow } from "./record-row.tsx";
import { More, StageSection } from "./stage.tsx";

const TapeTestForm = lazy(async () => ({ default: (await import("../inspect/tape-test-form.tsx")).TapeTestForm }));

const text = trialText.tests;

export function TestsStage({ record }: { record: TrialRecord }) {
  return (
    <StageSection id="tests" sentence={text.sentence(record.tapeTests.length)}>
      <ul className="bare">
        {record.tapeTests.map((one) => (
          <RecordRow
            key={one.id}
            trialId={record.id}
            observed={one}
            form={(onWritten) => (
              <Suspense>
                <TapeTestForm record={record} corrects={one} onWritten={onWritten} />
              </Suspense>
            )}
          >
            <p>{text.row(one.body.coupon, one.body.tapeClass, one.body.when)}</p>
          </RecordRow>
        ))}
      </ul>
      <More label={text.add}>
        <Suspense>
          <TapeTestForm record={record} />
        </Suspense>
      </More>
    </StageSection>
  );
}
