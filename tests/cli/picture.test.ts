import { describe, expect, it } from 'vitest';
import { bandOf, offColumns } from '../../sim/cli/picture/band.ts';
import { type LoadPicture, loadsSvg } from '../../sim/cli/picture/loads.ts';
import { shareColour } from '../../sim/cli/picture/palette.ts';
import { envelopeOf, linesOf } from '../../sim/cli/picture/pixels.ts';
import { escapeXml, polyline, px } from '../../sim/cli/picture/svg.ts';

const FRAMES = 20_000;

/** A steady load with one blow and one lift, each of a single frame, in a run of 20,000. */
function spiky(): Float64Array {
  const load = new Float64Array(FRAMES).fill(10);
  load[7_003] = 37;
  load[12_345] = 0;
  return load;
}

const stations = Float64Array.from({ length: FRAMES }, (_, i) => (2 * i) / (FRAMES - 1));

function picture(changes: Partial<LoadPicture> = {}): LoadPicture {
  return {
    title: 'Made-up truck over a step',
    subtitle: 'Made-up 4x4. Arrived at station 2 m after 4 s.',
    over: 'station',
    ground: { x: [-1e6, 0, 1, 1, 2, 1e6], z: [0, 0, 0, 0.04, 0.04, 0.04] },
    wheels: [
      { name: 'front', axle: 1, count: 2, standing: 10, x: stations, load: spiky(), timeOff: 1 / FRAMES },
    ],
    verdicts: [
      { pass: false, asks: 'Every wheel keeps 20 % of its load', says: 'The front wheel keeps 0 %.' },
    ],
    ...changes,
  };
}

/** Tags that were opened and never closed, or closed and never opened: a well-formed document has none. */
function unbalanced(svg: string): string[] {
  const open: string[] = [];
  for (const [, closing, name = '', selfClosing] of svg.matchAll(/<(\/?)([a-zA-Z]+)(?:\s[^<>]*?)?(\/?)>/g)) {
    if (closing === '/') {
      if (open.at(-1) !== name) return [...open, `/${name}`];
      open.pop();
    } else if (selfClosing !== '/') {
      open.push(name);
    }
  }
  return open;
}

describe('the envelope of a line', () => {
  it('keeps a blow and a lift of one frame among 20,000 on 1000 pixels', () => {
    const { least, greatest } = envelopeOf(stations, spiky(), 0, 2, 1000);
    expect(Math.max(...greatest)).toBe(37);
    expect(Math.min(...least)).toBe(0);
    // All other columns saw nothing but the steady load.
    expect(greatest.filter((value) => value > 10).length).toBeLessThanOrEqual(2);
  });

  it('runs straight between samples that are many pixels apart', () => {
    const { least, greatest } = envelopeOf([0, 10], [0, 10], 0, 10, 10);
    expect([...least]).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect([...greatest]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  });

  it('follows a vehicle that rolls back', () => {
    const { least, greatest } = envelopeOf([0, 4, 1], [1, 1, 5], 0, 4, 4);
    expect([...least]).toEqual([1, 1, 1, 1]);
    expect(greatest[1]).toBe(5);
    expect(greatest[0]).toBe(5);
    expect(greatest[3]).toBeLessThan(3);
  });

  it('is the line itself where only a part of it is in sight', () => {
    const { least, greatest } = envelopeOf([-1e6, 1e6], [0, 0], 0, 4, 4);
    expect([...least, ...greatest]).toEqual([0, 0, 0, 0, 0, 0, 0, 0]);
  });

  it('has nothing where the line never comes by, and its lines break there', () => {
    const envelope = envelopeOf([0, 1], [3, 3], 0, 4, 4);
    expect(envelope.least[3]).toBeNaN();
    expect(linesOf(envelope)).toEqual([
      [
        [0.5, 3],
        [1.5, 3],
      ],
    ]);
  });
});

describe('a band', () => {
  it('shows in each column the load that is farthest from the standing one', () => {
    const envelope = { least: Float64Array.of(10, 4, 9, 0), greatest: Float64Array.of(10, 12, 19, 10) };
    expect(bandOf(envelope, 10).map(({ share }) => Number(share.toFixed(2)))).toEqual([1, 0.4, 1.9, 0]);
    expect(offColumns(envelope)).toEqual([{ from: 3, to: 4 }]);
  });

  it('joins columns of one share, and is clamped at twice the standing load', () => {
    const envelope = { least: Float64Array.of(10, 10, 90, 50), greatest: Float64Array.of(10, 10, 90, 50) };
    expect(bandOf(envelope, 10)).toEqual([
      { from: 0, to: 2, share: 1 },
      { from: 2, to: 4, share: 2 },
    ]);
  });

  it('calls every load of a wheel that stands in the air heavy', () => {
    const envelope = { least: Float64Array.of(0, 1), greatest: Float64Array.of(0, 1) };
    expect(bandOf(envelope, 0).map(({ share }) => share)).toEqual([1, 2]);
  });
});

describe('the colour of a load share', () => {
  it('goes from orange over the neutral paper grey to violet', () => {
    expect([0, 0.5, 1, 1.5, 2].map(shareColour)).toEqual([
      '#e66101',
      '#fdb863',
      '#f1eee8',
      '#b2abd2',
      '#5e3c99',
    ]);
  });

  it('stops at twice the standing load', () => {
    expect(shareColour(7)).toBe(shareColour(2));
  });
});

describe('SVG text', () => {
  it('escapes markup and drops what XML does not know', () => {
    expect(escapeXml('<b>&"\u0007\u202e')).toBe('&lt;b&gt;&amp;&quot;��');
  });

  it('writes coordinates with a tenth of a pixel', () => {
    expect([px(1 / 3), px(5), px(12.04)]).toEqual(['0.3', '5', '12']);
  });

  it('draws level stretches as one stroke', () => {
    expect(
      polyline([
        [0, 1],
        [1, 1],
        [2, 1],
        [3, 2],
        [4, 2],
        [5, 2],
      ]),
    ).toBe('M0 1L2 1L3 2L5 2');
  });
});

describe('the picture of wheel loads', () => {
  it('is one well-formed document without a number that is none', () => {
    const svg = loadsSvg(picture());
    expect(svg).toMatch(/^<svg [^>]*viewBox="0 0 1200 \d/);
    expect(unbalanced(svg)).toEqual([]);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('names the wheel, its extremes and the verdict', () => {
    const svg = loadsSvg(picture());
    for (const part of [
      'front',
      'standing 10.0 N, least 0.0 N, greatest 37.0 N',
      '✕ fail',
      'Every wheel keeps 20 % of its load',
    ])
      expect(svg).toContain(part);
  });

  it('hatches where the wheel is off the ground, and nowhere else', () => {
    const hatched = (svg: string): number => svg.match(/fill="url\(#off\)"/g)?.length ?? 0;
    const steady = picture({
      wheels: [
        {
          name: 'a',
          axle: 1,
          count: 2,
          standing: 10,
          x: stations,
          load: new Float64Array(FRAMES).fill(10),
          timeOff: 0,
        },
      ],
    });
    // The legend has one such field.
    expect(hatched(loadsSvg(steady))).toBe(1);
    expect(hatched(loadsSvg(picture()))).toBe(2);
  });

  it('breaks long verdicts instead of cutting them, and grows with them', () => {
    const words = Array.from({ length: 60 }, (_, i) => `word${i}`).join(' ');
    const long = loadsSvg(picture({ verdicts: [{ pass: true, asks: 'Short', says: words }] }));
    for (const line of long.matchAll(/<text[^>]*>([^<]*)</g))
      expect((line[1] ?? '').length).toBeLessThan(170);
    expect(long).toContain('word59<');
    const heightOf = (svg: string): number => Number(/ height="(\d+)/.exec(svg)?.[1]);
    expect(heightOf(long)).toBeGreaterThan(heightOf(loadsSvg(picture())));
  });

  it('keeps the words of a hostile scenario inside their tags', () => {
    const svg = loadsSvg(picture({ title: '</text><script>alert(1)</script>', subtitle: '" onload="x' }));
    expect(svg).not.toContain('<script');
    expect(unbalanced(svg)).toEqual([]);
  });

  it('is drawn over time, without ground, where the vehicle stays put', () => {
    const svg = loadsSvg(picture({ over: 'time' }));
    expect(svg).toContain('time, s');
    expect(svg).not.toContain('url(#earth)');
  });

  it('says by which factor the heights of a shallow ground are drawn larger', () => {
    const ground = { x: [0, 1, 1.1, 2], z: [0, 0, 0.004, 0] };
    expect(loadsSvg(picture({ ground }))).toMatch(/height ×\d+</);
    // 40 mm over 2 m is 22 px at the scale of the axis: seen as it is.
    expect(loadsSvg(picture())).not.toMatch(/height ×/);
  });

  it.each([1, 16])('has %i axle lines below each other', (count) => {
    const wheels = Array.from({ length: count }, (_, i) => ({
      name: `axle line ${i + 1}`,
      axle: i + 1,
      count: 2,
      standing: 10,
      x: stations,
      load: spiky(),
      timeOff: 0,
    }));
    const svg = loadsSvg(picture({ wheels }));
    const names = [...svg.matchAll(/<text x="84" y="(\d+(?:\.\d)?)"><tspan/g)].map(([, y]) => Number(y));
    expect(names).toHaveLength(count);
    expect(names.slice(1).every((y, i) => y - (names[i] ?? 0) > 100)).toBe(true);
  });

  it('can be made of a run that ended in its first frame', () => {
    const wheels = [
      { name: 'a', axle: 1, count: 2, standing: 0, x: [0.5], load: [0], timeOff: 1 },
      { name: 'b', axle: 2, count: 2, standing: 5, x: [0.5], load: [5], timeOff: 0 },
    ];
    expect(loadsSvg(picture({ wheels }))).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('is the same for the same run, to the byte', () => {
    expect(loadsSvg(picture())).toBe(loadsSvg(picture()));
  });
});
