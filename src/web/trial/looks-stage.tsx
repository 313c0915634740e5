/** Looks: numbers only and shuffled until the trial is closed, and the way to look again. */
import { lazy, Suspense } from "react";
import { Link } from "wouter";
import type { Measurement } from "../../api/photo.ts";
import type { TrialRecord } from "../../core/trial/trial-record.ts";
import { vanishedRust } from "../../report/figures/rust-spans.ts";
import { trialText } from "../text/trial.ts";
import { StageSection } from "./stage.tsx";
import { couponsOut } from "./where-it-stands.ts";

const LooksGrid = lazy(async () => ({ default: (await import("../inspect/looks-grid.tsx")).LooksGrid }));

const text = trialText.looks;

export function LooksStage({ record, measurements }: { record: TrialRecord; measurements: Measurement[] }) {
  const lookedAt = new Set(record.looks.map((one) => one.body.coupon)).size;
  const vanished = vanishedRust(record);
  return (
    <StageSection id="looks" sentence={text.sentence(record.looks.length, lookedAt)}>
      {!record.unblinded && record.looks.length > 0 && <p className="lead">{text.blind}</p>}
      {!record.unblinded && couponsOut(record).length > 0 && (
        <div className="actions">
          <Link href={`/trials/${record.id}/inspect`} className="button wet">
            {text.look}
          </Link>
          <Link href={`/trials/${record.id}/photographs`} className="button second">
            {text.batch}
          </Link>
        </div>
      )}
      {vanished.length > 0 && (
        <ul className="bare">
          {vanished.map(({ coupon, vanishedOnDays }) => (
            <li key={coupon}>{text.vanished(coupon, vanishedOnDays)}</li>
          ))}
        </ul>
      )}
      <Suspense>
        <LooksGrid record={record} measurements={measurements} />
        {/* With the grid and not before it: a link that moves down under a finger loses the press. */}
        {measurements.length > 0 && (
          <div className="actions">
            {record.unblinded && (
              <Link href={`/trials/${record.id}/faces`} className="button second">
                {text.faces}
              </Link>
            )}
            <Link href={`/trials/${record.id}/reading`} className="button quiet">
              {text.reading}
            </Link>
            <Link href={`/trials/${record.id}/regrade`} className="button quiet">
              {text.regrade}
            </Link>
          </div>
        )}
      </Suspense>
    </StageSection>
  );
}
