/** What is known of one tape test beside its class: the cut, the tape, where the film parted, what had been painted. */
import type { TapeClass } from "../rating/tape-classes.ts";

export const tapePartings = [
  "primer from coating",
  "within the primer",
  "within the coating",
  "coating from steel",
  "not seen",
] as const;
export type TapeParting = (typeof tapePartings)[number];

/** `spacingMm` and `cuts` of a lattice, each way. */
export type TapeCut = { form: "cross-cut"; spacingMm: number; cuts: number } | { form: "x-cut" };

export type TapeTestDetails = {
  cut: TapeCut;
  /** `qualified`: its pull strength is known to lie where the standard wants it. */
  tape: { name: string; qualified: boolean };
  /** null: nothing came off. */
  parted: TapeParting | null;
  /** Chosen by the drawings before the photographs' class was shown. */
  eyeClass: TapeClass;
  photo: TapePhotoReading | null;
  /** Whose class counts. */
  counts: "eye" | "photo";
  painted: PaintedFilm | null;
};

/** What was read from the photographs before and after the pull. Pictures by content hash. */
export type TapePhotoReading = {
  before: string;
  after: string;
  /** After the pull, square on, with what came off outlined. */
  overlay: string;
  method: string;
  /** Of the lattice, or of the band along an X, %; with the span in which it probably lies. */
  removedPercent: number;
  span: { from: number; to: number };
  /** Per lattice square, row by row, or per arm of the X, %. */
  mapPercents: number[];
  tapeClass: TapeClass;
  /** ISO 2409 of a lattice, ISO 16276-2 of an X. */
  isoClass: number;
  /** Of D3359, which it could as well be: a measure lies near a limit. Left out where none does. */
  otherClass?: TapeClass;
};

/** null: nobody wrote it down. Steel temperature at painting in °C, flash between passes in minutes, cure in hours. */
export type PaintedFilm = {
  primer: string | null;
  passes: number | null;
  steelTempC: number | null;
  flashMinutes: number | null;
  cureHours: number | null;
  thicknessUm: number | null;
};

const circumstanceNames = [
  "primer",
  "passes of primer",
  "steel temperature at painting",
  "flash time",
  "cure time",
  "tape",
  "spacing of cuts",
] as const;
type TapeCircumstance = (typeof circumstanceNames)[number];

/** What follows from the paint itself: where routes differ in it, it is the treatment and no circumstance. */
const ofThePaint: readonly TapeCircumstance[] = ["primer", "passes of primer", "flash time"];

/** Names of what a tape test adds to the circumstances; those of the paint only where the compared routes share it. */
export const tapeCircumstanceNames = (differingSteps: readonly string[]): readonly TapeCircumstance[] =>
  differingSteps.some(isPainting) ? circumstanceNames.filter((name) => !ofThePaint.includes(name)) : circumstanceNames;

const isPainting = (step: string) => /primer|paint|lacquer|enamel/i.test(step);

/** One circumstance of a tape test: °C, minutes, hours, mm, or words; null where nobody wrote it down. */
export function tapeCircumstance(
  { painted, tape, cut }: TapeTestDetails,
  name: TapeCircumstance,
): string | number | null {
  switch (name) {
    case "primer":
      return painted?.primer ?? null;
    case "passes of primer":
      return painted?.passes ?? null;
    case "steel temperature at painting":
      return painted?.steelTempC ?? null;
    case "flash time":
      return painted?.flashMinutes ?? null;
    case "cure time":
      return painted?.cureHours ?? null;
    case "tape":
      return tape.name === "" ? null : tape.name;
    case "spacing of cuts":
      return cut.form === "cross-cut" ? cut.spacingMm : null;
  }
}

/** What whoever reads the answer must know of how the tests were made. */
export function tapeTestNotes(tests: readonly { details?: TapeTestDetails }[]): string[] {
  const told = tests.flatMap(({ details }) => (details ? [details] : []));
  const unqualified = told.filter(({ tape }) => !tape.qualified).length;
  const within = told.filter(({ parted }) => parted === "within the coating").length;
  const spacings = new Set(told.flatMap(({ cut }) => (cut.form === "cross-cut" ? [cut.spacingMm] : [])));
  const photographed = told.filter(({ counts }) => counts === "photo").length;
  return [
    ...(unqualified > 0
      ? [
          `By comparison only: the tape of ${unqualified} of ${tests.length} tests was not qualified, so these classes rank coupons of this trial and say nothing against a standard.`,
        ]
      : []),
    ...(within > 0
      ? [
          `On ${within} of ${tests.length} tests the film parted within the coating: the crystal split, which says nothing about how the paint holds on it.`,
        ]
      : []),
    ...(spacings.size > 1
      ? [`Lattices were cut at different spacings (${[...spacings].sort((a, b) => a - b).join(" and ")} mm).`]
      : []),
    ...(photographed > 0 ? [`${photographed} of ${tests.length} classes were read from photographs.`] : []),
  ];
}
