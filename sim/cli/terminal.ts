import { type Style, styleFor } from './text/style.ts';

/** A stream that text is written to; what node's standard streams offer. */
export interface Outlet {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

/** Where the command speaks: the result on one stream, everything about the work on the other. */
export interface Terminal {
  /** Writes a part of the result to standard output. */
  result(text: string): void;
  /** Writes a problem or a remark to standard error. */
  remark(text: string): void;
  /** Shows how far the work is: one line, rewritten in place, on a terminal only. Without a text it is taken away. */
  progress(text?: string): void;
  /** Emphasis for the result. */
  readonly style: Style;
  /** Width for the result's lines, characters. */
  readonly width: number;
}

/** Least time between two progress lines, ms: faster than that nobody reads. */
const PROGRESS_EVERY = 100;

/** Line width where there is no terminal, and the widest that is pleasant to read. */
const [PIPED_WIDTH, WIDEST] = [100, 120] as const;

/**
 * A terminal over two streams.
 * @param now clock, ms, for the pace of progress lines
 */
export function openTerminal(
  out: Outlet,
  error: Outlet,
  environment: Readonly<Record<string, string | undefined>>,
  now: () => number,
): Terminal {
  let shown = -Infinity;
  let standing = false;
  const take = (): void => {
    if (standing) error.write('\r\u001b[K');
    standing = false;
  };
  return {
    style: styleFor(out, environment),
    width: Math.min(WIDEST, Math.max(40, (out.isTTY === true && out.columns) || PIPED_WIDTH)),
    result(text) {
      take();
      out.write(text);
    },
    remark(text) {
      take();
      error.write(text);
    },
    progress(text) {
      if (error.isTTY !== true) return;
      if (text === undefined) return take();
      if (now() - shown < PROGRESS_EVERY) return;
      shown = now();
      standing = true;
      error.write(`\r\u001b[K${text}`);
    },
  };
}
