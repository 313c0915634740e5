/**
 * Which lane each mark of a band lies in, so that no two marks touch.
 *
 * Marks keep their place along the axis, since that place is the datum; only the lane gives way.
 */
export type Span = { from: number; to: number };

/** Lane of each span, in the order given. Earlier starts are placed first; equal ones keep their order. */
export function packLanes(spans: readonly Span[], gap: number): number[] {
  const order = spans.map((span, index) => ({ span, index }));
  order.sort((a, b) => a.span.from - b.span.from || a.span.to - b.span.to || a.index - b.index);
  const laneEnds: number[] = [];
  const lanes = new Array<number>(spans.length).fill(0);
  for (const { span, index } of order) {
    const free = laneEnds.findIndex((end) => end + gap <= span.from);
    const lane = free >= 0 ? free : laneEnds.length;
    laneEnds[lane] = span.to;
    lanes[index] = lane;
  }
  return lanes;
}

/** Labels along an axis that can stand without touching: the ends first, then from the left whatever fits. */
export function labelsThatFit<Label extends { centre: number; width: number }>(labels: readonly Label[], gap: number) {
  const first = labels[0];
  const last = labels.at(-1);
  if (!first || !last || first === last) return [...labels];
  const clear = (a: Label, b: Label) => Math.abs(a.centre - b.centre) >= (a.width + b.width) / 2 + gap;
  const kept: Label[] = [first];
  for (const label of labels.slice(1, -1)) if (clear(kept.at(-1)!, label) && clear(label, last)) kept.push(label);
  if (clear(kept.at(-1)!, last)) kept.push(last);
  return kept;
}
