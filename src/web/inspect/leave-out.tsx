/** What is not judged on this face (holes, stamp, wire, label, outside an odd shape) and where it touched. Measured again with it. */
import { useMutation } from "@tanstack/react-query";
import { useCallback, useState } from "react";
import type { Measurement } from "../../api/photo.ts";
import { useDraft } from "../keep/draft.ts";
import { Choices } from "../parts/choices.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { newId } from "../shop/new-id.ts";
import { inspectText } from "../text/inspect.ts";
import { placesText } from "../text/places.ts";
import { comparedWith, type FirstPhotograph } from "./earlier-photographs.ts";
import { keepPlaces, keptPlaces } from "./kept-places.ts";
import { startMeasuring } from "./measuring.ts";
import { PlaceSize } from "./place-size.tsx";
import {
  asRequested,
  contactGrown,
  contactsRequested,
  newPlace,
  outlineFault,
  type Places,
  type Polygon,
  placeGrown,
  wholeRectangle,
  withOutlineCorner,
} from "./places.ts";
import { PlacesBoard, type PlaceTool } from "./places-board.tsx";
import { WorkingStep } from "./working-step.tsx";

type LeavingOut = {
  measurement: Measurement;
  trial: string;
  /** By the look's date as it is now: it may have been another when this was measured. */
  first: FirstPhotograph | null;
  onMeasured: (measurement: string) => void;
  onCancel: () => void;
};

export function LeaveOut({ measurement, trial, first, onMeasured, onCancel }: LeavingOut) {
  const { hiddenMm = [], outlineMm = [], contactsMm = [], first: _, ...rest } = measurement.request;
  const draft = useDraft(`marks ${measurement.id}`, () => ({ hiddenMm, outlineMm, contactsMm }));
  const [job, setJob] = useState<string | null>(null);
  const places: Places = draft.form;
  const start = useMutation({
    mutationFn: () =>
      startMeasuring({
        ...rest,
        ...comparedWith(first, rest),
        ...asRequested(places),
        ...contactsRequested(places),
        id: newId(),
      }),
    onSuccess: ({ id }) => setJob(id),
  });
  const done = useCallback(() => {
    if (job === null) return;
    keepPlaces(trial, rest.sizeMm, places);
    draft.clear();
    onMeasured(job);
  }, [job, trial, rest.sizeMm, places, draft.clear, onMeasured]);
  if (job !== null)
    return (
      <WorkingStep
        job={job}
        title={placesText.working}
        back={placesText.back}
        onDone={done}
        onBack={() => setJob(null)}
      />
    );
  const fault = outlineFault(places.outlineMm);
  return (
    <section className="inspect-step">
      <p>{placesText.sentence}</p>
      {measurement.byHand && <p className="hint">{placesText.brushIsLost}</p>}
      <Marking measurement={measurement} trial={trial} places={places} onChange={draft.change} />
      {fault && <p className="wrong">{placesText.faults[fault]}</p>}
      <Trouble error={start.error} />
      <div className="actions">
        <button
          type="button"
          className="wet"
          disabled={start.isPending || fault !== null}
          onClick={() => start.mutate()}
        >
          {placesText.apply}
        </button>
        <button
          type="button"
          className="quiet"
          onClick={() => {
            draft.clear();
            onCancel();
          }}
        >
          {placesText.cancel}
        </button>
      </div>
      <p className="hint">{inspectText.leftOutNext}</p>
    </section>
  );
}

const tools: readonly PlaceTool[] = ["round", "box", "outline", "contact"];
const zooms = [1, 2, 4];
/** What a hook's hole or a stamped number takes, to begin with. */
const firstAcrossMm = { round: 6, box: 12 };
/** Farther from a wire than this, rust has other causes. */
const firstContactMm = 5;
const lists = { round: "hiddenMm", box: "hiddenMm", outline: "outlineMm", contact: "contactsMm" } as const;

type Marked = { measurement: Measurement; trial: string; places: Places; onChange: (places: Places) => void };

function Marking({ measurement, trial, places, onChange }: Marked) {
  const [tool, setTool] = useState<PlaceTool>("round");
  const [zoom, setZoom] = useState(1);
  const [chosen, setChosen] = useState<number | null>(null);
  const [before, setBefore] = useState<Places[]>([]);
  const size = measurement.request.sizeMm;
  const list = lists[tool];

  const act = (next: Places) => {
    setBefore((all) => [...all, places]);
    onChange(next);
  };
  const put = (at: [number, number]) => {
    if (tool === "outline") return act({ ...places, outlineMm: withOutlineCorner(places.outlineMm, at) });
    setChosen(places[lists[tool]].length);
    if (tool === "contact")
      return act({
        ...places,
        contactsMm: [...places.contactsMm, { xMm: at[0], yMm: at[1], radiusMm: firstContactMm }],
      });
    act({ ...places, hiddenMm: [...places.hiddenMm, newPlace(tool, at, firstAcrossMm[tool])] });
  };
  const takeAway = (at: number) => {
    setChosen(null);
    act({ ...places, [list]: places[list].toSpliced(at, 1) });
  };
  const grow = (at: number, by: { alongMm: number; acrossMm: number }) => {
    if (tool === "contact") {
      const grown = contactGrown(places.contactsMm[at]!, by.alongMm, size);
      return act({ ...places, contactsMm: places.contactsMm.with(at, grown) });
    }
    act({ ...places, hiddenMm: places.hiddenMm.with(at, placeGrown(places.hiddenMm[at]!, by, size)) });
  };
  const press = (at: number, key: string) => {
    if (key === "Delete" || key === "Backspace") takeAway(at);
    const more = key === "+" || key === "=" ? 1 : key === "-" ? -1 : 0;
    if (more !== 0 && tool !== "outline") grow(at, { alongMm: more, acrossMm: more });
  };
  const undo = () => {
    setChosen(null);
    onChange(before.at(-1)!);
    setBefore(before.slice(0, -1));
  };
  const { hiddenMm, outlineMm, contactsMm } = places;
  const asLast = hiddenMm.length + outlineMm.length + contactsMm.length === 0 ? keptPlaces(trial, size) : null;
  const picked = chosen === null ? undefined : places[list][chosen];
  const sized = chosen === null ? undefined : outlineToSize(places, tool, chosen);
  return (
    <>
      <Choices
        label={placesText.tool}
        choices={tools}
        chosen={tool}
        text={(one) => placesText.tools[one]}
        onChoose={(next) => {
          setTool(next);
          setChosen(null);
        }}
      />
      <p className="hint">{placesText.hints[tool]}</p>
      <PlacesBoard
        measurement={measurement}
        places={places}
        tool={tool}
        chosen={chosen}
        zoom={zoom}
        onTap={put}
        onChoose={setChosen}
        onChange={(next, begins) => (begins ? act(next) : onChange(next))}
        onKey={press}
      />
      {sized && chosen !== null && <PlaceSize polygon={sized} onGrow={(by) => grow(chosen, by)} />}
      <div className="place-acts">
        {tool !== "outline" && (
          <button type="button" className="second" onClick={() => put([size.lengthMm / 2, size.widthMm / 2])}>
            {placesText.putInMiddle[tool]}
          </button>
        )}
        {tool === "outline" && places.outlineMm.length === 0 && (
          <button type="button" className="second" onClick={() => act({ ...places, outlineMm: wholeRectangle(size) })}>
            {placesText.startRectangle}
          </button>
        )}
        {asLast && (
          <button type="button" className="second" onClick={() => act(asLast)}>
            {placesText.asLast}
          </button>
        )}
        <button type="button" className="second" disabled={before.length === 0} onClick={undo}>
          {placesText.undo}
        </button>
        <button
          type="button"
          className="second"
          disabled={chosen === null || picked === undefined}
          onClick={() => chosen !== null && takeAway(chosen)}
        >
          {placesText.takeAway}
        </button>
        <Choices
          label={placesText.zoom}
          choices={zooms}
          chosen={zoom}
          text={(times) => `×${times}`}
          onChoose={setZoom}
        />
      </div>
      <p role="status" className="hint">
        {placesText.marked(hiddenMm.length, outlineMm.length, contactsMm.length)}
      </p>
    </>
  );
}

/** What larger and smaller would change; a corner of the outline has no size. */
function outlineToSize({ hiddenMm, contactsMm }: Places, tool: PlaceTool, at: number): Polygon | undefined {
  if (tool === "outline") return undefined;
  if (tool !== "contact") return hiddenMm[at];
  const contact = contactsMm[at];
  return contact && newPlace("round", [contact.xMm, contact.yMm], 2 * contact.radiusMm);
}
