/** Trials and what was observed in them: rows that are added, and read back in the order they came in. */
import { isDeepStrictEqual } from "node:util";
import type { Kysely, Transaction } from "kysely";
import type { TrialSummary } from "../api/shop.ts";
import { type Observation, trialRecord } from "../core/trial/trial-record.ts";
import { Conflict } from "./conflict.ts";
import type { ObservationRow, Tables, TrialRow } from "./tables.ts";

export type StoredTrial = { id: string; name: string; createdAt: string };
export type TrialWithObservations = StoredTrial & { observations: Observation[] };

export type TrialStore = {
  list(): Promise<TrialSummary[]>;
  all(): Promise<TrialWithObservations[]>;
  find(id: string): Promise<TrialWithObservations | null>;
  /** The oldest trial that began with these very observations, whatever their ids and moments; null: none did. */
  begunWith(observations: readonly Observation[]): Promise<StoredTrial | null>;
  /** A trial with its first observations, its plan among them; all or nothing. The same again is accepted and dropped. */
  start(trial: StoredTrial, observations: readonly Observation[]): Promise<TrialWithObservations>;
  /**
   * Adds one observation and returns it as stored. `check` sees what the trial holds, inside the same transaction,
   * and refuses by throwing. A repeat of an observation (same id, same content) returns the stored one.
   * Null when there is no such trial.
   */
  record(
    trial: string,
    observation: Observation,
    check: (trial: TrialWithObservations) => void,
  ): Promise<Observation | null>;
};

export function trialStore(db: Kysely<Tables>): TrialStore {
  const all = async () => {
    const trials = await db.selectFrom("trial").selectAll().orderBy("created_at").orderBy("id").execute();
    const rows = await db.selectFrom("observation").selectAll().orderBy("trial").orderBy("position").execute();
    return withObservations(trials, rows);
  };
  return {
    list: () => summaries(db),

    all,

    begunWith: async (observations) => (await all()).find((one) => startsWith(one.observations, observations)) ?? null,

    find: (id) => db.transaction().execute((within) => find(within, id)),

    start: (trial, observations) =>
      db.transaction().execute(async (within) => {
        const known = await find(within, trial.id);
        if (known) {
          if (known.name === trial.name && startsWith(known.observations, observations)) return known;
          throw new Conflict("id", trial.id, `a trial named "${known.name}" has it`);
        }
        await within
          .insertInto("trial")
          .values({ id: trial.id, name: trial.name, created_at: trial.createdAt })
          .execute();
        for (const [at, one] of observations.entries())
          await within
            .insertInto("observation")
            .values(rowOf(trial.id, at + 1, one))
            .execute();
        return { ...trial, observations: [...observations] };
      }),

    record: (trialId, observation, check) =>
      db.transaction().execute(async (within) => {
        const trial = await find(within, trialId);
        if (!trial) return null;
        const known = await within
          .selectFrom("observation")
          .selectAll()
          .where("id", "=", observation.id)
          .executeTakeFirst();
        if (known) {
          if (known.trial === trialId && sameContent(observationOf(known), observation)) return observationOf(known);
          throw new Conflict("id", observation.id, `another observation (${known.kind}, by ${known.by}) has it`);
        }
        check(trial);
        const row = rowOf(trialId, trial.observations.length + 1, observation);
        await within.insertInto("observation").values(row).execute();
        return observation;
      }),
  };
}

async function find(db: Transaction<Tables>, id: string): Promise<TrialWithObservations | null> {
  const trial = await db.selectFrom("trial").selectAll().where("id", "=", id).executeTakeFirst();
  if (!trial) return null;
  const rows = await db.selectFrom("observation").selectAll().where("trial", "=", id).orderBy("position").execute();
  return withObservations([trial], rows)[0] ?? null;
}

/** The newest trial first. Only the few kinds of observation that a summary rests on are read. */
async function summaries(db: Kysely<Tables>): Promise<TrialSummary[]> {
  const trials = await db.selectFrom("trial").selectAll().orderBy("created_at", "desc").orderBy("id", "desc").execute();
  const rows = await db
    .selectFrom("observation")
    .selectAll()
    .where("kind", "in", ["plan", "unblinding", "withdrawal"])
    .orderBy("trial")
    .orderBy("position")
    .execute();
  return withObservations(trials, rows).map((trial) => {
    const { plan, unblinded } = trialRecord(trial, trial.observations);
    const { id, name, createdAt } = trial;
    return { id, name, createdAt, question: plan.question, coupons: plan.places.length, unblinded };
  });
}

function withObservations(trials: readonly TrialRow[], rows: readonly ObservationRow[]): TrialWithObservations[] {
  const byTrial = new Map<string, Observation[]>(trials.map((trial) => [trial.id, []]));
  for (const row of rows) byTrial.get(row.trial)?.push(observationOf(row));
  return trials.map((trial) => ({
    id: trial.id,
    name: trial.name,
    createdAt: trial.created_at,
    observations: byTrial.get(trial.id) ?? [],
  }));
}

function observationOf(row: ObservationRow): Observation {
  return {
    id: row.id,
    recordedAt: row.recorded_at,
    by: row.by,
    corrects: row.corrects === null ? null : { id: row.corrects, why: row.why ?? "" },
    ...(row.written !== null && { written: JSON.parse(row.written) }),
    ...(row.device !== null && { device: row.device }),
    // Went through the schema on its way in.
    body: JSON.parse(row.body),
  };
}

function rowOf(trial: string, position: number, one: Observation): ObservationRow {
  return {
    id: one.id,
    trial,
    position,
    recorded_at: one.recordedAt,
    by: one.by,
    corrects: one.corrects?.id ?? null,
    why: one.corrects?.why ?? null,
    kind: one.body.kind,
    body: JSON.stringify(one.body),
    device: one.device ?? null,
    written: one.written ? JSON.stringify(one.written) : null,
  };
}

/** A repeat is recorded at another moment, and by then its device may know its clock better; all that was said must agree. */
function sameContent(stored: Observation, sent: Observation): boolean {
  return isDeepStrictEqual(whatWasSaid(stored), whatWasSaid(sent));
}

const whatWasSaid = ({ id, by, corrects, body }: Observation) => ({ id, by, corrects, body });

/** A trial's first observations get their ids here, so a repeat of the same trial comes with other ones. */
function startsWith(stored: readonly Observation[], sent: readonly Observation[]): boolean {
  return sent.every((one, at) => {
    const known = stored[at];
    return known !== undefined && sameContent({ ...known, id: one.id }, one);
  });
}
