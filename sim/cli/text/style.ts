/** Emphasis for people at a terminal. Every mark that it sets also stands in words: colour is never alone. */
export interface Style {
  /** What held. */
  good(text: string): string;
  /** What failed. */
  bad(text: string): string;
  /** What the eye should meet first. */
  strong(text: string): string;
  /** What may be passed over. */
  faint(text: string): string;
}

const asIs = (text: string): string => text;

/** No emphasis: for files, pipes and whoever asks for none. */
export const plain: Style = { good: asIs, bad: asIs, strong: asIs, faint: asIs };

/** Wraps text in a 'select graphic rendition' sequence and takes it back after (ECMA-48, 8.3.117). */
const sgr =
  (on: number, off: number) =>
  (text: string): string =>
    `\u001b[${on}m${text}\u001b[${off}m`;

/** Emphasis by terminal sequences. */
export const coloured: Style = { good: sgr(32, 39), bad: sgr(31, 39), strong: sgr(1, 22), faint: sgr(2, 22) };

/**
 * Which style a stream gets: colour only on a terminal, and not when NO_COLOR is set to anything but nothing
 * (https://no-color.org) or the terminal calls itself dumb.
 */
export function styleFor(
  stream: { readonly isTTY?: boolean },
  environment: Readonly<Record<string, string | undefined>>,
): Style {
  const { NO_COLOR: refused = '', TERM: terminal } = environment;
  return stream.isTTY === true && refused === '' && terminal !== 'dumb' ? coloured : plain;
}
