/** An answered question as text for a terminal. What it says was decided before; here it is only laid out. */

import type { AnsweredQuestion, Effect, Finding, Trend } from "../core/trial/finding.ts";
import { capital } from "../report/capital.ts";
import type { AskOptions } from "./ask-options.ts";

export function findingsText(answer: AnsweredQuestion): string {
  const { response, unit, overall, findings, confounded, notes } = answer;
  const against = answer.trend
    ? "in their order"
    : answer.family === "control"
      ? `each against ${answer.control}`
      : "all pairs";
  return [
    `${capital(response)}${unit === "" ? "" : ` (${unit})`}, ${against}`,
    ...(overall ? [`All alike? p = ${figures(overall.p)} (${overall.method})`] : []),
    ...(answer.trend ? ["", ...trendLines(answer.trend)] : []),
    ...findings.flatMap((finding) => ["", ...findingLines(finding)]),
    ...(confounded.length > 0 ? ["", "Could be confused with:"] : []),
    ...confounded.map(({ circumstance, treatments, how }) => `  ${circumstance}, ${how}: ${treatments.join(" and ")}`),
    ...(notes.length > 0 ? ["", "Notes:", ...notes.map((note) => `  ${note}`)] : []),
  ].join("\n");
}

/** How to confirm what a table cannot say, or take it back; what was said already is left out. */
export function assumptionHint(said: AskOptions): string {
  const takenBack = [
    ...(said.notRandomised ? [] : ["--not-randomised"]),
    ...(said.notBlind ? [] : ["--not-blind"]),
    ...(said.exploratory ? [] : ["--exploratory"]),
  ];
  return [
    ...(takenBack.length > 0 ? [`What is assumed and does not hold is taken back: ${takenBack.join(", ")}.`] : []),
    ...(said.treatedSeparately ? [] : ["Each coupon had its own dip or wipe: --treated-separately confirms it."]),
  ].join("\n");
}

function findingLines(finding: Finding): string[] {
  const { first, second, n, verdict, sentence, effect, p, pAdjusted, because, wouldTell, method } = finding;
  const adjusted =
    pAdjusted === null ? "" : `, adjusted ${finding.pAdjustedIsLowerBound ? "at least " : ""}${figures(pAdjusted)}`;
  return [
    `${first} against ${second}: ${verdict.toUpperCase()}`,
    `  ${sentence}`,
    `  n ${n[0]} and ${n[1]}${effect ? `; ${effectText(effect)}` : ""}${p === null ? "" : `; p ${figures(p)}${adjusted}`}`,
    ...because.map((reason) => `  because: ${reason}`),
    ...(wouldTell ? [`  would tell: ${wouldTell.map(chance).join(", ")}`] : []),
    ...(method === "" ? [] : [`  method: ${method}`]),
  ];
}

function trendLines({ order, n, verdict, sentence, effect, p, because, method }: Trend): string[] {
  return [
    `${order.join(", ")}: ${verdict.toUpperCase()}`,
    `  ${sentence}`,
    `  n ${n.join(", ")}${effect ? `; ${effectText(effect)}` : ""}${p === null ? "" : `; p ${figures(p)}`}`,
    ...because.map((reason) => `  because: ${reason}`),
    ...(method === "" ? [] : [`  method: ${method}`]),
  ];
}

function chance({ power, perTreatment }: { power: number; perTreatment: number | null }): string {
  const percent = `${Math.round(power * 100)} %`;
  return perTreatment === null ? `out of reach for ${percent}` : `${perTreatment} of each for ${percent}`;
}

function effectText({ name, value, lower, upper, confidence }: Effect): string {
  if (value === null && lower === null && upper === null) return `no ${name} can be given`;
  const limits = `${lower === null ? "no lower limit" : figures(lower)} to ${upper === null ? "no upper limit" : figures(upper)}`;
  return `${name} ${value === null ? "without a value" : figures(value)} (${figures(confidence * 100)} %: ${limits})`;
}

/** Three figures: more than a shop's data carry, and never a p of 0. */
const figures = (number: number): string => String(Number(number.toPrecision(3)));
