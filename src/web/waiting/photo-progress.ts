/** How far the photograph of an inspection is, for whoever watches it; and that it arrived, with the inspection moved on. */
import { type Photo, photo as photoShape } from "../../api/photo.ts";
import { forget, keep, readKept } from "../keep/kept.ts";

const shares = new Map<string, number>();
const changes = new EventTarget();

export function photoIsAt(inspection: string, share: number | null) {
  if (share === null) shares.delete(inspection);
  else shares.set(inspection, share);
  changes.dispatchEvent(new Event("share"));
}

/** Null: nothing is being sent for it. */
export const shareSent = (inspection: string): number | null => shares.get(inspection) ?? null;

export function onShareChange(tell: () => void): () => void {
  changes.addEventListener("share", tell);
  return () => changes.removeEventListener("share", tell);
}

class Arrived extends Event {
  readonly inspection: string;
  readonly photo: Photo;
  constructor(inspection: string, photo: Photo) {
    super("arrived");
    this.inspection = inspection;
    this.photo = photo;
  }
}

/** The inspection goes on with it, whether or not its screen stands open; one that went another way is left alone. */
export function photoArrived(inspection: string, photo: Photo) {
  if (readKept(`inspection ${inspection}`) === null) keep(`inspection ${inspection}`, { step: "surface", photo });
  changes.dispatchEvent(new Arrived(inspection, photo));
}

const arrivalOf = (hash: string) => `arrived ${hash}`;

/** One of many at once arrived: kept, since their list may stand closed. */
export const keepArrival = (arrived: Photo) => keep(arrivalOf(arrived.hash), arrived);

/** Null: not as far as this device knows. */
export function keptArrival(hash: string): Photo | null {
  const kept = photoShape.safeParse(readKept(arrivalOf(hash)));
  return kept.success ? kept.data : null;
}

export const forgetArrival = (hash: string) => forget(arrivalOf(hash));

export function onPhotoArrived(inspection: string, tell: (photo: Photo) => void): () => void {
  const hear = (event: Event) => {
    if (event instanceof Arrived && event.inspection === inspection) tell(event.photo);
  };
  changes.addEventListener("arrived", hear);
  return () => changes.removeEventListener("arrived", hear);
}
