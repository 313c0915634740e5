/** What the reader of the whole answer must know, beside the single comparisons. */
import type { Analysis, Compared } from "./analysis.ts";
import type { Finding } from "./finding.ts";
import type { Question } from "./question.ts";
import { reaches, verdictLevels } from "./verdict.ts";

/** Notes in the order: who was taken out, how times were fitted, ceilings, all alike, what would tell. */
export function questionNotes(
  question: Question,
  whole: Analysis,
  { findings, judged }: { findings: readonly Finding[]; judged: readonly Pick<Compared, "equivalence" | "caps">[] },
): string[] {
  return [
    ...takenOutNotes(whole),
    ...fitNotes(question, whole),
    ...ceilingNotes(question, whole),
    ...alikeNotes(question, judged),
    ...moreNotes(findings),
  ];
}

/** How well a second blind pass and blind gradings of the photographs agreed with what counts, and what two devices left undecided. */
export function secondPassNotes(question: Question): string[] {
  const { secondPass, photoPass, undecidedLooks = 0, undecidedReadings = 0 } = question;
  const undecided = [...undecidedNotes(undecidedLooks, "look"), ...undecidedNotes(undecidedReadings, "reading")];
  return [...undecided, ...passNotes(secondPass), ...photoNotes(photoPass)];
}

function undecidedNotes(count: number, one: "look" | "reading"): string[] {
  if (count === 0) return [];
  const what = count === 1 ? `1 ${one} was` : `${count} ${one}s were`;
  return [
    `${what} written down differently on two devices and nobody has said which stands; the one written down first counts.`,
  ];
}

function photoNotes(photoPass: Question["photoPass"]): string[] {
  if (photoPass === undefined) return [];
  const { looks, kappa } = photoPass;
  return [
    kappa === null
      ? `${looks} blind gradings of photographs found the measured class everywhere, one and the same: agreement beyond chance cannot be measured on it.`
      : `${looks} blind gradings of photographs agree with the measured areas with a quadratic kappa of ${kappa.toFixed(2)}; the measured areas count.`,
  ];
}

function passNotes(secondPass: Question["secondPass"]): string[] {
  if (secondPass === undefined) return [];
  const { looks, kappa } = secondPass;
  const pass = `A second pass of ${looks} ${looks === 1 ? "look" : "looks"}`;
  return [
    kappa === null
      ? `${pass} found the same class everywhere: agreement beyond chance cannot be measured on it.`
      : `${pass} agrees with the first with a quadratic kappa of ${kappa.toFixed(2)}; the first counts.`,
  ];
}

function takenOutNotes({ rows }: Analysis): string[] {
  const out = rows.filter((row) => row.step === "family" && row.standing === "out");
  if (out.length === 0) return [];
  const pairs = out.map((row) => `${row.first} against ${row.second}`).join(", ");
  return [`Taken out of the family by the layout alone, before any response was read: ${pairs}.`];
}

function fitNotes(question: Question, { fits: { family } }: Analysis): string[] {
  if (question.kind !== "time") return [];
  if (family.time === null) return ["No Weibull shape fits these looks: ratios are bounds from the looks alone."];
  const blocks = new Set(family.units.map((unit) => unit.block)).size;
  if (blocks < 2 || family.time.blocksIn) return [];
  return [
    "Blocks were left out of the fit of times (too few coupons, or a block without rust); the intervals are the wider for it.",
  ];
}

/** Most of all units in one class: a finer or longer test would tell more. */
const crowded = 0.8;

function ceilingNotes(question: Question, { fits: { family } }: Analysis): string[] {
  if (question.kind === "continuous") return [];
  const data = family.units
    .flatMap((unit) => unit.coupons.slice(0, 1))
    .map(({ datum }) => JSON.stringify(classOf(datum)));
  const counts = new Map<string, number>();
  for (const datum of data) counts.set(datum, (counts.get(datum) ?? 0) + 1);
  const [datum, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? ["", 0];
  if (count < crowded * data.length || counts.size === 1) return [];
  const best = question.kind === "time" ? datum.endsWith("null]") : isBest(question, Number(datum));
  return [
    `${best ? "Ceiling" : "Floor"}: ${count} of ${data.length} units stand in one class. A finer or longer test would tell more.`,
  ];
}

function classOf(datum: Question["coupons"][number]["datum"]): unknown {
  return "value" in datum ? datum.value : datum.right === null ? ["", null] : [datum.left, datum.right];
}

function isBest({ scale, better, kind, detectionLimitPercent }: Question, value: number): boolean {
  if (kind === "area") return value <= (detectionLimitPercent ?? 0);
  if (kind === "binary") return value === 1;
  return scale ? value === scale.best : better === "higher";
}

/** An intersection-union test needs no adjustment, but every pair has to pass, and none of them may have another explanation. */
function alikeNotes(question: Question, rows: readonly Pick<Compared, "equivalence" | "caps">[]): string[] {
  const alike =
    rows.length > 1 &&
    question.family === "pairs" &&
    rows.every(({ equivalence, caps }) => {
      const stands = !caps.some((cap) => cap.againstEquivalence);
      return stands && equivalence !== null && reaches(equivalence.p, verdictLevels.equivalent);
    });
  return alike ? ["They all did equally well: every pair is equivalent within the margin."] : [];
}

function moreNotes(findings: readonly Finding[]): string[] {
  if (findings.length < 2 || findings.every((finding) => finding.wouldTell === null)) return [];
  return [
    "The numbers of units that would tell hold when that pair alone differs; more, when the others are better too.",
  ];
}
