/** The page that opens: what needs hands, and where every trial stands. */

import { Link } from "wouter";
import type { TrialSummary } from "../../api/shop.ts";
import { Asked } from "../parts/asked.tsx";
import { useTrials } from "../shop/queries.ts";
import { counted } from "../text/parts.ts";
import { todayText } from "../text/today.ts";
import { FirstUse } from "./first-use.tsx";

export function TodayPage() {
  return (
    <Asked query={useTrials()}>{(trials) => (trials.length === 0 ? <FirstUse /> : <Due trials={trials} />)}</Asked>
  );
}

function Due({ trials }: { trials: TrialSummary[] }) {
  return (
    <main>
      <h1>{todayText.nothingNow(null)}</h1>
      <TrialLines trials={trials} />
    </main>
  );
}

function TrialLines({ trials }: { trials: TrialSummary[] }) {
  return (
    <section aria-labelledby="trials-title">
      <h2 id="trials-title">{todayText.trials}</h2>
      {trials.map((one) => (
        <div className="trial-line" key={one.id}>
          <p>
            <Link href={`/trials/${one.id}`}>{one.name}</Link>
            <br />
            <small>
              {counted(one.coupons, "coupon")}, {one.unblinded ? todayText.closed : todayText.open}
            </small>
          </p>
          <p className="lead">{one.question}</p>
        </div>
      ))}
      <div className="actions">
        <Link href="/trials/new" className="button second">
          {todayText.start}
        </Link>
        <Link href="/import" className="button quiet">
          {todayText.notebook}
        </Link>
      </div>
    </section>
  );
}
