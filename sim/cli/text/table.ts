import { widthOf } from './clean.ts';

/** A column of a table: its head, and to which side its cells keep. */
export interface Column {
  readonly head: string;
  readonly align: 'left' | 'right';
}

/** Fills a text with spaces up to a width, on the side that it does not keep to. */
function fill(text: string, width: number, align: Column['align']): string {
  const gap = ' '.repeat(Math.max(0, width - widthOf(text)));
  return align === 'left' ? text + gap : gap + text;
}

/**
 * Lines of a table: heads, then one line per row, columns as wide as their widest cell and two spaces apart. No line
 * ends in a space. A row may leave cells at its end out.
 */
export function table(columns: readonly Column[], rows: readonly (readonly string[])[]): string[] {
  const lines = [columns.map((column) => column.head), ...rows];
  const widths = columns.map((_, c) => Math.max(...lines.map((line) => widthOf(line[c] ?? ''))));
  return lines.map((line) =>
    columns
      .map(({ align }, c) => fill(line[c] ?? '', widths[c] ?? 0, align))
      .join('  ')
      .trimEnd(),
  );
}

/** A space at which a line may break: any but that between a figure and its unit. */
const GAP = /(?<!\d) | (?![%°A-Za-z·/²³]{1,6}(?:[\s.,;:)]|$))/;

/**
 * Breaks a text into lines no wider than `width`, at spaces; a word longer than that stands alone on its line, and a
 * figure stays with its unit.
 */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(GAP)) {
    if (line !== '' && widthOf(line) + 1 + widthOf(word) > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return line === '' ? lines : [...lines, line];
}
