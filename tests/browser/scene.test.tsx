import { act, type ReactNode } from 'react';
import { createRoot, type Root } from 'react-dom/client';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { column } from '../../shared/recording.ts';
import { SceneView } from '../../src/canvas/SceneView.tsx';
import { Bands } from '../../src/charts/Bands.tsx';
import { numberOf, shareColour } from '../../src/charts/colour.ts';
import { GUTTER, toPixel } from '../../src/charts/layout.ts';
import { palettes } from '../../src/charts/palette.ts';
import { Strips } from '../../src/charts/Strips.tsx';
import { Playhead } from '../../src/playhead.ts';
import { Viewport } from '../../src/viewport.ts';
import { solveCorrie } from './fixture.ts';

const solved = solveCorrie();
const { recording, mechanism, ground } = solved;
const look = { theme: 'light', still: false } as const;
const WIDTH = 1000;

let host: HTMLElement;
let root: Root;
let playhead: Playhead;
let viewport: Viewport;
let followed: boolean[];

beforeEach(() => {
  host = document.createElement('div');
  host.style.cssText = `width: ${WIDTH}px; position: absolute; left: 0; top: 0`;
  document.body.append(host);
  root = createRoot(host);
  playhead = new Playhead();
  viewport = new Viewport();
  followed = [];
  Object.assign(globalThis, { IS_REACT_ACT_ENVIRONMENT: true });
});

afterEach(async () => {
  await act(async () => root.unmount());
  host.remove();
});

async function mount(children: ReactNode): Promise<void> {
  await act(async () => root.render(children));
}

/** Waits until the picture has been drawn for the frame of the playhead. */
async function drawn(): Promise<HTMLElement> {
  const view = () => host.querySelector<HTMLElement>('.scene-view');
  await expect.poll(() => view()?.dataset.frame, { timeout: 15_000 }).toBe(String(playhead.frame));
  return view() as HTMLElement;
}

function scene(follow = false, before: typeof solved | null = null) {
  return (
    <div style={{ height: 420 }}>
      <SceneView
        solved={solved}
        before={before}
        playhead={playhead}
        viewport={viewport}
        look={look}
        follow={follow}
        onFollow={(on) => followed.push(on)}
      />
    </div>
  );
}

/** Colours of a canvas by place in CSS px, as it is now. */
function pixelsOf(canvas: HTMLCanvasElement): (x: number, y: number) => number {
  const copy = document.createElement('canvas');
  copy.width = canvas.width;
  copy.height = canvas.height;
  const draw = copy.getContext('2d', { willReadFrequently: true }) as CanvasRenderingContext2D;
  draw.drawImage(canvas, 0, 0);
  const { data } = draw.getImageData(0, 0, copy.width, copy.height);
  const k = canvas.width / canvas.getBoundingClientRect().width;
  return (x, y) => {
    const i = 4 * (Math.round(y * k) * copy.width + Math.round(x * k));
    return ((data[i] ?? 0) << 16) | ((data[i + 1] ?? 0) << 8) | (data[i + 2] ?? 0);
  };
}

function near(a: number, b: number): number {
  const part = (c: number, shift: number) => (c >> shift) & 255;
  return Math.max(...[16, 8, 0].map((s) => Math.abs(part(a, s) - part(b, s))));
}

/** A frame in which a wheel is off the ground, and the wheel. */
function lifted(): { frame: number; wheel: number } {
  for (let wheel = 0; wheel < mechanism.wheels.length; wheel++) {
    const frame = column(recording, 'gap', wheel).findIndex((gap) => gap > 1e-4);
    if (frame >= 0) return { frame, wheel };
  }
  throw new Error('no wheel leaves the ground in this run');
}

describe('the scene', () => {
  it('shows the whole ground of a run that it sees for the first time', async () => {
    await mount(scene());
    await drawn();
    expect(viewport.window.from).toBeLessThanOrEqual(ground.from + 1e-9);
    expect(viewport.window.to).toBeGreaterThanOrEqual(ground.to - 1e-9);
  });

  it('fills each wheel with the colour of its share of the standing load, on the station of its hub', async () => {
    await mount(scene());
    await drawn();
    // Past the step, in the middle of the run: shares differ there.
    playhead.show(Math.round(recording.frames * 0.35));
    const view = await drawn();
    const canvas = view.querySelector('canvas') as HTMLCanvasElement;
    const pixel = pixelsOf(canvas);
    const scale = (WIDTH - GUTTER.left - GUTTER.right) / (viewport.window.to - viewport.window.from);
    mechanism.wheels.forEach((wheel, i) => {
      const pose = wheelHub(i);
      const x = toPixel(pose.x, viewport.window, WIDTH);
      const share =
        (column(recording, 'load', i)[playhead.frame] as number) / (recording.standing.loads[i] as number);
      const expected = shareColour(share, palettes.light);
      // Anywhere on the tyre between rim and tread: most of it is free of linkage and marks.
      const radius = wheel.radius * scale * 0.8;
      const found = heights(canvas).some(
        (y) =>
          Array.from({ length: 16 }, (_, k) => (k * Math.PI) / 8).filter((angle) => {
            const seen = pixel(x + radius * Math.cos(angle), y + radius * Math.sin(angle));
            return near(seen, expected) <= 2;
          }).length >= 6,
      );
      expect(found, `${wheel.name} at share ${share.toFixed(2)}`).toBe(true);
    });

    function wheelHub(i: number) {
      const wheel = mechanism.wheels[i] as (typeof mechanism.wheels)[number];
      const f = playhead.frame;
      const angle = column(recording, 'angle', wheel.body)[f] as number;
      const x = column(recording, 'x', wheel.body)[f] as number;
      return { x: x + Math.cos(angle) * wheel.hub.x - Math.sin(angle) * wheel.hub.z };
    }
    function heights(canvas: HTMLCanvasElement): number[] {
      return Array.from({ length: Math.floor(canvas.clientHeight / 4) }, (_, k) => k * 4);
    }
  }, 30_000);

  it('goes along with the vehicle when it is asked to, and not when it is not', async () => {
    await mount(scene());
    await drawn();
    viewport.show({ from: 0, to: 0.8 });
    playhead.show(recording.frames - 1);
    await drawn();
    expect(viewport.window).toEqual({ from: 0, to: 0.8 });
    await mount(scene(true));
    await expect
      .poll(() => viewport.window.to)
      .toBeGreaterThan(column(recording, 'station')[recording.frames - 1] as number);
    expect(viewport.window.to - viewport.window.from).toBeCloseTo(0.8, 9);
  });

  it('pans by a drag, keeps the scale, and says that it no longer follows', async () => {
    await mount(scene());
    const view = await drawn();
    const was = viewport.window;
    const at = (type: string, clientX: number) =>
      view.dispatchEvent(
        new PointerEvent(type, { clientX, clientY: 200, pointerId: 1, button: 0, bubbles: true }),
      );
    view.setPointerCapture = () => undefined;
    at('pointerdown', 500);
    at('pointermove', 400);
    at('pointerup', 400);
    const scale = (WIDTH - GUTTER.left - GUTTER.right) / (was.to - was.from);
    expect(viewport.window.from - was.from).toBeCloseTo(100 / scale, 9);
    expect(viewport.window.to - viewport.window.from).toBeCloseTo(was.to - was.from, 9);
    expect(followed).toEqual([false]);
  });

  it('zooms at the pointer with the wheel', async () => {
    await mount(scene());
    const view = await drawn();
    const was = viewport.window;
    const station =
      was.from + ((600 - GUTTER.left) / (WIDTH - GUTTER.left - GUTTER.right)) * (was.to - was.from);
    view.dispatchEvent(
      new WheelEvent('wheel', { deltaY: -200, clientX: 600, clientY: 150, bubbles: true, cancelable: true }),
    );
    expect(viewport.window.to - viewport.window.from).toBeLessThan(was.to - was.from);
    expect(toPixel(station, viewport.window, WIDTH)).toBeCloseTo(600, 6);
  });

  it('shows the run before as well, and lets go of its canvas when it is taken away', async () => {
    const before = solveCorrie((d) => {
      d.vehicle.drive.speed = '0.2 m/s';
      d.run = { ...d.run, time: '1 s' } as typeof d.run;
    });
    await mount(scene(false, before));
    const view = await drawn();
    expect(view.textContent).toContain('run before');
    await mount(<div />);
    expect(host.querySelector('canvas')).toBeNull();
  });

  it('tells what it shows to those who do not see it', async () => {
    await mount(scene());
    const label = (await drawn()).getAttribute('aria-label') ?? '';
    expect(label).toContain(solved.report.vehicle);
    expect(label).toContain('3 axle lines');
  });

  it('draws in webgl as well', async () => {
    const address = window.location.href;
    window.history.replaceState(null, '', '?renderer=webgl');
    try {
      await mount(scene());
      expect((await drawn()).dataset.renderer).toContain('webgl');
    } finally {
      window.history.replaceState(null, '', address);
    }
  });

  it('draws each frame within the picture in which the playhead moved, and tells what script that took', async ({
    annotate,
  }) => {
    await mount(scene(true));
    const view = await drawn();
    viewport.show({ from: 0, to: 0.8 });
    const times: number[] = [];
    for (let i = 0; i < 150; i++) {
      playhead.show(200 + i * 6);
      await drawnNow();
      times.push(Number(view.dataset.scriptTime));
    }
    times.sort((a, b) => a - b);
    const at = (share: number) => times[Math.floor(share * (times.length - 1))] as number;
    await annotate(
      `script per frame, ${view.dataset.renderer}: median ${at(0.5)} ms, 95 % ${at(0.95)} ms, worst ${at(1)} ms`,
    );
    expect(times).toHaveLength(150);

    async function drawnNow(): Promise<void> {
      await new Promise((go) => requestAnimationFrame(go));
      expect(view.dataset.frame).toBe(String(playhead.frame));
    }
  }, 30_000);
});

describe('bands', () => {
  const bands = (axis: 'station' | 'time' = 'station') => (
    <Bands solved={solved} before={null} playhead={playhead} viewport={viewport} look={look} axis={axis} />
  );

  it('hatch a lift-off straight under the place where it happened, and mark each wheel over its own station', async () => {
    viewport.show({ from: ground.from, to: ground.to });
    const { frame, wheel } = lifted();
    playhead.show(frame);
    await mount(bands());
    const here = () => [...host.querySelectorAll<HTMLElement>('.band-here')];
    await expect.poll(() => here().length).toBe(mechanism.wheels.length);
    const order = mechanism.wheels.map((w, i) => ({ axle: w.axle, i })).sort((a, b) => a.axle - b.axle);
    const row = order.findIndex(({ i }) => i === wheel);
    const x = toPixel(column(recording, 'wheelStation', wheel)[frame] as number, viewport.window, WIDTH);
    const mark = here()[row] as HTMLElement;
    await expect.poll(() => mark.getBoundingClientRect().left + 1).toBeCloseTo(Math.round(x), 0);
    const box = mark.getBoundingClientRect();
    const canvas = host.querySelector('canvas') as HTMLCanvasElement;
    const top = box.top - canvas.getBoundingClientRect().top + 3;
    const pixel = pixelsOf(canvas);
    const colours = Array.from({ length: 14 }, (_, k) => pixel(x, top + k));
    // Hatched: both the scale's orange and the paper between, one under the other.
    expect(colours.some((c) => near(c, numberOf(palettes.light.low)) < 24)).toBe(true);
    expect(colours.some((c) => near(c, numberOf(palettes.light.paper)) < 60)).toBe(true);
  });

  it('show the load of each wheel and move the cursor with the playhead', async () => {
    viewport.show({ from: ground.from, to: ground.to });
    await mount(bands());
    const cursor = host.querySelector('.chart-cursor') as HTMLElement;
    playhead.show(300);
    const x = toPixel(column(recording, 'station')[300] as number, viewport.window, WIDTH);
    await expect.poll(() => cursor.getBoundingClientRect().left + 0.5).toBeCloseTo(Math.round(x), 0);
    const loads = [...host.querySelectorAll('.band-load')].map((e) => e.textContent);
    expect(loads).toHaveLength(3);
    expect(loads[0]).toMatch(/^\d+\.\d N$/);
  });

  it('take the playhead to the moment at which the wheel of that band was at the place clicked', async () => {
    viewport.show({ from: ground.from, to: ground.to });
    await mount(bands());
    const { frame, wheel } = lifted();
    const station = column(recording, 'wheelStation', wheel);
    const axle = (mechanism.wheels[wheel] as (typeof mechanism.wheels)[number]).axle;
    const mark = host.querySelectorAll<HTMLElement>('.band-here')[axle - 1] as HTMLElement;
    const canvas = host.querySelector('canvas') as HTMLCanvasElement;
    canvas.setPointerCapture = () => undefined;
    const clientX =
      canvas.getBoundingClientRect().left + toPixel(station[frame] as number, viewport.window, WIDTH);
    const clientY = mark.getBoundingClientRect().top + 8;
    canvas.dispatchEvent(
      new PointerEvent('pointerdown', { clientX, clientY, pointerId: 1, button: 0, bubbles: true }),
    );
    // One px is some 2 mm of ground here.
    expect(Math.abs((station[playhead.frame] as number) - (station[frame] as number))).toBeLessThan(0.003);
  });

  it('are described in words', async () => {
    await mount(bands());
    const words = host.querySelector('figcaption')?.textContent ?? '';
    for (const { name } of mechanism.wheels) expect(words).toContain(`${name}: from`);
    expect(words).toContain('off the ground');
  });

  it('run over time as well', async () => {
    viewport.show({ from: ground.from, to: ground.to });
    await mount(bands('time'));
    const end = recording.frames - 1;
    playhead.show(end);
    const cursor = host.querySelector('.chart-cursor') as HTMLElement;
    await expect.poll(() => cursor.getBoundingClientRect().left + 0.5).toBeCloseTo(WIDTH - GUTTER.right, 0);
  });
});

describe('strips', () => {
  it('put a dot on every curve at the wheel that it belongs to, and can be read as a table', async () => {
    viewport.show({ from: ground.from, to: ground.to });
    playhead.show(400);
    await mount(
      <Strips
        solved={solved}
        before={solved}
        playhead={playhead}
        viewport={viewport}
        look={look}
        axis="station"
      />,
    );
    const dots = () => [...host.querySelectorAll<HTMLElement>('.strip-dot')];
    expect(dots()).toHaveLength(7);
    const first = mechanism.wheels.findIndex((w) => w.axle === 1);
    const x = toPixel(column(recording, 'wheelStation', first)[400] as number, viewport.window, WIDTH);
    await expect.poll(() => (dots()[0]?.getBoundingClientRect().left ?? 0) + 4).toBeCloseTo(x, -0.5);
    const button = host.querySelector('button') as HTMLButtonElement;
    await act(async () => button.click());
    const rows = host.querySelectorAll('tbody tr');
    expect(rows.length).toBeGreaterThan(100);
    expect(rows.length).toBeLessThanOrEqual(200);
    expect(host.querySelectorAll('thead th')).toHaveLength(9);
    await act(async () => button.click());
    expect(host.querySelector('canvas')).not.toBeNull();
  });
});
