/**
 * The loops over all pixels, as one compiled module, and the memory they work in.
 *
 * A loop reads and writes its module's memory only. What a method takes there is lent until the outermost `kept` or `inRoom` ends, so
 * methods that call one another hand pictures on without copying, and nothing is left to be collected. Memory grows and never moves.
 *
 * Units    addresses and lengths; values as each loop says
 * Source   our own; loops/ holds the sources
 * Status   computed
 */
import { loopsModule } from "./pixel-loops.generated.ts";

/** The loops by name; addresses and whole numbers unless their sources say otherwise. */
type Loop = (...values: number[]) => number;
export type PixelLoops = Record<
  | "addSeeds"
  | "balanceRows"
  | "boxMean"
  | "cellValues"
  | "coarser"
  | "coldCells"
  | "countDoubt"
  | "countWords"
  | "meanOver3"
  | "moments"
  | "oddsOfPicture"
  | "raise"
  | "raiseUntouched"
  | "reducedGrey"
  | "seedBytes"
  | "seededToMarks"
  | "sharesOf"
  | "straighten"
  | "sumCells"
  | "takeModel"
  | "takePicture"
  | "toLab"
  | "toOnes"
  | "touchingRuns"
  | "trimByColour"
  | "trimByLight"
  | "warmPlaces",
  Loop
>;

const pageBytes = 65_536;
/** 768 MB: far more than the largest picture that is looked at takes. */
const mostPages = 12_288;
/** Below lies what the module itself keeps. */
const firstFree = 4096;

type Running = { memory: WebAssembly.Memory; loops: PixelLoops };
let running: Running | null = null;
let free = firstFree;
let open = 0;

function started(): Running {
  if (running) return running;
  // Shared memory is not moved when it grows, so what was lent stays where it is.
  const memory = new WebAssembly.Memory({ initial: 2, maximum: mostPages, shared: true });
  const bytes = Uint8Array.from(atob(loopsModule), (letter) => letter.charCodeAt(0));
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { env: { memory } });
  running = { memory, loops: exports as unknown as PixelLoops };
  return running;
}

/** The loops themselves. */
export const pixelLoops = (): PixelLoops => started().loops;

/** What is lent in `work` is taken back at its end. */
export function inRoom<T>(work: () => T): T {
  const before = free;
  open++;
  try {
    return work();
  } finally {
    free = before;
    open--;
  }
}

/** As `inRoom`, for a method that hands out what it has lent: within another's room as it lies, else as copies of the arrays in it. */
export function kept<T extends object>(work: () => T): T {
  return open > 0 ? work() : inRoom(() => copied(work()));
}

/** What is lent in a plain object, as copies of its own. */
function copied<T>(value: T): T {
  if (ArrayBuffer.isView(value))
    return isLent(value) ? ((value as unknown as Uint8Array).slice() as unknown as T) : value;
  if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, copied(one)])) as T;
}

const isLent = ({ buffer }: ArrayBufferView) => buffer instanceof SharedArrayBuffer;

/** Where so many bytes are free, and then no longer; with some to spare behind them, since loops read sixteen at a time. */
function taken(bytes: number): { buffer: ArrayBufferLike; address: number } {
  const { memory } = started();
  const address = free;
  free += (bytes + 63) & ~15;
  const missing = free - memory.buffer.byteLength;
  if (missing > 0) memory.grow(Math.ceil(missing / pageBytes));
  return { buffer: memory.buffer, address };
}

/** So many bytes, with anything in them. */
export function lentBytes(length: number): Uint8Array {
  const { buffer, address } = taken(length);
  return new Uint8Array(buffer, address, length);
}

/** So many 32-bit floats, with anything in them. */
export function lentFloats(length: number): Float32Array {
  const { buffer, address } = taken(4 * length);
  return new Float32Array(buffer, address, length);
}

/** So many 32-bit whole numbers, with anything in them. */
export function lentWholes(length: number): Int32Array {
  const { buffer, address } = taken(4 * length);
  return new Int32Array(buffer, address, length);
}

/** So many 64-bit floats, with anything in them. */
export function lentDoubles(length: number): Float64Array {
  const { buffer, address } = taken(8 * length);
  return new Float64Array(buffer, address, length);
}

/** The address of bytes for a loop to read: their own where they are lent already, else that of a copy. */
export function addressOf(values: Uint8Array | Float32Array | Int32Array | Float64Array): number {
  if (isLent(values)) return values.byteOffset;
  const { buffer, address } = taken(values.byteLength);
  const bytes = new Uint8Array(values.buffer, values.byteOffset, values.byteLength);
  new Uint8Array(buffer, address, values.byteLength).set(bytes);
  return address;
}

/** The address of an array that a loop writes to; it must be lent. */
export function placeOf(values: Uint8Array | Float32Array): number {
  if (!isLent(values)) throw new Error("a loop can only write to what was lent");
  return values.byteOffset;
}
