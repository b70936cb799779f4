/**
 * A number for a CSV file: nine significant digits (a micrometre in a kilometre, and far below what the model is
 * good for), point as decimal mark, an exponent only where JavaScript writes one.
 * @throws RangeError for anything that is not a finite number: such a thing never reaches a file
 */
export function nineDigits(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is not a finite number`);
  return value === 0 ? '0' : String(Number(value.toPrecision(9)));
}

/**
 * A cell of text in a CSV file: quoted when it holds a comma, a quote or a line break (RFC 4180, section 2). Names come
 * from documents of strangers, and a spreadsheet reads a cell that begins with = + - @ as a formula, which may fetch
 * things: an apostrophe goes before it (OWASP, CSV injection).
 */
export function cell(text: string): string {
  const plain = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}
