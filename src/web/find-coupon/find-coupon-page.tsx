/** From a coupon's number or its label straight to its inspection. */
import { useQueries } from "@tanstack/react-query";
import { Link, Redirect } from "wouter";
import { type TrialDocument, type TrialSummary, trialDocument } from "../../api/shop.ts";
import { trialRecord } from "../../core/trial/trial-record.ts";
import { Asked } from "../parts/asked.tsx";
import { ask } from "../shop/ask.ts";
import { useTrials } from "../shop/queries.ts";
import { findCouponText } from "../text/find-coupon.ts";
import { shellText } from "../text/shell.ts";
import { CouponInHand } from "../today/coupon-in-hand.tsx";
import { trialsMeant } from "./coupon-address.ts";

export function FindCouponPage({ digits, coupon }: { digits: string | null; coupon: string }) {
  return (
    <Asked query={useTrials()}>
      {(trials) => <Meant key={coupon} trials={trialsMeant(trials, digits)} coupon={coupon} />}
    </Asked>
  );
}

function Meant({ trials, coupon }: { trials: TrialSummary[]; coupon: string }) {
  const answers = useQueries({
    queries: trials.map(({ id }) => ({
      queryKey: ["trial", id],
      queryFn: () => ask(trialDocument, `/api/trials/${id}`),
    })),
  });
  if (answers.some(({ isPending }) => isPending))
    return (
      <main aria-busy="true">
        <p className="lead">{shellText.loading}</p>
      </main>
    );
  const holding = answers.flatMap(({ data }) => (data && hasCoupon(data, coupon) ? [data] : []));
  const [only, other] = holding;
  if (only && !other) return <Redirect replace href={inspectPath(only.id, coupon)} />;
  return (
    <main>
      <h1>{other ? findCouponText.several(coupon) : findCouponText.none(coupon)}</h1>
      <div className="picture-choice">
        {holding.map(({ id, name }) => (
          <Link key={id} className="button wet" href={inspectPath(id, coupon)}>
            {findCouponText.of(name)}
          </Link>
        ))}
      </div>
      {holding.length === 0 && <CouponInHand />}
      <Link href="/" className="button quiet">
        {shellText.toToday}
      </Link>
    </main>
  );
}

const hasCoupon = (trial: TrialDocument, coupon: string) =>
  trialRecord(trial, trial.observations).plan.places.some((place) => place.coupon === coupon);

const inspectPath = (trial: string, coupon: string) => `/trials/${trial}/inspect/${encodeURIComponent(coupon)}`;
