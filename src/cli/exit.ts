/** Exit codes of every command, and the errors that lead to them. */
export const exitCodes = { done: 0, checkFailed: 1, wrongUsage: 2, inputRefused: 3, broke: 4 } as const;

/** The command ran and its answer is "no": cases failed, a picture could not be read. */
export class CheckFailed extends Error {}

/** What was handed in cannot be taken; the message names what, where and what was expected. */
export class InputRefused extends Error {}

/** The command line leaves out an option without which this file cannot be answered. */
export class WrongUsage extends Error {}
