/** `import FILE --site NAME`: a logger's file becomes the readings of a site. */
import { completeRows } from "../core/climate/climate-log.ts";
import { type ClimateOptions, readClimateFile, takeClimateRows } from "./climate-file.ts";
import { WrongUsage } from "./exit.ts";
import { openToWrite } from "./shop-to-write.ts";

type ReadingsOptions = ClimateOptions & { shop: string; dryRun?: true; json?: true };

export async function importReadings(path: string, siteName: string, options: ReadingsOptions): Promise<void> {
  const site = siteName.trim();
  if (site === "") throw new WrongUsage("--site is empty; expected the site's name");
  const { complete, leftOut } = completeRows(takeClimateRows(path, readClimateFile(path, options)));
  const readings = complete.map(({ atMs, ...air }) => ({ site, at: new Date(atMs).toISOString(), ...air }));
  const added = options.dryRun ? 0 : await keep(options.shop, readings);
  const said = {
    site,
    readings: readings.length,
    added,
    repeated: options.dryRun ? 0 : readings.length - added,
    leftOut,
  };
  if (options.json) return console.log(JSON.stringify(said, null, 2));
  const left = leftOut > 0 ? ` ${leftOut} rows were left out: a value is missing or impossible.` : "";
  console.log(
    options.dryRun
      ? `${readings.length} readings understood for "${site}"; nothing is kept yet.${left}`
      : `${added} readings of "${site}" are in ${options.shop}; ${said.repeated} were there already.${left}`,
  );
}

async function keep(
  shopDir: string,
  readings: Parameters<Awaited<ReturnType<typeof openToWrite>>["readings"]["add"]>[0],
) {
  const store = await openToWrite(shopDir);
  try {
    return await store.readings.add(readings);
  } finally {
    await store.close();
  }
}
