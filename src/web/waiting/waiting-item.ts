/** What was recorded on this device and is not in the shop yet. */
import type { NewObservation } from "../../api/observation.ts";
import type { Problem } from "../../api/shop.ts";

type Kept = {
  /** The observation's own id, or one made for the photograph: a repeat is recognised by it. */
  id: string;
  /** The device's clock when it was written down; what is sent is sent in this order. */
  writtenAt: string;
  /** How far that clock was behind the shop's, as far as the device knew; missing: it had never met the shop. */
  skewMs?: number;
  /** What the shop said when it would not take it. Such an item holds up none of the others. */
  refused: Problem | null;
};
export type WaitingObservation = Kept & { kind: "observation"; trial: string; observation: NewObservation };
/** `inspection` names the inspection that goes on once the shop has the photograph. */
export type WaitingPhoto = Kept & { kind: "photo"; inspection: string; file: Blob };
/** Anything else that the shop takes as it stands, and whose repeat it drops: `words` say on the page what it is. */
export type WaitingMessage = Kept & { kind: "message"; path: string; body: unknown; words: string };
export type WaitingItem = WaitingObservation | WaitingPhoto | WaitingMessage;

/** Thrown away by hand before it was sent. Kept here, since it happened. */
export type DroppedItem = { item: WaitingItem; why: string; droppedAt: string };
