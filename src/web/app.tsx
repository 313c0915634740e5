/** The shell around every screen, and which address shows which screen. */
import { Component, lazy, type ReactNode, Suspense, useEffect, useState } from "react";
import { Link, Route, Switch, useLocation } from "wouter";
import { keep, readKept } from "./keep/kept.ts";
import { SettingsSheet } from "./settings/settings-sheet.tsx";
import { DeviceLine, SharedMark } from "./sharing/device-standing.tsx";
import { useLetIn } from "./shop/let-in.ts";
import { useLiveShop } from "./shop/live.ts";
import { useShop } from "./shop/queries.ts";
import { shellText } from "./text/shell.ts";
import { TodayPage } from "./today/today-page.tsx";
import { keepSending } from "./waiting/send-waiting.ts";
import { AwayLine, WaitingMark } from "./waiting/waiting-mark.tsx";

// The first page stays small: every other screen comes when it is asked for.
const NewTrialPage = lazy(async () => ({ default: (await import("./new-trial/new-trial-page.tsx")).NewTrialPage }));
const TrialPage = lazy(async () => ({ default: (await import("./trial/trial-page.tsx")).TrialPage }));
const CorrectPlanPage = lazy(async () => ({
  default: (await import("./correct-plan/correct-plan-page.tsx")).CorrectPlanPage,
}));
const LabelsPage = lazy(async () => ({ default: (await import("./trial/labels-page.tsx")).LabelsPage }));
const RackMapPage = lazy(async () => ({ default: (await import("./trial/rack-map-page.tsx")).RackMapPage }));
const ImportPage = lazy(async () => ({ default: (await import("./import/import-page.tsx")).ImportPage }));
const CardPage = lazy(async () => ({ default: (await import("./card/card-page.tsx")).CardPage }));
const FindCouponPage = lazy(async () => ({
  default: (await import("./find-coupon/find-coupon-page.tsx")).FindCouponPage,
}));
const RegradePage = lazy(async () => ({ default: (await import("./eye/regrade-page.tsx")).RegradePage }));
const EyePage = lazy(async () => ({ default: (await import("./eye/eye-page.tsx")).EyePage }));
const WaitingPage = lazy(async () => ({ default: (await import("./waiting/waiting-page.tsx")).WaitingPage }));
const ReadingPage = lazy(async () => ({ default: (await import("./reading/reading-page.tsx")).ReadingPage }));
const TeachPage = lazy(async () => ({ default: (await import("./reading/teach-page.tsx")).TeachPage }));
const FacePage = lazy(async () => ({ default: (await import("./faces/face-page.tsx")).FacePage }));
const FacesPage = lazy(async () => ({ default: (await import("./faces/faces-page.tsx")).FacesPage }));
const BatchPage = lazy(async () => ({ default: (await import("./batch/batch-page.tsx")).BatchPage }));
const InspectScreen = lazy(async () => ({ default: (await import("./inspect/inspect-screen.tsx")).InspectScreen }));
const SharingPage = lazy(async () => ({ default: (await import("./sharing/sharing-page.tsx")).SharingPage }));
const PairPage = lazy(async () => ({ default: (await import("./sharing/pair-page.tsx")).PairPage }));
const TrustPage = lazy(async () => ({ default: (await import("./sharing/trust-page.tsx")).TrustPage }));

/** Two places are for devices that are not let in yet: they ask nothing of the shop. */
export function App() {
  const [address] = useLocation();
  const letIn = useLetIn();
  if (address === "/trust") return <Doorway screen={<TrustPage />} />;
  if (address === "/pair") return <Doorway screen={<PairPage wasAway={false} />} />;
  return letIn ? <Shop /> : <Doorway screen={<PairPage wasAway={true} />} />;
}

function Doorway({ screen }: { screen: ReactNode }) {
  return (
    <>
      <header className="top">
        <House />
      </header>
      <Suspense fallback={<Loading />}>{screen}</Suspense>
    </>
  );
}

function Shop() {
  useLiveShop();
  useEffect(keepSending, []);
  const { isInvented, keepsRoom } = useIsInvented();
  return (
    <>
      <a className="skip" href="#content">
        {shellText.skip}
      </a>
      <TopLine />
      <AwayLine />
      <DeviceLine />
      <div role="status" className={keepsRoom ? "kept-room" : undefined} data-room={shellText.invented}>
        {isInvented && <p className="invented">{shellText.invented}</p>}
      </div>
      <div id="content" tabIndex={-1}>
        <WhenBroken>
          <Suspense fallback={<Loading />}>
            <Switch>
              <Route path="/" component={TodayPage} />
              <Route path="/trials/new" component={NewTrialPage} />
              <Route path="/trials/:id/plan">{({ id }) => <CorrectPlanPage key={id} id={id} />}</Route>
              <Route path="/trials/:id/labels">{({ id }) => <LabelsPage id={id} />}</Route>
              <Route path="/trials/:id/rack-map">{({ id }) => <RackMapPage id={id} />}</Route>
              <Route path="/trials/:id/inspect/:coupon?" component={InspectScreen} />
              <Route path="/trials/:id/reading">{({ id }) => <ReadingPage key={id} id={id} />}</Route>
              <Route path="/trials/:id/reading/:measurement">
                {({ id, measurement }) => <TeachPage key={measurement} trial={id} measurement={measurement} />}
              </Route>
              <Route path="/trials/:id/coupons/:coupon">
                {({ id, coupon }) => <FacePage key={coupon} id={id} coupon={coupon} />}
              </Route>
              <Route path="/trials/:id/photographs">{({ id }) => <BatchPage key={id} id={id} />}</Route>
              <Route path="/trials/:id/faces">{({ id }) => <FacesPage key={id} id={id} />}</Route>
              <Route path="/trials/:id/regrade">{({ id }) => <RegradePage key={id} id={id} />}</Route>
              <Route path="/trials/:id">{({ id }) => <TrialPage key={id} id={id} />}</Route>
              <Route path="/card/:trial?">{({ trial }) => <CardPage key={trial} trial={trial} />}</Route>
              <Route path="/import" component={ImportPage} />
              <Route path="/c/:digits/:coupon">
                {({ digits, coupon }) => <FindCouponPage digits={digits} coupon={coupon} />}
              </Route>
              <Route path="/c/:coupon">{({ coupon }) => <FindCouponPage digits={null} coupon={coupon} />}</Route>
              <Route path="/eye" component={EyePage} />
              <Route path="/waiting" component={WaitingPage} />
              <Route path="/sharing" component={SharingPage} />
              <Route component={NoSuchPage} />
            </Switch>
          </Suspense>
        </WhenBroken>
      </div>
    </>
  );
}

/**
 * As this device last heard, until the shop says it again: the line stands above all else and would push it down. A device that
 * never heard keeps its room, this once.
 */
function useIsInvented(): { isInvented: boolean; keepsRoom: boolean } {
  const [heard] = useState(() => readKept("invented"));
  const said = useShop().data?.invented;
  useEffect(() => {
    if (said !== undefined) keep("invented", said);
  }, [said]);
  return { isInvented: said ?? heard === true, keepsRoom: heard === null };
}

function TopLine() {
  const [settings, setSettings] = useState(false);
  const [address] = useLocation();
  return (
    <header className="top">
      <House />
      <WaitingMark />
      <nav aria-label={shellText.name}>
        <Link href="/" aria-current={address === "/" ? "page" : undefined}>
          {shellText.today}
        </Link>
        <SharedMark />
        <button type="button" className="quiet" onClick={() => setSettings(true)}>
          {shellText.settings}
        </button>
      </nav>
      <SettingsSheet open={settings} onClose={() => setSettings(false)} />
    </header>
  );
}

function House() {
  return (
    <Link href="/" className="house">
      <svg viewBox="0 0 22 26" aria-hidden="true">
        <rect width="22" height="26" rx="2.5" fill="currentColor" />
        <circle cx="11" cy="5.5" r="2.2" fill="var(--ground)" />
        <path d="M5 13h12M5 17h12M5 21h7" stroke="var(--ground)" strokeWidth="1.8" strokeLinecap="round" />
      </svg>
      <span>{shellText.name}</span>
    </Link>
  );
}

export function Loading() {
  return (
    <main aria-busy="true">
      <p className="lead">{shellText.loading}</p>
    </main>
  );
}

function NoSuchPage() {
  return (
    <main>
      <h1>{shellText.noSuchPage}</h1>
      <Link href="/" className="button">
        {shellText.toToday}
      </Link>
    </main>
  );
}

/** One broken screen must not take the typed words of a form with it: they are kept, and said to be. */
class WhenBroken extends Component<{ children: ReactNode }, { failure: Error | null }> {
  override state: { failure: Error | null } = { failure: null };
  static getDerivedStateFromError(failure: Error) {
    return { failure };
  }
  override render() {
    const { failure } = this.state;
    if (failure === null) return this.props.children;
    return (
      <main>
        <h1>{shellText.broken}</h1>
        <p className="trouble">{failure.message}</p>
        <button type="button" onClick={() => location.reload()}>
          {shellText.reload}
        </button>
      </main>
    );
  }
}
