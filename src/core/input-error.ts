/**
 * A refused input, and the small checks that refuse. The faces put the message beside its field.
 * `core` never clamps, guesses or returns NaN: it says what was given and what was expected.
 */
export class InputError extends Error {
  readonly argument: string;
  /** What the user may say to settle it, where that is not the argument itself; each face has its own way to ask. */
  readonly settledBy: "from" | "at" | "control" | null;
  constructor(argument: string, value: unknown, expected: string, settledBy: InputError["settledBy"] = null) {
    super(`${argument} is ${shown(value)}; expected ${expected}`);
    this.name = "InputError";
    this.argument = argument;
    this.settledBy = settledBy;
  }
}

function shown(value: unknown): string {
  if (value === undefined) return "missing";
  if (typeof value === "number" || value === null) return String(value);
  const text = inWords(value);
  return text.length > 80 ? `${text.slice(0, 77)}...` : text;
}

function inWords(value: unknown): string {
  try {
    return JSON.stringify(value) ?? String(value);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return "nested too deeply to be shown";
  }
}

export function requireFinite(argument: string, value: unknown): asserts value is number {
  if (typeof value !== "number" || !Number.isFinite(value)) throw new InputError(argument, value, "a finite number");
}

export function requirePositive(argument: string, value: unknown): asserts value is number {
  if (typeof value !== "number" || !Number.isFinite(value) || value <= 0)
    throw new InputError(argument, value, "a number above 0");
}

export function requireNotNegative(argument: string, value: unknown): asserts value is number {
  if (typeof value !== "number" || !Number.isFinite(value) || value < 0)
    throw new InputError(argument, value, "a number of 0 or more");
}

export function requirePercent(argument: string, value: unknown): asserts value is number {
  if (typeof value !== "number" || !(value >= 0 && value <= 100))
    throw new InputError(argument, value, "a percentage from 0 to 100");
}

/** A share strictly between 0 and 1: a confidence, an alpha, a power. */
export function requireFraction(argument: string, value: unknown): asserts value is number {
  if (typeof value !== "number" || !(value > 0 && value < 1))
    throw new InputError(argument, value, "a fraction strictly between 0 and 1");
}

export function requireWhole(argument: string, value: unknown, atLeast = 0): asserts value is number {
  if (typeof value !== "number" || !Number.isSafeInteger(value) || value < atLeast)
    throw new InputError(argument, value, `a whole number of ${atLeast} or more`);
}

export function requireOneOf<const T extends string>(
  argument: string,
  value: unknown,
  choices: readonly T[],
): asserts value is T {
  if (!choices.some((choice) => choice === value))
    throw new InputError(argument, value, `one of ${choices.map((choice) => `"${choice}"`).join(", ")}`);
}

export function requireList(argument: string, value: unknown, atLeast = 1): asserts value is unknown[] {
  if (!Array.isArray(value) || value.length < atLeast)
    throw new InputError(argument, value, `a list of ${atLeast} or more`);
}
