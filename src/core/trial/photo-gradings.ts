/**
 * Photographs of a trial's looks, graded by eye, blind and in shuffled order: the inspector with the measured area, with
 * their own earlier grading, and with another inspector. Percents of the face without its edge band.
 */
import { InputError } from "../input-error.ts";
import { type EyeAgreement, eyeAgreement } from "../rating/eye-agreement.ts";
import { shuffledForLook } from "./look-order.ts";
import { isPercentLook, type Observed, type PercentLook, type PhotoGrading, type TrialRecord } from "./trial-record.ts";

/** Names a look whatever correction stands for it now. */
type PhotoKey = Pick<PhotoGrading, "coupon" | "face" | "when">;
const keyOf = ({ coupon, face, when }: PhotoKey): string =>
  JSON.stringify([coupon, face, "date" in when ? when.date : when.day]);

/** The looks that have a photograph, by key. */
function photographed({ looks }: TrialRecord): Map<string, Observed<PercentLook>> {
  return new Map(
    looks.flatMap((one) =>
      isPercentLook(one.body) && one.body.how === "photo" && one.body.measurement !== null
        ? [[keyOf(one.body), { ...one, body: one.body }] as const]
        : [],
    ),
  );
}

/** Refuses a grading of a look that has no photograph. */
export function requirePhotoGrading(record: TrialRecord, body: PhotoGrading): void {
  if (!photographed(record).has(keyOf(body)))
    throw new InputError("coupon", body.coupon, "a coupon and day of a look with a photograph of that face");
}

export type GradedPhoto = { key: string; by: string; read: number; measuredPercent: number };

/** Every grading with the area that counts now, in the order they were written down. */
export function gradedPhotos(record: TrialRecord): GradedPhoto[] {
  const looks = photographed(record);
  return record.photoGradings.flatMap(({ by, body }) => {
    const look = looks.get(keyOf(body));
    return look ? [{ key: keyOf(body), by, read: body.rustedPercent, measuredPercent: look.body.rustedPercent }] : [];
  });
}

/** Most photographs in one pass: beyond, an eye tires. */
export const photosOfPass = 20;

/**
 * The photographs that this inspector grades next, shuffled anew for each pass; `pass` counts from 1. A pass is over when
 * each of its photographs was graded as often as there were passes.
 */
export function photosToGrade(record: TrialRecord, by: string): { pass: number; left: PercentLook[]; of: number } {
  const looks = photographed(record);
  const chosen = shuffledForLook([...looks.keys()], { trial: record.id, look: "photographs" }).slice(0, photosOfPass);
  const times = (key: string) => gradedPhotos(record).filter((one) => one.by === by && one.key === key).length;
  const done = Math.min(...chosen.map(times));
  const pass = chosen.length === 0 ? 1 : done + 1;
  const order = shuffledForLook(chosen, { trial: record.id, look: `${by} ${pass}` });
  return {
    pass,
    left: order.filter((key) => times(key) < pass).map((key) => looks.get(key)!.body),
    of: chosen.length,
  };
}

export type PhotoAgreement = {
  /** Who, and with what or whom the gradings are compared: "the measured areas", "an earlier pass", another's name. */
  by: string;
  against: string;
  agreement: EyeAgreement;
};

/** Agreements of two photographs or more: each inspector with the measurement, with themselves, and each two. */
export function photoAgreements(record: TrialRecord): PhotoAgreement[] {
  const graded = gradedPhotos(record);
  const inspectors = [...new Set(graded.map(({ by }) => by))];
  const passOf = (by: string, at: number) =>
    new Map(
      [...new Set(graded.map(({ key }) => key))].flatMap((key) => {
        const own = graded.filter((one) => one.by === by && one.key === key)[at];
        return own ? [[key, own] as const] : [];
      }),
    );
  return inspectors.flatMap((by, at) => {
    const first = passOf(by, 0);
    const compared = [
      { against: "the measured areas", of: [...first.values()].map((one) => [one.measuredPercent, one.read] as const) },
      { against: "an earlier pass", of: together(first, passOf(by, 1)) },
      ...inspectors.slice(at + 1).map((other) => ({ against: other, of: together(passOf(other, 0), first) })),
    ];
    return compared.flatMap(({ against, of }) => {
      const readings = of.map(([truePercent, read]) => ({ truePercent, read }));
      return readings.length < 2 ? [] : [{ by, against, agreement: eyeAgreement({ way: "percent", readings }) }];
    });
  });
}

/** Readings of the photographs that both passes graded, the first pass's first. */
function together(first: ReadonlyMap<string, GradedPhoto>, second: ReadonlyMap<string, GradedPhoto>) {
  return [...first].flatMap(([key, one]) => {
    const other = second.get(key);
    return other ? [[one.read, other.read] as const] : [];
  });
}
