import { nearest } from '../near.ts';
import type { Powers } from './dimensions.ts';

/** What one of a unit is in SI. */
export interface Unit {
  readonly factor: number;
  readonly powers: Powers;
}

/** Factors of the SI prefixes that a unit here may carry. */
const prefixes: Readonly<Record<string, number>> = {
  n: 1e-9,
  µ: 1e-6,
  μ: 1e-6,
  u: 1e-6,
  m: 1e-3,
  c: 1e-2,
  d: 1e-1,
  h: 1e2,
  k: 1e3,
  M: 1e6,
  G: 1e9,
};

interface SymbolRow extends Unit {
  /** Prefixes that people put in front of it; others are taken for a slip ('Mm' for 'mm'). */
  readonly takes?: string;
}

const length: Powers = [1, 0, 0, 0, 0, 0];
const mass: Powers = [0, 1, 0, 0, 0, 0];
const time: Powers = [0, 0, 1, 0, 0, 0];
const angle: Powers = [0, 0, 0, 1, 0, 0];
const force: Powers = [1, 1, -2, 0, 0, 0];
const energy: Powers = [2, 1, -2, 0, 0, 0];
const stress: Powers = [-1, 1, -2, 0, 0, 0];
const ohm: Powers = [2, 1, -3, 0, -2, 0];
const none: Powers = [0, 0, 0, 0, 0, 0];

/** Exact by definition: the pound is 0.45359237 kg, standard gravity 9.80665 m/s², the inch 25.4 mm (NIST SP 811). */
const pound = 0.45359237;
const standardGravity = 9.80665;
const inch = 0.0254;
const degree = Math.PI / 180;

/** Unit symbols. SI and units accepted beside it: SI brochure, 9th edition; inch and pound units: NIST SP 811. */
const symbols: Readonly<Record<string, SymbolRow>> = {
  m: { factor: 1, powers: length, takes: 'nµμumcdk' },
  in: { factor: inch, powers: length },
  ft: { factor: 12 * inch, powers: length },
  g: { factor: 1e-3, powers: mass, takes: 'mk' },
  t: { factor: 1e3, powers: mass },
  lb: { factor: pound, powers: mass },
  oz: { factor: pound / 16, powers: mass },
  s: { factor: 1, powers: time, takes: 'nµμum' },
  min: { factor: 60, powers: time },
  h: { factor: 3600, powers: time },
  rad: { factor: 1, powers: angle, takes: 'm' },
  deg: { factor: degree, powers: angle },
  degree: { factor: degree, powers: angle },
  degrees: { factor: degree, powers: angle },
  '°': { factor: degree, powers: angle },
  rev: { factor: 2 * Math.PI, powers: angle },
  turn: { factor: 2 * Math.PI, powers: angle },
  N: { factor: 1, powers: force, takes: 'mcdkM' },
  lbf: { factor: pound * standardGravity, powers: force },
  kgf: { factor: standardGravity, powers: force },
  J: { factor: 1, powers: energy, takes: 'mkM' },
  W: { factor: 1, powers: [2, 1, -3, 0, 0, 0], takes: 'mkM' },
  Pa: { factor: 1, powers: stress, takes: 'hkMG' },
  bar: { factor: 1e5, powers: stress, takes: 'm' },
  psi: { factor: (pound * standardGravity) / inch ** 2, powers: stress },
  Hz: { factor: 1, powers: [0, 0, -1, 0, 0, 0], takes: 'mkM' },
  rpm: { factor: (2 * Math.PI) / 60, powers: [0, 0, -1, 1, 0, 0] },
  mph: { factor: (5280 * 12 * inch) / 3600, powers: [1, 0, -1, 0, 0, 0] },
  V: { factor: 1, powers: [2, 1, -3, 0, -1, 0], takes: 'mk' },
  A: { factor: 1, powers: [0, 0, 0, 0, 1, 0], takes: 'µμumk' },
  Ah: { factor: 3600, powers: [0, 0, 1, 0, 1, 0], takes: 'm' },
  Wh: { factor: 3600, powers: energy, takes: 'mk' },
  C: { factor: 1, powers: [0, 0, 1, 0, 1, 0], takes: 'mk' },
  Ω: { factor: 1, powers: ohm, takes: 'µμumk' },
  ohm: { factor: 1, powers: ohm, takes: 'µμumk' },
  K: { factor: 1, powers: [0, 0, 0, 0, 0, 1], takes: 'm' },
  gn: { factor: standardGravity, powers: [1, 0, -2, 0, 0, 0] },
  '%': { factor: 0.01, powers: none },
  '‰': { factor: 0.001, powers: none },
};

/** What people write that is no symbol here, and the symbol that they mean. */
const slips: Readonly<Record<string, string>> = {
  sec: 's',
  secs: 's',
  second: 's',
  seconds: 's',
  msec: 'ms',
  minute: 'min',
  minutes: 'min',
  hr: 'h',
  hour: 'h',
  hours: 'h',
  metre: 'm',
  metres: 'm',
  meter: 'm',
  meters: 'm',
  millimetre: 'mm',
  millimetres: 'mm',
  millimeter: 'mm',
  millimeters: 'mm',
  centimetre: 'cm',
  centimetres: 'cm',
  centimeter: 'cm',
  centimeters: 'cm',
  inch: 'in',
  inches: 'in',
  '"': 'in',
  '″': 'in',
  '”': 'in',
  "'": 'ft',
  foot: 'ft',
  feet: 'ft',
  gram: 'g',
  grams: 'g',
  gramme: 'g',
  grammes: 'g',
  gr: 'g',
  kilo: 'kg',
  kilos: 'kg',
  kilogram: 'kg',
  kilograms: 'kg',
  ton: 't',
  tons: 't',
  tonne: 't',
  tonnes: 't',
  lbs: 'lb',
  pound: 'lb',
  pounds: 'lb',
  newton: 'N',
  newtons: 'N',
  pascal: 'Pa',
  kph: 'km/h',
  kmh: 'km/h',
  kmph: 'km/h',
  radian: 'rad',
  radians: 'rad',
  percent: '%',
  pct: '%',
  revs: 'rev',
  hertz: 'Hz',
  fps: 'Hz',
  joule: 'J',
  joules: 'J',
  volt: 'V',
  volts: 'V',
  amp: 'A',
  amps: 'A',
  ampere: 'A',
  amperes: 'A',
  ohms: 'ohm',
  kelvin: 'K',
  watt: 'W',
  watts: 'W',
  º: '°',
};

const own = <T>(table: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined;

/** Unit of a symbol with or without prefix: 'mm', 'kN', 'rpm'; undefined when there is none. */
export function unitOfSymbol(symbol: string): Unit | undefined {
  const whole = own(symbols, symbol);
  if (whole !== undefined) return whole;
  const prefix = symbol.slice(0, 1);
  const base = own(symbols, symbol.slice(1));
  const factor = own(prefixes, prefix);
  if (base?.takes?.includes(prefix) !== true || factor === undefined) return undefined;
  return { factor: base.factor * factor, powers: base.powers };
}

/** All symbols with the prefixes that they take, for suggestions. */
export function allSymbols(): string[] {
  return Object.entries(symbols).flatMap(([symbol, row]) => [
    symbol,
    ...[...(row.takes ?? '')].filter((prefix) => !'μu'.includes(prefix)).map((prefix) => prefix + symbol),
  ]);
}

/** The symbol that a word or a wrongly written symbol stands for, where that is well known. */
export function slipOf(symbol: string): string | undefined {
  const word = symbol.toLowerCase();
  // Three letters and less are symbols, not words: nearness to a word says nothing about them.
  return (
    own(slips, word) ?? (word.length > 3 ? own(slips, nearest(word, Object.keys(slips)) ?? '') : undefined)
  );
}

/** 1/factor where that is a whole number (1000 for milli), undefined otherwise. */
function wholeParts(factor: number): number | undefined {
  const parts = Math.round(1 / factor);
  return factor < 1 && Math.abs(1 / factor - parts) <= 1e-12 * parts ? parts : undefined;
}

/**
 * A figure in a unit of this factor, in SI. With whole parts it divides, which rounds once: 9 mm is 0.009 m and not
 * 0.009000000000000001 m.
 */
export function scaled(figure: number, factor: number): number {
  const parts = wholeParts(factor);
  return parts === undefined ? figure * factor : figure / parts;
}

/** The inverse of `scaled`: an SI figure in a unit of this factor. */
export function unscaled(figure: number, factor: number): number {
  const parts = wholeParts(factor);
  return parts === undefined ? figure / factor : figure * parts;
}
