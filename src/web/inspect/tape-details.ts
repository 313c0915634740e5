/** What the form of a tape test asks beside class and coupon, and the details that come of it. */
import { type TapeClass, tapeClasses } from "../../core/rating/tape-classes.ts";
import {
  type TapeParting,
  type TapePhotoReading,
  type TapeTestDetails,
  tapePartings,
} from "../../core/trial/tape-test.ts";
import { typedNumber } from "../parts/quantity.ts";

export type LatticeCut = { spacingMm: number; cuts: number };

/** Cuts each way by spacing, as the standards have them. */
export const latticeCuts = {
  "1": { spacingMm: 1, cuts: 11 },
  "2": { spacingMm: 2, cuts: 6 },
  "3": { spacingMm: 3, cuts: 6 },
  "5": { spacingMm: 5, cuts: 6 },
} as const satisfies Record<string, LatticeCut>;
export type Spacing = keyof typeof latticeCuts;

export type DetailsForm = {
  spacing: Spacing;
  tape: string;
  qualified: boolean;
  parted: string;
  counts: "photo" | "eye";
  primer: string;
  passes: string;
  steelTemp: string;
  flash: string;
  cure: string;
  thickness: string;
};

export const emptyDetails: DetailsForm = {
  ...{ spacing: "2", tape: "", qualified: false, parted: "not seen", counts: "photo" },
  ...{ primer: "", passes: "", steelTemp: "", flash: "", cure: "", thickness: "" },
};

/** As typed before, for a correction. */
export function detailsForm(details: TapeTestDetails | undefined): DetailsForm {
  if (!details) return emptyDetails;
  const { cut, tape, parted, counts, painted } = details;
  const typed = (value: number | null | undefined) => (value === null || value === undefined ? "" : String(value));
  const spacing = (["1", "2", "3", "5"] as const).find(
    (one) => cut.form === "cross-cut" && latticeCuts[one].spacingMm === cut.spacingMm,
  );
  return {
    spacing: spacing ?? "2",
    tape: tape.name,
    qualified: tape.qualified,
    parted: parted ?? "not seen",
    counts,
    primer: painted?.primer ?? "",
    passes: typed(painted?.passes),
    steelTemp: typed(painted?.steelTempC),
    flash: typed(painted?.flashMinutes),
    cure: typed(painted?.cureHours),
    thickness: typed(painted?.thicknessUm),
  };
}

const paintedNumbers = ["passes", "steelTemp", "flash", "cure", "thickness"] as const;

/** Typed, and no number: it is asked again, not dropped. */
export const isNoNumber = (typed: string): boolean => typed.trim() !== "" && typedNumber(typed) === null;

export const hasNoNumber = (form: DetailsForm): boolean => paintedNumbers.some((name) => isNoNumber(form[name]));

/** The details of a test whose eye's class is known; what came off at all says whether the film parted. */
export function detailsOf(
  form: DetailsForm,
  cut: "A" | "B",
  eyeClass: TapeClass,
  photo: TapePhotoReading | null,
): TapeTestDetails {
  const counts = photo === null ? "eye" : form.counts;
  const counting = counts === "photo" && photo ? photo.tapeClass : eyeClass;
  const painted = {
    primer: form.primer.trim() === "" ? null : form.primer.trim(),
    passes: typedNumber(form.passes),
    steelTempC: typedNumber(form.steelTemp),
    flashMinutes: typedNumber(form.flash),
    cureHours: typedNumber(form.cure),
    thicknessUm: typedNumber(form.thickness),
  };
  return {
    cut: cut === "B" ? { form: "cross-cut", ...latticeCuts[form.spacing] } : { form: "x-cut" },
    tape: { name: form.tape.trim(), qualified: form.qualified },
    parted: partedOf(counting, partingOf(form)),
    eyeClass,
    photo,
    counts,
    painted: Object.values(painted).every((value) => value === null) ? null : painted,
  };
}

/** Where the film parted, as chosen. */
export const partingOf = ({ parted }: DetailsForm): TapeParting =>
  tapePartings.find((one) => one === parted) ?? "not seen";

export const partedOf = (counting: TapeClass, parted: TapeParting): TapeParting | null =>
  nothingOff(counting) ? null : parted;

const nothingOff = (one: TapeClass): boolean => one === tapeClasses[0] || one === tapeClasses[6];
