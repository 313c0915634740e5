/** The worker thread that reads finish colours: one photograph in, one reading out. */
import { type ColourTask, type ReadColour, readColour } from "./read-colour.ts";

export default (task: ColourTask): Promise<ReadColour> => readColour(task);
