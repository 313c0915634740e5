/**
 * Makes the demonstration shop: three invented trials, their rendered photographs measured by the very code that
 * measures real ones. The same day gives the same shop.
 */
import { Readable } from "node:stream";
import type { Measurement, MeasurementRequest, Photo } from "../../api/photo.ts";
import type { PlanDraft } from "../../api/plan.ts";
import type { TapeClass } from "../../core/rating/tape-classes.ts";
import type { CouponPlace } from "../../core/trial/coupon-place.ts";
import { drawPlan } from "../../core/trial/draw-plan.ts";
import type { Look, Plan } from "../../core/trial/trial-record.ts";
import { openShop, type ShopStore } from "../../store/open-shop.ts";
import { measurePool, threads } from "../measure-pool.ts";
import { correctionWork, type Measuring, measureWork } from "../measure-work.ts";
import { type Diary, dateAfter, dateBefore, demoAuthor, diaryOf, idOf, instantOf } from "./demo-diary.ts";
import { stepsDone, whatWentWrong } from "./demo-events.ts";
import { rustedOnDayOf, trueShares } from "./demo-rust.ts";
import { demoWeather } from "./demo-weather.ts";
import { type Renderer, renderPool } from "./render-pool.ts";
import type { RenderedPhoto, RenderTask } from "./render-worker.ts";
import { type DemoTreatment, fenceTrial, primerTrial, shedTrial } from "./scenario.ts";

export type DemoMaking = { dir: string; today: string; progress: (share: number) => void };

const pictureWidthPx = 520;

export async function makeDemoShop({ dir, today, progress }: DemoMaking): Promise<void> {
  const store = await openShop(dir);
  const measurer = measurePool();
  const renderer = renderPool();
  try {
    await store.settings.declareInvented(`${today}T00:00:00.000Z`);
    const photographed = [fenceTrial, shedTrial];
    const looksDone = photographed.map((trial) => trial.draft.lookDays.filter((day) => day < trial.startedDaysAgo));
    const pictures = photographed.reduce(
      (sum, trial, at) => sum + looksDone[at]!.length * drawPlan(trial.draft).places.length,
      0,
    );
    let made = 0;
    for (const [at, trial] of photographed.entries())
      await makePhotographedTrial({
        trial,
        days: looksDone[at]!,
        start: dateBefore(today, trial.startedDaysAgo),
        renderer,
        measuring: { store, measurer },
        onPicture: () => progress(++made / pictures),
      });
    await makeTapeTrial(store, dateBefore(today, primerTrial.startedDaysAgo));
  } finally {
    await renderer.close();
    await measurer.close();
    await store.close();
  }
}

type PhotographedTrial = {
  name: string;
  site: string;
  startedDaysAgo: number;
  closed: boolean;
  draft: PlanDraft;
  truth: Record<string, DemoTreatment>;
};

async function makePhotographedTrial(of: {
  trial: PhotographedTrial;
  days: number[];
  start: string;
  renderer: Renderer;
  measuring: Omit<Measuring, "now">;
  onPicture: () => void;
}): Promise<void> {
  const { trial, days, start, renderer, measuring, onPicture } = of;
  const { store } = measuring;
  const plan: Plan = { ...drawPlan(trial.draft), invented: true };
  const diary = diaryOf(trial.name);
  diary.write(dateBefore(start, 3), { kind: "plan", plan });
  for (const body of [...stepsDone(plan, dateBefore(start, 1)), ...whatWentWrong(plan)])
    diary.write(dateBefore(start, 1), body);
  diary.write(start, {
    kind: "put out",
    site: trial.site,
    date: start,
    coupons: plan.places.map((place) => place.coupon),
  });
  await store.readings.add(demoWeather(trial.site, start, trial.startedDaysAgo + 1));

  // More than there are threads, so that one coupon is rendered while others are being measured.
  const found = await inTurns([...plan.places.entries()], threads + 2, async ([at, place]) => {
    const tasks = lookTasks(trial, plan, place, days);
    const photos = await renderer.photosOf(renderTask(trial, plan, { place, at }, tasks));
    const measured: MeasuredLook[] = [];
    for (const [look, task] of tasks.entries()) {
      measured.push(await photographAndMeasure(measuring, task, photos[look]!, dateAfter(start, task.day)));
      onPicture();
    }
    return measured;
  });
  const inOrder = found.flat().sort((a, b) => a.task.day - b.task.day);
  for (const { task, measurement } of inOrder)
    diary.write(dateAfter(start, task.day), lookOf(task.place.coupon, dateAfter(start, task.day), measurement));
  if (trial.closed) {
    await correctOneLook(measuring, diary, inOrder);
    diary.write(dateAfter(start, Math.max(...days)), { kind: "unblinding" });
  }
  await store.trials.start(
    { id: idOf(trial.name), name: trial.name, createdAt: instantOf(dateBefore(start, 3)) },
    diary.pages,
  );
}

/** A scratch that the colour rule was asked about twice: the correction says who and why, the first reading stays. */
async function correctOneLook(measuring: Omit<Measuring, "now">, diary: Diary, looks: MeasuredLook[]): Promise<void> {
  const one = looks.find(({ task, measurement }) => task.day === 28 && measurement.rustedPercent > 0.5);
  if (!one) return;
  const wrong = diary.pages.find(({ body }) => body.kind === "look" && body.measurement === one.measurement.id);
  if (!wrong) return;
  const id = idOf(`${one.measurement.id} corrected`);
  const why = "the streak beside the hole is a scratch from the hook, not rust";
  const strokes = [
    {
      paint: "not rust" as const,
      widthMm: 4,
      pointsMm: [
        [10, 8],
        [10, 30],
      ] as [number, number][],
    },
  ];
  const now = () => new Date(one.measurement.measuredAt);
  await correctionWork({ ...measuring, now }, one.measurement, { id, by: demoAuthor, why, strokes })({
    signal: new AbortController().signal,
    progress: () => undefined,
  });
  const corrected = await measured(measuring.store, id);
  const date = one.measurement.measuredAt.slice(0, 10);
  diary.write(date, lookOf(one.task.place.coupon, date, corrected), { id: wrong.id, why });
}

async function makeTapeTrial(store: ShopStore, start: string): Promise<void> {
  const plan: Plan = { ...drawPlan(primerTrial.draft), invented: true };
  const diary = diaryOf(primerTrial.name);
  diary.write(dateBefore(start, 3), { kind: "plan", plan });
  for (const body of stepsDone(plan, dateBefore(start, 1))) diary.write(dateBefore(start, 1), body);
  const coupons = plan.places.map((place) => place.coupon);
  diary.write(start, { kind: "put out", site: primerTrial.site, date: start, coupons });
  const testedOn = dateAfter(start, 14);
  const dealt = new Map<string, number>();
  for (const place of plan.places) {
    const at = dealt.get(place.treatment) ?? 0;
    dealt.set(place.treatment, at + 1);
    const classes: Record<string, readonly TapeClass[]> = primerTrial.tapeClasses;
    const note = "etch primer, cross-cut at 2 mm";
    diary.write(testedOn, {
      kind: "tape test",
      coupon: place.coupon,
      when: { date: testedOn },
      tapeClass: classes[place.treatment]![at]!,
      blind: true,
      note,
    });
  }
  diary.write(testedOn, { kind: "unblinding" });
  await store.trials.start(
    { id: idOf(primerTrial.name), name: primerTrial.name, createdAt: instantOf(dateBefore(start, 3)) },
    diary.pages,
  );
}

type LookTask = { place: CouponPlace; day: number; trial: string; plan: Plan; rustedOnDay: number };
type MeasuredLook = { task: LookTask; measurement: Measurement };

function lookTasks(trial: PhotographedTrial, plan: Plan, place: CouponPlace, days: number[]): LookTask[] {
  const rustedOnDay = rustedOnDayOf(trial.truth, plan, place);
  return days.map((day) => ({ place, day, trial: trial.name, plan, rustedOnDay }));
}

function renderTask(
  trial: PhotographedTrial,
  plan: Plan,
  { place, at }: { place: CouponPlace; at: number },
  tasks: readonly LookTask[],
): RenderTask {
  const { lengthMm, widthMm } = plan.couponSize;
  return {
    piece: {
      seed: trial.draft.seed * 100 + at,
      number: place.coupon,
      finish: trial.truth[place.treatment]!.finish,
      sizeMm: { lengthMm, widthMm },
      edgeBandMm: plan.edgeBandMm,
    },
    looks: tasks.map(({ rustedOnDay, day }, look) => ({
      ...trueShares(rustedOnDay, day),
      look,
      widthPx: pictureWidthPx,
    })),
  };
}

async function photographAndMeasure(
  measuring: Omit<Measuring, "now">,
  task: LookTask,
  rendered: RenderedPhoto,
  date: string,
): Promise<MeasuredLook> {
  const { store } = measuring;
  const at = instantOf(date);
  const arrived = await store.photos.files.arrive(Readable.from([rendered.jpeg]));
  const facts = {
    mediaType: "image/jpeg" as const,
    widthPx: rendered.widthPx,
    heightPx: rendered.heightPx,
    takenAt: null,
  };
  const photo: Photo = await store.photos.add(arrived, facts, at);
  const { lengthMm, widthMm } = task.plan.couponSize;
  const request: MeasurementRequest = {
    id: idOf(`${task.trial} ${task.place.coupon} ${task.day}`),
    photo: photo.hash,
    cornersPx: rendered.cornersPx.map(([x, y]) => [x, y]) as MeasurementRequest["cornersPx"],
    sizeMm: { lengthMm, widthMm },
    edgeBandMm: task.plan.edgeBandMm,
  };
  await measureWork(
    { ...measuring, now: () => new Date(at) },
    photo,
    request,
  )({ signal: new AbortController().signal, progress: () => undefined });
  return { task, measurement: await measured(store, request.id) };
}

async function measured(store: ShopStore, id: string): Promise<Measurement> {
  const found = await store.measurements.find(id);
  if (!found) throw new Error(`measurement ${id} was made and is not in the shop`);
  return found;
}

function lookOf(coupon: string, date: string, measurement: Measurement): Look {
  const { rustedPercent, edgePercent, id } = measurement;
  return {
    kind: "look",
    coupon,
    face: "front",
    when: { date },
    rustedPercent,
    edgePercent,
    how: "photo",
    blind: true,
    measurement: id,
  };
}

/** Works through a list, a few at a time, answers in the list's order. */
async function inTurns<T, R>(list: T[], atOnce: number, work: (item: T) => Promise<R>): Promise<R[]> {
  const answers: R[] = [];
  let next = 0;
  const worker = async () => {
    while (next < list.length) {
      const at = next++;
      answers[at] = await work(list[at]!);
    }
  };
  await Promise.all(Array.from({ length: atOnce }, worker));
  return answers;
}
