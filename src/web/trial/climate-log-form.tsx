/** Brings a logger's file: what is understood of it, what is not, and then its readings are the site's. */
import { useMemo, useState } from "react";
import { type ClimateTableReading, readClimateTable } from "../../api/climate-table.ts";
import { type DateOrder, dateOrders } from "../../api/plain-table-date.ts";
import { decodeTable, maxTableBytes } from "../../api/plain-table-text.ts";
import { completeRows } from "../../core/climate/climate-log.ts";
import { isZone } from "../../core/climate/zone-clock.ts";
import { deviceZone } from "../parts/clock.ts";
import { ChoiceField, TextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { useKeepReadings } from "../shop/queries.ts";
import { climateLogText as text } from "../text/climate-log.ts";
import { instantText } from "../text/parts.ts";

type Chosen = { name: string; content: string };

export function ClimateLogForm({ sites }: { sites: readonly string[] }) {
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const [site, setSite] = useState(sites[0] ?? "");
  const [zone, setZone] = useState(deviceZone);
  const [dates, setDates] = useState<DateOrder | null>(null);
  const keep = useKeepReadings(site);
  const known = isZone(zone);
  const reading = useMemo(
    () => (chosen && known ? readClimateTable(chosen.content, { zone, dates }) : null),
    [chosen, known, zone, dates],
  );
  const rows = useMemo(() => (reading?.rows ? completeRows(reading.rows) : null), [reading]);
  const take = async (file: File) => {
    keep.reset();
    setChosen(null);
    setDates(null);
    if (file.size > maxTableBytes) return setRefused(text.tooBig(file.size));
    const content = decodeTable(new Uint8Array(await file.arrayBuffer()));
    setRefused(content === null ? text.notText : null);
    if (content !== null) setChosen({ name: file.name, content });
  };
  const send = () => {
    if (chosen === null) return setRefused(refused ?? text.needsFile);
    if (rows && rows.complete.length > 0)
      keep.mutate(rows.complete.map(({ atMs, ...air }) => ({ at: new Date(atMs).toISOString(), ...air })));
  };
  return (
    <form
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <p>{text.how}</p>
      <div className="fields">
        <FileField onFile={(file) => void take(file)} refused={refused} />
        {sites.length > 1 && (
          <ChoiceField
            label={text.site}
            value={site}
            choices={sites.map((one) => ({ value: one, label: one }))}
            onChoose={setSite}
          />
        )}
        <TextField
          label={text.zone}
          hint={text.zoneHint}
          value={zone}
          onType={setZone}
          error={known ? null : text.zoneWrong(zone)}
        />
      </div>
      {reading && <WhatIsUnderstood reading={reading} rows={rows} dates={dates} onDates={setDates} />}
      <Trouble error={keep.error} />
      <div className="actions">
        <button type="submit" className="wet" disabled={keep.isPending}>
          {keep.isPending ? text.keeping : text.keep}
        </button>
        <span role="status">{keep.data ? keptSentence(keep.data) : ""}</span>
      </div>
    </form>
  );
}

function keptSentence({ added, repeated, waiting }: { added: number; repeated: number; waiting: number }): string {
  const here = waiting > 0 ? [text.waits(waiting)] : [];
  return [...(added + repeated > 0 ? [text.kept(added, repeated)] : []), ...here].join(" ");
}

function FileField({ onFile, refused }: { onFile: (file: File) => void; refused: string | null }) {
  return (
    <div className={refused ? "field field-wrong" : "field"}>
      <label htmlFor="climate-log-file">{text.file}</label>
      <input
        id="climate-log-file"
        type="file"
        accept=".csv,.tsv,.txt,text/csv,text/plain"
        onChange={(event) => {
          const file = event.target.files?.[0];
          if (file) onFile(file);
        }}
      />
      {refused && (
        <small role="alert" className="wrong">
          {refused}
        </small>
      )}
    </div>
  );
}

/** The first few say what is wrong with a log; all of them would fill the page. */
const shownProblems = 8;

function WhatIsUnderstood({
  reading: { understood, problems, questions },
  rows,
  dates,
  onDates,
}: {
  reading: ClimateTableReading;
  rows: ReturnType<typeof completeRows> | null;
  dates: DateOrder | null;
  onDates: (dates: DateOrder) => void;
}) {
  const asksDates = questions.find(({ about }) => about === "dates");
  const columns = understood.columns.flatMap(({ header, means }) => (means === null ? [] : [{ header, means }]));
  return (
    <>
      {(asksDates || dates !== null) && (
        <ChoiceField
          label={asksDates?.question ?? text.datesMean}
          value={dates ?? ""}
          choices={[
            { value: "" as const, label: text.choose },
            ...dateOrders.map((order) => ({ value: order, label: text.dates[order] })),
          ]}
          onChoose={(order) => order !== "" && onDates(order)}
        />
      )}
      {problems.length > 0 && (
        <div role="alert" className="trouble">
          <p>{text.notRead(problems.length)}</p>
          <ul>
            {problems.slice(0, shownProblems).map(({ row, column, value, expected }) => (
              <li key={`${row} ${column}`}>{text.problem(row, column, value, expected)}</li>
            ))}
          </ul>
          {problems.length > shownProblems && <p>{text.more(problems.length - shownProblems)}</p>}
        </div>
      )}
      {rows && (
        <>
          <p>{rowsSentence(rows)}</p>
          <p className="lead">
            {[
              text.readAs(columns),
              ...understood.notes,
              ...(rows.leftOut > 0 ? [text.leftOut(rows.leftOut)] : []),
            ].join(" ")}
          </p>
        </>
      )}
    </>
  );
}

function rowsSentence({ complete }: ReturnType<typeof completeRows>): string {
  if (complete.length === 0) return text.none;
  const [first, last] = complete.reduce(
    ([least, most], { atMs }) => [Math.min(least, atMs), Math.max(most, atMs)] as const,
    [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY] as const,
  );
  return text.understood(complete.length, momentText(first), momentText(last));
}

const momentText = (atMs: number): string => instantText(new Date(atMs).toISOString());
