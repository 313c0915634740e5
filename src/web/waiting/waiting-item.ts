/** What was recorded on this device and is not in the shop yet. */
import type { ColourReadingRequest } from "../../api/finish-colour.ts";
import type { NewObservation } from "../../api/observation.ts";
import type { HandCorrection } from "../../api/photo.ts";
import type { Problem } from "../../api/shop.ts";
import type { TapeReadingRequest } from "../../api/tape-photo.ts";
import type { TapeParting } from "../../core/trial/tape-test.ts";
import type { FinishColour, PercentLook, TapeTest } from "../../core/trial/trial-record.ts";

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
export type WaitingPhoto = Kept & {
  kind: "photo";
  inspection: string;
  file: Blob;
  /** Of a photograph that no inspection waits for: what it is, and its name in the shop, known before the shop has it. */
  named?: {
    words: string;
    hash: string;
    /** One of many at once: their list goes on with what the shop says of it. */
    isOfMany?: true;
  };
};
/** What the shop is to read from photographs that were sent before it, and what is written down with the answer. */
export type LaterReading =
  | { of: "finish colour"; request: ColourReadingRequest; body: Omit<FinishColour, "reading"> }
  | { of: "tape test"; request: TapeReadingRequest; body: TapeTest; counts: "photo" | "eye"; parted: TapeParting };
/** The id is that of the observation that comes of it. */
export type WaitingReading = Kept & {
  kind: "reading";
  trial: string;
  by: string;
  corrects: NewObservation["corrects"];
  reading: LaterReading;
};
/** Strokes of the brush over a measurement; the id is the correction's own. */
export type WaitingCorrection = Kept & {
  kind: "correction";
  coupon: string;
  measurement: string;
  correction: HandCorrection;
  /** The inspection that goes on once it is measured. */
  inspection: string | null;
  /** The look written down before, which what is measured replaces. */
  look: {
    id: string;
    trial: string;
    corrects: string;
    body: Pick<PercentLook, "kind" | "coupon" | "face" | "when" | "blind">;
  } | null;
};
/** Anything else that the shop takes as it stands, and whose repeat it drops: `words` say on the page what it is. */
export type WaitingMessage = Kept & { kind: "message"; path: string; body: unknown; words: string };
export type WaitingItem = WaitingObservation | WaitingPhoto | WaitingReading | WaitingCorrection | WaitingMessage;

/** Thrown away by hand before it was sent. Kept here, since it happened. */
export type DroppedItem = { item: WaitingItem; why: string; droppedAt: string };
