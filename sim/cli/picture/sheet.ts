/** Measures of the sheet, px. The strips' columns are one pixel wide. */
export const sheet = {
  width: 1200,
  left: 84,
  right: 24,
  top: 84,
  band: 20,
  strip: 64,
  head: 20,
  gap: 18,
} as const;
/** Pixel columns of the strips. */
export const columns = sheet.width - sheet.left - sheet.right;
/** Height of one axle line's row. */
export const row = sheet.head + sheet.band + 6 + sheet.strip + sheet.gap;

/** Cuts a text that would run into its neighbour. */
export function shortened(text: string, most: number): string {
  const letters = [...text];
  return letters.length <= most ? text : `${letters.slice(0, most - 1).join('')}…`;
}
