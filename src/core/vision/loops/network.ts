/**
 * The rust model's network over a picture: `rust-model.ts` says what it is and where it is asked.
 *
 * Units    CIELAB and the features of rust-features.ts in; log odds of rust out
 * Source   our own
 * Status   computed
 */

/** Inputs of a cell; those of a pixel itself are written out in `ask`. */
const cellInputs: usize = 18;

/** Units of the first layer, and of the second with what fills up its last four. Both are multiples of four. */
let units: usize = 0;
let secondUnits: usize = 0;
/** Weights by input, then by unit; a bias first where there is one. */
let pixelWeights: usize = 0;
let cellWeights: usize = 0;
let secondWeights: usize = 0;
let lastWeights: usize = 0;
let hidden: usize = 0;

let planeLightness: usize = 0;
let planeA: usize = 0;
let planeB: usize = 0;
let words: usize = 0;
let cellSums: usize = 0;
let logOdds: usize = 0;

/** The layers that are asked from now on; `room` has a value for each unit of the first. */
export function takeModel(
  unitCount: i32,
  secondCount: i32,
  ofPixel: usize,
  ofCell: usize,
  second: usize,
  last: usize,
  room: usize,
): void {
  units = unitCount;
  secondUnits = secondCount;
  pixelWeights = ofPixel;
  cellWeights = ofCell;
  secondWeights = second;
  lastWeights = last;
  hidden = room;
}

/** Per cell and unit: bias and what surrounds the cell. None for cells that are passed over. */
export function sumCells(values: usize, passedOver: usize, cells: i32, sums: usize): void {
  for (let cell: i32 = 0; cell < cells; cell++) {
    if (load<u8>(passedOver + cell) === 0)
      for (let unit: usize = 0; unit < units; unit += 4) {
        let weights = cellWeights + (unit << 2);
        let sum = v128.load(weights);
        for (let input: usize = 0; input < cellInputs; input++) {
          weights += units << 2;
          sum = f32x4.add(sum, f32x4.mul(v128.load(weights), v128.load32_splat(values + (input << 2))));
        }
        v128.store(sums + (unit << 2), sum);
      }
    values += cellInputs << 2;
    sums += units << 2;
  }
}

/** Log odds of every pixel that is not passed over; `to` holds already what is said of the others. Sure of a place: outside `low` to `high`. */
export function oddsOfPicture(
  lightness: usize,
  a: usize,
  b: usize,
  byColour: usize,
  sums: usize,
  passedOver: usize,
  widthPx: i32,
  heightPx: i32,
  low: f32,
  high: f32,
  to: usize,
): void {
  planeLightness = lightness;
  planeA = a;
  planeB = b;
  words = byColour;
  cellSums = sums;
  logOdds = to;
  const cellColumns = (widthPx + 3) >> 2;
  for (let row = 0; row < heightPx; row += 2)
    for (let column = 0; column < widthPx; column += 2) {
      const cell = (row >> 2) * cellColumns + (column >> 2);
      if (load<u8>(passedOver + cell) === 0) ask(row * widthPx + column, cell);
    }
  for (let row = 0; row < heightPx; row += 2) fillBetween(row, widthPx, heightPx, passedOver, low, high);
}

/** Between four pixels that are sure and agree their mean is taken; all others in this row and the next are asked. */
function fillBetween(row: i32, widthPx: i32, heightPx: i32, passedOver: usize, low: f32, high: f32): void {
  const cells = (row >> 2) * ((widthPx + 3) >> 2);
  const down = row + 2 < heightPx ? 2 * widthPx : 0;
  for (let column = 0; column < widthPx; column += 2) {
    const cell = cells + (column >> 2);
    if (load<u8>(passedOver + cell) !== 0) continue;
    const at = row * widthPx + column;
    const right = column + 2 < widthPx ? 2 : 0;
    const a = oddsAt(at);
    const b = oddsAt(at + right);
    const c = oddsAt(at + down);
    const d = oddsAt(at + down + right);
    const sure = max(max(a, b), max(c, d)) < low || min(min(a, b), min(c, d)) > high;
    const mean = (a + b + c + d) / 4;
    const word = load<u8>(words + at);
    for (let step = 1; step < 4; step++) {
      const y = row + (step >> 1);
      const x = column + (step & 1);
      if (y >= heightPx || x >= widthPx) continue;
      const between = y * widthPx + x;
      if (sure && load<u8>(words + between) === word) store<f32>(logOdds + ((<usize>between) << 2), mean);
      else ask(between, cell);
    }
  }
}

function oddsAt(at: i32): f32 {
  return load<f32>(logOdds + ((<usize>at) << 2));
}

/** The network at one pixel: four units at a time. */
function ask(at: i32, cell: i32): void {
  const by = (<usize>at) << 2;
  const lightness = load<f32>(planeLightness + by);
  const a = load<f32>(planeA + by);
  const b = load<f32>(planeB + by);
  const chroma = sqrt<f32>(a * a + b * b);
  const perChroma = <f32>1 / (chroma + 8);
  const perLightness = <f32>1 / (lightness + 12);
  const f0 = f32x4.splat(lightness);
  const f1 = f32x4.splat(a);
  const f2 = f32x4.splat(b);
  const f3 = f32x4.splat(chroma);
  const f4 = f32x4.splat(a * perChroma);
  const f5 = f32x4.splat(b * perChroma);
  const f6 = f32x4.splat(a * perLightness);
  const f7 = f32x4.splat(b * perLightness);
  const f8 = f32x4.splat(<f32>load<u8>(words + at));
  const step = units << 2;
  const none = f32x4.splat(0);
  const sums = cellSums + <usize>cell * step;
  for (let unit: usize = 0; unit < step; unit += 16) {
    const w = pixelWeights + unit;
    let one = f32x4.add(v128.load(sums + unit), f32x4.mul(v128.load(w), f0));
    let other = f32x4.mul(v128.load(w + step), f1);
    one = f32x4.add(one, f32x4.mul(v128.load(w + 2 * step), f2));
    other = f32x4.add(other, f32x4.mul(v128.load(w + 3 * step), f3));
    one = f32x4.add(one, f32x4.mul(v128.load(w + 4 * step), f4));
    other = f32x4.add(other, f32x4.mul(v128.load(w + 5 * step), f5));
    one = f32x4.add(one, f32x4.mul(v128.load(w + 6 * step), f6));
    other = f32x4.add(other, f32x4.mul(v128.load(w + 7 * step), f7));
    one = f32x4.add(one, f32x4.mul(v128.load(w + 8 * step), f8));
    v128.store(hidden + unit, f32x4.max(f32x4.add(one, other), none));
  }
  store<f32>(logOdds + by, secondLayer(step));
}

function secondLayer(step: usize): f32 {
  const none = f32x4.splat(0);
  const width = secondUnits << 2;
  let odds = none;
  for (let group: usize = 0; group < width; group += 16) {
    let w = secondWeights + group;
    let one = v128.load(w);
    let other = none;
    for (let unit: usize = 0; unit < step; unit += 8) {
      w += width;
      one = f32x4.add(one, f32x4.mul(v128.load(w), v128.load32_splat(hidden + unit)));
      w += width;
      other = f32x4.add(other, f32x4.mul(v128.load(w), v128.load32_splat(hidden + unit, 4)));
    }
    const rectified = f32x4.max(f32x4.add(one, other), none);
    odds = f32x4.add(odds, f32x4.mul(rectified, v128.load(lastWeights + group, 4)));
  }
  return (
    load<f32>(lastWeights) +
    (f32x4.extract_lane(odds, 0) +
      f32x4.extract_lane(odds, 1) +
      (f32x4.extract_lane(odds, 2) + f32x4.extract_lane(odds, 3)))
  );
}
