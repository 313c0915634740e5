/** A trial, one page read downwards in the order in which it happens; where it stands is marked in the margin. */
import { useMemo } from "react";
import type { TrialDocument } from "../../api/shop.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { useKeptPlace } from "../keep/place.ts";
import { Asked } from "../parts/asked.tsx";
import { todayDate } from "../parts/clock.ts";
import { useTrial } from "../shop/queries.ts";
import { trialText } from "../text/trial.ts";
import { DoneSection } from "./done-section.tsx";
import { FindingsStage } from "./findings-stage.tsx";
import { LooksStage } from "./looks-stage.tsx";
import { OutdoorsSection } from "./outdoors-section.tsx";
import { QuestionSection } from "./question-section.tsx";
import { RackSection } from "./rack-section.tsx";
import { SizeSection } from "./size-section.tsx";
import { StageLine } from "./stage-line.tsx";
import { stagesOf } from "./stages.ts";
import { standingSentence } from "./standing.ts";
import { TestsStage } from "./tests-stage.tsx";
import { TreatmentsSection } from "./treatments-section.tsx";

export function TrialPage({ id }: { id: string }) {
  const trial = useTrial(id);
  useKeptPlace(id, trial.isSuccess);
  return <Asked query={trial}>{(document) => <TrialRead trial={document} />}</Asked>;
}

function TrialRead({ trial }: { trial: TrialDocument }) {
  const record = useMemo(() => trialRecord({ id: trial.id, name: trial.name }, trial.observations), [trial]);
  return (
    <main className="trial-page">
      <div className="trial">
        <header>
          <p className="lead">{trial.name}</p>
          <h1>{standingSentence(record, todayDate())}</h1>
          {record.plan.invented && <p className="lead">{trialText.invented}</p>}
        </header>
        <StageLine stages={stagesOf(record)} />
        <div className="trial-body">
          <QuestionSection record={record} />
          <TreatmentsSection record={record} />
          <SizeSection record={record} />
          <RackSection record={record} />
          <DoneSection record={record} />
          <OutdoorsSection record={record} />
          <LooksStage record={record} measurements={trial.measurements} />
          <TestsStage record={record} />
          <FindingsStage record={record} />
        </div>
      </div>
    </main>
  );
}
