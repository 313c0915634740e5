/** What the plan could show, simulated for paper: the kept curves, and the form that simulates and keeps another. */
import { useRef } from "react";
import { type StandingCurve, standingCurves } from "../../core/trial/kept-curve.ts";
import type { PlanWording, TrialRecord } from "../../core/trial/trial-record.ts";
import "../../report/figures/figures.css";
import { KeptCurve, keptTitle } from "../../report/figures/kept-curve.tsx";
import { formOfPlan } from "../correct-plan/plan-form.ts";
import { useDrawnWidth } from "../findings/drawn-width.ts";
import { useDraft } from "../keep/draft.ts";
import { type Expected, expectedDraft } from "../keep/expected.ts";
import { chanceWish, chosenAsked, couponsTyped, expectedOf, withExpected } from "../new-trial/chance-form.ts";
import { ExpectedFields, ScatterField } from "../new-trial/expected-fields.tsx";
import type { TrialForm } from "../new-trial/trial-form.ts";
import { chanceRefusal } from "../outlook/chance-plan.ts";
import { KeepCurve } from "../outlook/keep-curve.tsx";
import { Scroll } from "../parts/scroll.tsx";
import { chanceText, keptText } from "../text/chance.ts";
import { dateText } from "../text/parts.ts";
import { RecordRow } from "./record-row.tsx";
import { More } from "./stage.tsx";

export function SimulatedPart({ record, drawn }: { record: TrialRecord; drawn: boolean }) {
  const wording = record.plans.at(-1);
  return (
    <>
      {standingCurves(record).map((one) => (
        <ShownCurve key={one.kept.id} record={record} standing={one} />
      ))}
      {drawn && wording && (
        <More label={keptText.open}>
          <SimulateAndKeep key={wording.id} record={record} wording={wording} />
        </More>
      )}
    </>
  );
}

function ShownCurve({ record, standing: { kept, former } }: { record: TrialRecord; standing: StandingCurve }) {
  const frame = useRef<HTMLDivElement>(null);
  const widthPx = useDrawnWidth(frame);
  return (
    <section className="kept-curve" aria-label={keptText.title(keptTitle(kept.body))}>
      <h3>{keptText.title(keptTitle(kept.body))}</h3>
      <div ref={frame}>
        {widthPx !== null && (
          <Scroll label={keptText.title(keptTitle(kept.body))}>
            <KeptCurve curve={kept.body} record={record} width={widthPx} />
          </Scroll>
        )}
      </div>
      <ul className="bare">
        <RecordRow trialId={record.id} observed={kept}>
          <p className="hint">{keptText.kept(dateText(kept.recordedAt.slice(0, 10)), kept.by, former)}</p>
        </RecordRow>
      </ul>
    </section>
  );
}

const nothingExpected = (): Expected => ({ controlMedian: "", chanceOf: "", chances: [] });

function SimulateAndKeep({ record, wording }: { record: TrialRecord; wording: PlanWording }) {
  const said = useDraft(expectedDraft(record.id), nothingExpected);
  const { plan } = wording.body;
  const form = withExpected(formOfPlan(plan, { seed: seedOf(plan), length: "mm" }), said.form);
  const change = (part: Partial<TrialForm>) => said.change(expectedOf({ ...form, ...part }));
  const wish = chanceWish(form);
  const { declared } = wish;
  const refusal = wish.plan && chanceRefusal(wish.plan);
  const coupons = wish.plan && couponsTyped(form, wish.plan);
  return (
    <>
      <p className="lead">{keptText.explain}</p>
      {declared && <ExpectedFields form={form} change={change} declared={declared} />}
      {declared && <ScatterField form={form} change={change} declared={declared} />}
      {wish.missing !== null && <p className="hint">{keptText.missing[wish.missing]}</p>}
      {refusal && <p className="wrong">{refusal}</p>}
      {wish.plan && !refusal && coupons && (
        <KeepCurve
          key={JSON.stringify(wish.plan)}
          trialId={record.id}
          planId={wording.id}
          plan={wish.plan}
          each={coupons.each}
          scatterFrom={chosenAsked(form)?.chance?.from ?? ""}
        />
      )}
      {coupons?.unequal && <p className="hint">{chanceText.unequal(coupons.each)}</p>}
    </>
  );
}

const seedOf = ({ allocation }: PlanWording["body"]["plan"]): number => allocation.seed ?? 1;
