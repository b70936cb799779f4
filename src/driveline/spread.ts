/** A stretch of neighbours that would overlap at their wanted places: they stand side by side round their mean. */
interface Block {
  sum: number;
  count: number;
}

const meanOf = ({ sum, count }: Block): number => sum / count;

/**
 * Puts boxes side by side in their order, each as near to where it is wanted as that allows (least squares: the pool
 * adjacent violators algorithm of isotonic regression, Barlow et al. 1972, from memory), within `from` and `to`. Boxes
 * that are too wide together get narrower alike.
 * @param wanted wanted middles, px
 * @param widths px
 * @returns middles, px
 */
export function spread(
  wanted: readonly number[],
  widths: readonly number[],
  from: number,
  to: number,
): readonly number[] {
  const total = widths.reduce((sum, width) => sum + width, 0);
  const fit = total > to - from && total > 0 ? Math.max(0, to - from) / total : 1;
  const slim = widths.map((width) => width * fit);
  // Middles less the room that the boxes before them need only have to be in order.
  const offsets: number[] = [];
  slim.forEach((width, i) => {
    offsets.push(i === 0 ? 0 : (offsets[i - 1] as number) + ((slim[i - 1] as number) + width) / 2);
  });
  const blocks: Block[] = [];
  wanted.forEach((at, i) => {
    let block: Block = { sum: at - (offsets[i] as number), count: 1 };
    for (let last = blocks.at(-1); last !== undefined && meanOf(last) > meanOf(block); last = blocks.at(-1)) {
      block = { sum: block.sum + last.sum, count: block.count + last.count };
      blocks.pop();
    }
    blocks.push(block);
  });
  const least = from + (slim[0] ?? 0) / 2;
  const most = to - (slim.at(-1) ?? 0) / 2 - (offsets.at(-1) ?? 0);
  const placed = blocks.flatMap((block) => Array<number>(block.count).fill(meanOf(block)));
  return placed.map((at, i) => Math.min(Math.max(at, least), Math.max(least, most)) + (offsets[i] as number));
}
