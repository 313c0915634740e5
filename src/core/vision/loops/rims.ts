/**
 * Rims of rust cut back to where a pixel is more rust than steel: `rust-by-colour.ts` and `trimmed-rims.ts` say by which rule.
 *
 * The sums around a pixel are kept by column and moved down with the rows: four values side by side, of rust and of steel.
 *
 * Units    sRGB bytes, CIELAB and marks per px in
 * Source   as in rust-by-colour.ts and trimmed-rims.ts
 * Status   computed
 */

let rgb: usize = 0;
let linearLight: usize = 0;
let widthPx: i32 = 0;
let heightPx: i32 = 0;
let reachPx: i32 = 0;
let before: usize = 0;
/** By colour: a* and b*. By light: log odds, and below which of them a pixel is surely steel; then a* and b* are none. */
let planeA: usize = 0;
let planeB: usize = 0;
let logOdds: usize = 0;
let steelBelow: f32 = 0;
/** Two sums of four values per column, and the row they stand at. */
let columns: usize = 0;
let summedAt: usize = 0;
let sumRow: i32 = -1;
let sumColumn: i32 = -1;
let ofRust: v128 = f32x4.splat(0);
let ofSteel: v128 = f32x4.splat(0);

/** A picture whose rims are trimmed next. `room`: 36 bytes per column. */
export function takePicture(bytes: usize, light: usize, width: i32, height: i32, room: usize): void {
  rgb = bytes;
  linearLight = light;
  widthPx = width;
  heightPx = height;
  columns = room;
  summedAt = room + ((<usize>width) << 5);
}

function begin(reach: i32, marked: usize): void {
  reachPx = reach;
  before = marked;
  for (let column = 0; column < widthPx; column++) store<i32>(summedAt + ((<usize>column) << 2), -2);
  sumRow = -1;
  sumColumn = -1;
}

function lightOf(byte: usize): f32 {
  return load<f32>(linearLight + ((<usize>load<u8>(rgb + byte)) << 2));
}

/** Adds a pixel to its column's sums, or takes it off. */
function add(at: i32, times: f32, column: usize): void {
  const byte = <usize>at * 3;
  if (load<u8>(before + at) !== 0) {
    const values = planeA !== 0 ? colourOf(at, byte) : lightsOf(byte);
    v128.store(column, f32x4.add(v128.load(column), f32x4.mul(values, f32x4.splat(times))));
  } else if (planeA === 0 && load<f32>(logOdds + ((<usize>at) << 2)) < steelBelow)
    v128.store(column, f32x4.add(v128.load(column, 16), f32x4.mul(lightsOf(byte), f32x4.splat(times))), 16);
}

/** One pixel, and its light by channel. */
function lightsOf(byte: usize): v128 {
  return f32x4(1, lightOf(byte), lightOf(byte + 1), lightOf(byte + 2));
}

/** One pixel, its red less its blue in linear light, and its chroma. */
function colourOf(at: i32, byte: usize): v128 {
  const a = load<f32>(planeA + ((<usize>at) << 2));
  const b = load<f32>(planeB + ((<usize>at) << 2));
  return f32x4(1, lightOf(byte) - lightOf(byte + 2), sqrt<f32>(a * a + b * b), 0);
}

function bring(column: i32, row: i32): void {
  const to = columns + ((<usize>column) << 5);
  const stands = summedAt + ((<usize>column) << 2);
  if (load<i32>(stands) === row - 1) {
    if (row + reachPx < heightPx) add((row + reachPx) * widthPx + column, 1, to);
    if (row - reachPx > 0) add((row - reachPx - 1) * widthPx + column, -1, to);
  } else {
    v128.store(to, f32x4.splat(0));
    v128.store(to, f32x4.splat(0), 16);
    const bottom = min(heightPx - 1, row + reachPx);
    for (let y = max(0, row - reachPx); y <= bottom; y++) add(y * widthPx + column, 1, to);
  }
  store<i32>(stands, row);
}

/** Adds a column to the sums, or takes it off. */
function move(column: i32, row: i32, times: f32): void {
  if (column < 0 || column >= widthPx) return;
  if (load<i32>(summedAt + ((<usize>column) << 2)) !== row) bring(column, row);
  const from = columns + ((<usize>column) << 5);
  ofRust = f32x4.add(ofRust, f32x4.mul(v128.load(from), f32x4.splat(times)));
  ofSteel = f32x4.add(ofSteel, f32x4.mul(v128.load(from, 16), f32x4.splat(times)));
}

/** Brings `ofRust` and `ofSteel` to the square around a pixel. Cheapest from left to right and top to bottom. */
function look(row: i32, column: i32): void {
  const step = column - sumColumn;
  if (row === sumRow && step >= 0 && step <= reachPx)
    for (let on = 1; on <= step; on++) {
      move(sumColumn + on + reachPx, row, 1);
      move(sumColumn + on - reachPx - 1, row, -1);
    }
  else {
    ofRust = f32x4.splat(0);
    ofSteel = f32x4.splat(0);
    for (let near = column - reachPx; near <= column + reachPx; near++) move(near, row, 1);
  }
  sumRow = row;
  sumColumn = column;
}

/**
 * By the colour rule: of marks that are not 0 those near a rim are set to 0 in `found` whose own warmth is too little of the warmth
 * around. `marked` is a copy of `found`. `rule`: reach in px, least share of warmth, chroma from which on the rim is cut at all, and
 * in full (f32 each).
 */
export function trimByColour(found: usize, marked: usize, a: usize, b: usize, rule: usize): void {
  planeA = a;
  planeB = b;
  const reach = <i32>load<f32>(rule);
  const leastShare = load<f32>(rule, 4);
  const none = load<f32>(rule, 8);
  const full = load<f32>(rule, 12);
  begin(reach, marked);
  for (let row = 0; row < heightPx; row++)
    for (let column = 0, at = row * widthPx; column < widthPx; column++, at++) {
      if (load<u8>(marked + at) === 0 || !isRim(marked, at, row, column, reach)) continue;
      look(row, column);
      const pixels = f32x4.extract_lane(ofRust, 0);
      const warmth = f32x4.extract_lane(ofRust, 1) / pixels;
      const chroma = f32x4.extract_lane(ofRust, 2) / pixels;
      const trimmed = min<f32>(1, max<f32>(0, (chroma - none) / (full - none)));
      if (ownWarmth(row, column) < leastShare * trimmed * warmth) store<u8>(found + at, 0);
    }
}

/** Whether unmarked steel lies at the reach, asked at eight points: all of the square would cost more than the rest. */
function isRim(marked: usize, at: i32, row: i32, column: i32, reach: i32): bool {
  const here = marked + <usize>at;
  const left = <usize>min(reach, column);
  const right = <usize>min(reach, widthPx - 1 - column);
  const up = <usize>(min(reach, row) * widthPx);
  const down = <usize>(min(reach, heightPx - 1 - row) * widthPx);
  return (
    load<u8>(here - left) === 0 ||
    load<u8>(here + right) === 0 ||
    load<u8>(here - up) === 0 ||
    load<u8>(here + down) === 0 ||
    load<u8>(here - up - left) === 0 ||
    load<u8>(here - up + right) === 0 ||
    load<u8>(here + down - left) === 0 ||
    load<u8>(here + down + right) === 0
  );
}

/** Mean of red less blue, in linear light, over 3 x 3 px: less where the picture ends. */
function ownWarmth(row: i32, column: i32): f32 {
  const top = max(0, row - 1);
  const bottom = min(heightPx - 1, row + 1);
  const left = max(0, column - 1);
  const right = min(widthPx - 1, column + 1);
  let sum: f32 = 0;
  for (let y = top; y <= bottom; y++)
    for (let x = left; x <= right; x++) {
      const byte = <usize>(y * widthPx + x) * 3;
      sum += lightOf(byte) - lightOf(byte + 2);
    }
  return sum / <f32>((bottom - top + 1) * (right - left + 1));
}

/**
 * By light: near a rim, marks that are not 0 and lie less than half way from the steel to the rust around get the log odds `spared`.
 * Steel is what is not marked and has log odds below `below`.
 */
export function trimByLight(marked: usize, odds: usize, below: f32, spared: f32, rimPx: i32, reach: i32): void {
  planeA = 0;
  logOdds = odds;
  steelBelow = below;
  begin(reach, marked);
  for (let row = 0; row < heightPx; row++) trimRow(marked, row, rimPx, spared);
}

function trimRow(marked: usize, row: i32, rimPx: i32, spared: f32): void {
  const top = marked + <usize>(max(0, row - rimPx) * widthPx);
  const bottom = marked + <usize>(min(heightPx - 1, row + rimPx) * widthPx);
  // Each column within reach is looked at once; the last one that is not rust from top to bottom says where a rim is near.
  let looked: i32 = -1;
  let broken: i32 = -1 - rimPx;
  const start = row * widthPx;
  for (let column: i32 = 0; column < widthPx; column++) {
    const at = start + column;
    if ((column & 15) === 0 && column + 16 <= widthPx && !v128.any_true(v128.load(marked + at))) {
      column += 15;
      continue;
    }
    if (load<u8>(marked + at) === 0) continue;
    const last = min(widthPx - 1, column + rimPx);
    for (looked = max(looked + 1, column - rimPx); looked <= last; looked++)
      for (let near = top + looked; near <= bottom + looked; near += widthPx) if (load<u8>(near) === 0) broken = looked;
    looked = last;
    if (broken < column - rimPx) continue;
    look(row, column);
    if (isHalfRust(at)) continue;
    store<f32>(logOdds + ((<usize>at) << 2), spared);
  }
}

/** Whether a pixel lies at least half way from the steel to the rust near it; so it does where there is no steel. */
function isHalfRust(at: i32): bool {
  const steelPixels = f32x4.extract_lane(ofSteel, 0);
  if (steelPixels < 0.5) return true;
  const from = f32x4.div(ofSteel, f32x4.splat(steelPixels));
  const way = f32x4.sub(f32x4.div(ofRust, f32x4.splat(f32x4.extract_lane(ofRust, 0))), from);
  const own = f32x4.sub(lightsOf(<usize>at * 3), from);
  const along = f32x4.mul(own, way);
  const whole = f32x4.mul(way, way);
  return channelsOf(along) >= 0.5 * channelsOf(whole);
}

function channelsOf(four: v128): f32 {
  return f32x4.extract_lane(four, 1) + f32x4.extract_lane(four, 2) + f32x4.extract_lane(four, 3);
}
