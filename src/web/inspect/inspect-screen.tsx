/** Looking at coupons, one after another: the number only, never the treatment, in a shuffled order. Phone first. */
import { useCallback, useMemo, useState } from "react";
import { Link, Redirect, useLocation } from "wouter";
import type { Measurement } from "../../api/photo.ts";
import type { TrialDocument } from "../../api/shop.ts";
import { type TrialRecord, trialRecord } from "../../core/trial/trial-record.ts";
import { useDraft } from "../keep/draft.ts";
import { Asked } from "../parts/asked.tsx";
import { todayDate } from "../parts/clock.ts";
import { useKeepAwake } from "../parts/keep-awake.ts";
import { useMe } from "../sharing/sharing-queries.ts";
import { useTrial } from "../shop/queries.ts";
import { useChosenModel } from "../shop/rust-models.ts";
import { inspectText, looksGridText } from "../text/inspect.ts";
import { dateText } from "../text/parts.ts";
import { firstPhotograph, leftOutBefore, photographsOf } from "./earlier-photographs.ts";
import { FaceInspection } from "./face-inspection.tsx";
import { type Face, inspectionQueue, nextCoupon, type Queue } from "./inspection-queue.ts";
import { LookDate } from "./look-date.tsx";
import "./inspect.css";

export function InspectScreen({ params }: { params: { id: string; coupon?: string | undefined } }) {
  useKeepAwake();
  const query = useTrial(params.id);
  return <Asked query={query}>{(trial) => <InspectTrial trial={trial} asked={params.coupon ?? null} />}</Asked>;
}

function InspectTrial({ trial, asked }: { trial: TrialDocument; asked: string | null }) {
  const record = useMemo(() => trialRecord(trial, trial.observations), [trial]);
  const today = todayDate();
  // Kept with the day: an earlier date entered yesterday is not today's.
  const kept = useDraft(`look date ${trial.id} ${today}`, () => ({ date: today }));
  const date = kept.form.date;
  const queue = useMemo(() => inspectionQueue(record, date), [record, date]);
  const onDate = useCallback((next: string) => kept.change({ date: next }), [kept.change]);
  if (asked === null) {
    const first = nextCoupon(queue, null);
    // The address names the coupon at once: whatever happens to the queue, this one stays on the screen.
    if (first !== null) return <Redirect replace href={inspectPath(trial.id, first)} />;
    return <NothingToLookAt record={record} queue={queue} date={date} onDate={onDate} />;
  }
  if (!record.plan.places.some((place) => place.coupon === asked))
    return (
      <main>
        <h1>{inspectText.notOfTrial(asked)}</h1>
        <Link href={inspectPath(trial.id, null)} className="button">
          {inspectText.nextOne}
        </Link>
      </main>
    );
  const round = { record, measurements: trial.measurements, queue, date, onDate };
  return <OneCoupon key={asked} coupon={asked} {...round} />;
}

const inspectPath = (trial: string, coupon: string | null) =>
  `/trials/${trial}/inspect${coupon === null ? "" : `/${encodeURIComponent(coupon)}`}`;

type Round = { record: TrialRecord; queue: Queue; date: string; onDate: (date: string) => void };

function OneCoupon(props: Round & { coupon: string; measurements: Measurement[] }) {
  const { record, measurements, queue, coupon, date, onDate } = props;
  const [, navigate] = useLocation();
  // The line at the top says so; a camera that leads nowhere would only cost a photograph.
  const looksOnly = useMe().data?.device.role === "viewer";
  const wanted = queue.facesLeft.get(coupon)?.[0] ?? "front";
  const [face, setFace] = useState<Face>(wanted);
  // Unknown for a moment, or in silence: read by the model that comes with the program, and its name says so.
  const shopModel = useChosenModel(record.id).data?.shopModel ?? null;
  const photographs = photographsOf(record, measurements, { coupon, face });
  const next = nextCoupon(queue, coupon);
  const to = (other: string | null) => navigate(inspectPath(record.id, other));
  const recorded = () => {
    const otherFace = queue.facesLeft.get(coupon)?.find((one) => one !== face);
    if (otherFace) setFace(otherFace);
    else to(next);
  };
  return (
    <main className="inspect">
      <header className="inspect-head">
        <h1>
          <small>{inspectText.coupon}</small> {coupon}
        </h1>
        <Progress queue={queue} date={date} />
        <FaceChoice face={face} onChoose={setFace} />
      </header>
      {queue.facesLeft.has(coupon) && !queue.facesLeft.get(coupon)!.includes(face) && (
        <p className="hint">{inspectText.alreadyLooked}</p>
      )}
      {looksOnly ? (
        <Link href={`/trials/${record.id}/coupons/${encodeURIComponent(coupon)}`} className="button second wet">
          {looksGridText.overTime}
        </Link>
      ) : (
        <FaceInspection
          key={face}
          face={{
            trial: record.id,
            plan: record.plan,
            coupon,
            face,
            date,
            onDate,
            blind: !record.unblinded,
            keepKey: `${record.id} ${coupon} ${face}`,
            first: firstPhotograph(photographs, date),
            leftOut: leftOutBefore(photographs, date),
            shopModel,
          }}
          isLast={next === null}
          onRecorded={recorded}
        />
      )}
      <footer className="inspect-foot">
        {next !== null && (
          <button type="button" className="quiet" onClick={() => to(next)}>
            {inspectText.later}
          </button>
        )}
        <Link href={`/trials/${record.id}#looks`}>{inspectText.stop}</Link>
      </footer>
    </main>
  );
}

function Progress({ queue, date }: { queue: Queue; date: string }) {
  const done = queue.order.length - queue.left.length;
  return (
    <p className="inspect-progress">
      <progress value={done} max={Math.max(1, queue.order.length)} aria-label={inspectText.progressLabel} />
      <span>
        {inspectText.progress(done, queue.order.length)}, {dateText(date)}
      </span>
    </p>
  );
}

function FaceChoice({ face, onChoose }: { face: Face; onChoose: (face: Face) => void }) {
  return (
    <fieldset className="choices">
      <legend className="sr-only">{inspectText.face}</legend>
      {(["front", "back"] as const).map((one) => (
        <label key={one}>
          <input type="radio" name="face" checked={one === face} onChange={() => onChoose(one)} />
          <span>{inspectText.faces[one]}</span>
        </label>
      ))}
    </fieldset>
  );
}

function NothingToLookAt({ record, queue, date, onDate }: Round) {
  const none = queue.order.length === 0;
  return (
    <main className="inspect">
      <h1>{none ? inspectText.noneOut : inspectText.allDone}</h1>
      {none ? <p>{inspectText.noneOutMore}</p> : <Progress queue={queue} date={date} />}
      <LookDate date={date} onDate={onDate} error={null} />
      <div className="actions">
        <Link href={`/trials/${record.id}#looks`} className="button wet">
          {inspectText.stop}
        </Link>
      </div>
      {!none && (
        <>
          <h2>{inspectText.again}</h2>
          <p className="plate-list">
            {queue.order.map((coupon) => (
              <Link key={coupon} className="plate-no again" href={inspectPath(record.id, coupon)}>
                {coupon}
              </Link>
            ))}
          </p>
        </>
      )}
    </main>
  );
}
