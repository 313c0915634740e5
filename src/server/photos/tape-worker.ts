/** The worker thread that reads tape tests from photographs: one pair in, one reading out. */
import { type ReadTape, readTape, type TapeTask } from "./read-tape.ts";

export default (task: TapeTask): Promise<ReadTape> => readTape(task);
