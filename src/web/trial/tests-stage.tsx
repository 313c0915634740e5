/** Tests on coupons: tape, wear, values of the user's own; what was written down, and the forms for another. */
import { lazy, type ReactNode, Suspense } from "react";
import type { ObservationBody, Observed, TrialRecord } from "../../core/trial/trial-record.ts";
import { finishColourText } from "../text/finish-colour.ts";
import { testsText as text, valuesAsked } from "../text/tests.ts";
import { weighingText } from "../text/weighing.ts";
import { FirstRustForm } from "./first-rust-form.tsx";
import { RecordRow } from "./record-row.tsx";
import { More, StageSection } from "./stage.tsx";
import { ValueForm } from "./value-form.tsx";
import { WearTestForm } from "./wear-test-form.tsx";
import { WeighingCorrection } from "./weighing-correction.tsx";
import { WeighingSheet, weighedQuestions } from "./weighing-sheet.tsx";

const FinishColourForm = lazy(async () => ({
  default: (await import("../inspect/finish-colour-form.tsx")).FinishColourForm,
}));
const TapeTestForm = lazy(async () => ({ default: (await import("../inspect/tape-test-form.tsx")).TapeTestForm }));

export function TestsStage({ record }: { record: TrialRecord }) {
  const { tapeTests, wearTests, values, weighings, finishColours, firstRustTimes, plan } = record;
  const asked = valuesAsked(plan.questions);
  const names = [...new Set([...asked.map(({ name }) => name), ...values.map(({ body }) => body.name)])];
  const wears = wearTests.length > 0 || plan.questions.some((one) => one.response === "strokes to breakthrough");
  return (
    <StageSection id="tests" sentence={text.sentence(record)}>
      <Written
        record={record}
        title={text.tape}
        tests={tapeTests}
        said={text.tapeRow}
        form={(one, onWritten) => (
          <Suspense>
            <TapeTestForm record={record} corrects={one} onWritten={onWritten} />
          </Suspense>
        )}
      />
      <Written
        record={record}
        title={text.wear}
        tests={wearTests}
        said={text.wearRow}
        form={(one, onWritten) => <WearTestForm record={record} corrects={one} onWritten={onWritten} />}
      />
      {names.map((name) => (
        <Written
          key={name}
          record={record}
          title={name}
          tests={values.filter(({ body }) => body.name === name)}
          said={(body) => text.valueRow(body, asked.find((one) => one.name === name) ?? null)}
          form={(one, onWritten) => <ValueForm record={record} corrects={one} onWritten={onWritten} />}
        />
      ))}
      <Written
        record={record}
        title={record.unblinded ? weighingText.title : weighingText.blindTitle}
        tests={weighings}
        folded={!record.unblinded}
        said={weighingText.row}
        form={(one, onWritten) => <WeighingCorrection record={record} corrects={one} onWritten={onWritten} />}
      />
      <Written
        record={record}
        title={finishColourText.title}
        tests={finishColours}
        said={(body) => finishColourText.row(body, plan.couponSize)}
        form={(one, onWritten) => (
          <Suspense>
            <FinishColourForm record={record} corrects={one} onWritten={onWritten} />
          </Suspense>
        )}
      />
      <Written
        record={record}
        title={text.firstRust}
        tests={firstRustTimes}
        said={text.firstRustRow}
        form={(one, onWritten) => <FirstRustForm record={record} corrects={one} onWritten={onWritten} />}
      />
      <More label={text.addTape}>
        <Suspense>
          <TapeTestForm record={record} />
        </Suspense>
      </More>
      {wears && (
        <More label={text.addWear}>
          <WearTestForm record={record} />
        </More>
      )}
      {weighedQuestions(record).length > 0 && (
        <More label={weighingText.open}>
          <WeighingSheet record={record} />
        </More>
      )}
      <More label={finishColourText.open}>
        <Suspense>
          <FinishColourForm record={record} />
        </Suspense>
      </More>
      {asked.length > 0 && (
        <More label={text.addValue}>
          <ValueForm record={record} />
        </More>
      )}
    </StageSection>
  );
}

/** A few stand open; a table's worth of them is folded. */
const shownOpen = 4;

function Written<Body extends ObservationBody & { coupon: string }>(props: {
  record: TrialRecord;
  title: string;
  tests: Observed<Body>[];
  said: (body: Body) => string;
  form: (one: Observed<Body>, onWritten: () => void) => ReactNode;
  /** Whoever grades by eye should not read them in passing. */
  folded?: boolean;
}) {
  const { record, title, tests, said, form, folded = false } = props;
  if (tests.length === 0) return null;
  const rows = (
    <ul className="bare">
      {tests.map((one) => (
        <RecordRow key={one.id} trialId={record.id} observed={one} form={(onWritten) => form(one, onWritten)}>
          <p>
            {said(one.body)}
            {"note" in one.body && one.body.note && `. ${one.body.note}`}
          </p>
        </RecordRow>
      ))}
    </ul>
  );
  const label = text.group(title, new Set(tests.map(({ body }) => body.coupon)).size);
  return folded || tests.length > shownOpen ? (
    <More label={label}>{rows}</More>
  ) : (
    <>
      <h3>{label}</h3>
      {rows}
    </>
  );
}
