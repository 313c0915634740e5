/**
 * The loops over all pixels of a picture, compiled to one WebAssembly module: a measurement is mostly this. Addresses are those of its memory.
 *
 * Each file says what its loops do; `../pixel-loops.ts` lends the memory.
 */

export { cellValues, moments, sharesOf } from "./cells";
export { countDoubt } from "./doubt";
export { balanceRows } from "./even-light";
export { coarser, reducedGrey } from "./grey";
export { boxMean, meanOver3 } from "./means";
export { oddsOfPicture, sumCells, takeModel } from "./network";
export { seedBytes, seededToMarks, touchingRuns } from "./places";
export { takePicture, trimByColour, trimByLight } from "./rims";
export { straighten } from "./straighten";
export { toLab } from "./to-lab";
export { coldCells, warmPlaces } from "./warm-places";
export { addSeeds, countWords, raise, raiseUntouched, toOnes } from "./words";
