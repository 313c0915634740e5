/** A plain table on its way to become a trial: its text, how it is to be read, and what it does not say itself. */
import * as z from "zod/mini";
import { valueKinds } from "../core/trial/declared-question.ts";
import { rustScales, scaleNames } from "../core/trial/scale-ends.ts";
import { name } from "./observation.ts";
import { dateOrders } from "./plain-table-date.ts";
import { maxTableBytes } from "./plain-table-text.ts";
import { couponSize } from "./plan.ts";

const percent = z.number().check(z.minimum(0), z.maximum(100));
const text = z.string().check(z.maxLength(200));

const readingWishes = z.strictObject({
  dates: z.nullable(z.enum(dateOrders)),
  from: z.nullable(text),
  scale: z.nullable(z.enum(scaleNames)),
  words: z.nullable(z.record(z.string(), percent)),
  response: z.nullable(text),
  kind: z.nullable(z.enum(valueKinds)),
  better: z.nullable(z.enum(["higher", "lower"])),
  circumstances: z.array(text).check(z.maxLength(50)),
});

const tableAsk = z.strictObject({
  response: z.nullable(z.enum(["time", "area", "grade"])),
  scale: z.nullable(z.enum(rustScales)),
  thresholdPercent: z.nullable(percent),
  atDay: z.nullable(z.number().check(z.minimum(0))),
  control: z.nullable(name),
  witness: z.nullable(name),
  family: z.nullable(z.enum(["control", "pairs"])),
  margin: z.nullable(z.number().check(z.positive())),
  ratio: z.boolean(),
  treatedSeparately: z.boolean(),
  notRandomised: z.boolean(),
  notBlind: z.boolean(),
  exploratory: z.boolean(),
  seed: z.int().check(z.minimum(0)),
});

export const newImport = z.strictObject({
  id: z.uuid(),
  name,
  by: name,
  text: z.string().check(z.minLength(1), z.maxLength(maxTableBytes)),
  reading: readingWishes,
  ask: tableAsk,
  question: z.string().check(z.maxLength(2000)),
  couponSize,
  edgeBandMm: z.number().check(z.minimum(0), z.maximum(500)),
  /** Date of day 0 of a table that counts days; null: not known. */
  startedOn: z.nullable(z.iso.date()),
  /** Also when a trial of the very same table is here already. */
  again: z.boolean(),
});
export type NewImport = z.infer<typeof newImport>;

export const importedTrial = z.strictObject({
  id: z.uuid(),
  coupons: z.int(),
  observations: z.int(),
});
