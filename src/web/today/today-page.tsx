/** The page that opens: what needs hands, and where every trial stands. */
import { Link } from "wouter";
import type { DueToday, TrialSummary } from "../../api/shop.ts";
import { Asked } from "../parts/asked.tsx";
import { useMe } from "../sharing/sharing-queries.ts";
import { useSites, useToday, useTrials } from "../shop/queries.ts";
import { counted } from "../text/parts.ts";
import { shellText } from "../text/shell.ts";
import { todayText } from "../text/today.ts";
import { CouponInHand } from "./coupon-in-hand.tsx";
import { dueSentence } from "./due-sentence.ts";
import { FirstUse } from "./first-use.tsx";
import { SiteLines } from "./site-lines.tsx";
import { WhichStands } from "./which-stands.tsx";

export function TodayPage() {
  const today = useToday();
  const sites = useSites();
  return (
    <Asked query={useTrials()}>
      {(trials) =>
        trials.length === 0 ? (
          <FirstUse />
        ) : (
          <Asked query={today}>{(due) => <NeedsHands due={due} trials={trials} sites={sites} />}</Asked>
        )
      }
    </Asked>
  );
}

function NeedsHands(props: { due: DueToday; trials: TrialSummary[]; sites: ReturnType<typeof useSites> }) {
  const { due, trials, sites } = props;
  const me = useMe();
  return (
    <main>
      <h1>{dueSentence(due)}</h1>
      <WhichStands differing={due.differing ?? []} folded={due.overdue.length + due.today.length > 0} />
      {(["overdue", "today", "thisWeek"] as const).map((group) => (
        <DueGroup key={group} group={group} looks={due[group]} />
      ))}
      {trials.some((one) => !one.unblinded) && <CouponInHand />}
      {/* What stands below the sites waits for them: arriving late, they would push it from under a finger. */}
      {sites.isPending || me.isPending ? (
        <p aria-busy="true" className="lead">
          {shellText.loading}
        </p>
      ) : (
        <>
          <SiteLines sites={sites} />
          <TrialLines trials={trials} isOwner={me.data?.device.role === "owner"} />
        </>
      )}
    </main>
  );
}

type DueLook = DueToday["today"][number];

function DueGroup({ group, looks }: { group: "overdue" | "today" | "thisWeek"; looks: DueLook[] }) {
  if (looks.length === 0) return null;
  return (
    <section className="due">
      <h2 className={group === "overdue" ? "is-overdue" : undefined}>{todayText.groups[group]}</h2>
      {looks.map((look) => (
        <div className="due-row" key={`${look.trial.id} ${look.day} ${look.date}`}>
          <div>
            <span className="verb">{todayText.lookAt(look.coupons)}</span>
            <p className="reason">{todayText.reason(look)}</p>
          </div>
          {group !== "thisWeek" && (
            <Link
              href={`/trials/${look.trial.id}/inspect`}
              className="button wet"
              aria-label={`${todayText.lookAt(look.coupons)}, ${look.trial.name}`}
            >
              {todayText.go}
            </Link>
          )}
        </div>
      ))}
    </section>
  );
}

function TrialLines({ trials, isOwner }: { trials: TrialSummary[]; isOwner: boolean }) {
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
          {/* A trial without a short name is called after its question: once is enough. */}
          {!one.question.startsWith(one.name) && <p className="lead">{one.question}</p>}
        </div>
      ))}
      <div className="actions">
        {isOwner && (
          <>
            <Link href="/trials/new" className="button second">
              {todayText.start}
            </Link>
            <Link href="/import" className="button quiet">
              {todayText.notebook}
            </Link>
          </>
        )}
        <Link href="/eye" className="button quiet">
          {todayText.eye}
        </Link>
      </div>
    </section>
  );
}
