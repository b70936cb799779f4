/** What an attribute may hold. */
export type Attributes = Readonly<Record<string, string | number>>;

/** Characters that XML 1.0 (section 2.2) does not allow at all, together with the bidirectional controls. */
const FORBIDDEN = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]|[\u202a-\u202e\u2066-\u2069]/gu;

/** Text made safe inside an XML document, between tags as well as in an attribute. */
export function escapeXml(text: string): string {
  return text
    .replace(FORBIDDEN, '�')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** A coordinate with a tenth of a pixel: no eye sees less, and the file stays small. */
export function px(value: number): string {
  const shown = value.toFixed(1);
  return shown.endsWith('.0') ? shown.slice(0, -2) : shown;
}

/** One element; numbers among the attributes are coordinates. `inside` is markup, not text. */
export function tag(name: string, attributes: Attributes, inside = ''): string {
  const written = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? px(value) : escapeXml(value)}"`)
    .join('');
  return inside === '' ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** A line of text at a place. */
export function label(x: number, y: number, text: string, attributes: Attributes = {}): string {
  return tag('text', { x, y, ...attributes }, escapeXml(text));
}

/** A line through points; neighbours at the same height are drawn as one stroke. */
export function polyline(points: readonly (readonly [x: number, y: number])[]): string {
  const shown = points.map(([x, y]) => [px(x), px(y)] as const);
  const kept = shown.filter(
    ([, y], i) => i === 0 || i === shown.length - 1 || shown[i - 1]?.[1] !== y || shown[i + 1]?.[1] !== y,
  );
  return kept.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x} ${y}`).join('');
}
