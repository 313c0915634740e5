/**
 * The one file that knows SQLite: which driver the running Node has, how a database file is opened, copied while in
 * use, and checked. Everything else speaks through Kysely and would run on PostgreSQL as it stands.
 */
import { Kysely, SqliteAdapter, SqliteDialect, type SqliteStatement } from "kysely";
import type { Tables } from "./tables.ts";

type Sqlite = Pick<typeof import("@photostructure/sqlite"), "DatabaseSync" | "backup">;
type Connection = InstanceType<Sqlite["DatabaseSync"]>;

/** Node's own SQLite where it comes without a flag and can copy online; else the package with the same interface. */
async function sqlite(): Promise<Sqlite> {
  const builtIn = process.getBuiltinModule("node:sqlite") as Partial<Sqlite> | undefined;
  if (builtIn?.DatabaseSync && builtIn.backup) return { DatabaseSync: builtIn.DatabaseSync, backup: builtIn.backup };
  return await import("@photostructure/sqlite");
}

/** Without this a migration that fails half-way leaves half-made tables: SQLite could roll them back, Kysely does not ask. */
class TransactionalDdl extends SqliteAdapter {
  override get supportsTransactionalDdl() {
    return true;
  }
}

class Dialect extends SqliteDialect {
  override createAdapter() {
    return new TransactionalDdl();
  }
}

/** Opens a shop's database. What is committed has reached the disk: WAL with full sync. */
export async function openDatabase(file: string): Promise<Kysely<Tables>> {
  const { DatabaseSync } = await sqlite();
  const connection = new DatabaseSync(file);
  connection.exec("pragma journal_mode = wal");
  connection.exec("pragma synchronous = full");
  connection.exec("pragma foreign_keys = on");
  connection.exec("pragma busy_timeout = 5000");
  return kysely(connection, () => {
    // The package for Node 20 lets go of its files only later: what the log holds is in shop.db before that.
    connection.exec("pragma wal_checkpoint(truncate)");
    connection.close();
  });
}

/** Opens a finished copy to look inside; leaves no other file beside it. */
export async function openCopy(file: string): Promise<Kysely<Tables>> {
  const { DatabaseSync } = await sqlite();
  const connection = new DatabaseSync(file, { readOnly: true });
  return kysely(connection, () => connection.close());
}

function kysely(connection: Connection, close: () => void): Kysely<Tables> {
  const database = { prepare: (text: string) => forKysely(connection.prepare(text)), close };
  return new Kysely<Tables>({ dialect: new Dialect({ database }) });
}

function forKysely(statement: ReturnType<Connection["prepare"]>): SqliteStatement {
  return {
    reader: statement.columns().length > 0,
    all: (parameters) => statement.all(...parameters),
    run: (parameters) => statement.run(...parameters),
    iterate: (parameters) => statement.iterate(...parameters),
  };
}

/** Copies a database that may be in use by a running server, in small steps that let its writes through. */
export async function copyDatabase(from: string, to: string): Promise<void> {
  const { DatabaseSync, backup } = await sqlite();
  const connection = new DatabaseSync(from, { readOnly: true });
  try {
    await backup(connection, to);
  } finally {
    connection.close();
  }
}

/**
 * Takes rows out of a copy so that none of their bytes stay in the file: a copy is carried about and lent, and what let
 * a device in must not go with it.
 */
export async function wipeFromCopy(file: string, wipes: readonly { sql: string; values: string[] }[]): Promise<void> {
  const { DatabaseSync } = await sqlite();
  const connection = new DatabaseSync(file);
  try {
    connection.exec("pragma secure_delete = on");
    for (const { sql, values } of wipes) connection.prepare(sql).run(...values);
    connection.exec("vacuum");
  } finally {
    connection.close();
  }
}

/** Closes a copy into one file, and has SQLite check the whole of it: empty when sound, else what it complains of. */
export async function copyComplaints(file: string): Promise<string[]> {
  const { DatabaseSync } = await sqlite();
  const connection = new DatabaseSync(file);
  try {
    connection.exec("pragma journal_mode = delete");
    const rows: Record<string, unknown>[] = connection.prepare("pragma integrity_check").all();
    return rows.map((row) => String(row.integrity_check)).filter((complaint) => complaint !== "ok");
  } finally {
    connection.close();
  }
}

/**
 * Takes a lock that the operating system gives back by itself when its holder dies, however it dies: an exclusive
 * transaction on a small database of its own. Null when somebody else holds it.
 */
export async function takeLock(file: string): Promise<{ release: () => void } | null> {
  const { DatabaseSync } = await sqlite();
  const connection = new DatabaseSync(file);
  try {
    connection.exec("pragma busy_timeout = 0");
    connection.exec("begin exclusive");
  } catch (error) {
    connection.close();
    if (error instanceof Error && /locked|busy/i.test(error.message)) return null;
    throw error;
  }
  return { release: () => connection.close() };
}
